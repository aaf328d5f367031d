// Draws charts as SVG, without a browser: Observable Plot on a document of its own. Ink on paper; what tells series
// apart is fill and shape, so that a black-and-white print says the same.
import * as Plot from '@observablehq/plot';
import type { BarChart, Chart, DotChart, Fill, Mark } from './model.ts';
import { type Drawn, newSurface, type Surface } from './surface.ts';

const ink = '#1e211c';
const paper = '#fdfcf8';
/** Small enough that its letters can be read on a phone, where it is as wide as the page. */
const size = {
  width: 480,
  height: 250,
  marginLeft: 44,
  marginTop: 30,
  marginBottom: 46,
};

const fills: Readonly<Record<Fill, string>> = { solid: '#51564c', open: paper, hatched: 'url(#hatch)' };

/** The chart as an SVG element with title and description; nothing in it is loaded or run. */
export function drawChart(chart: Chart, number: number): string {
  const document = newSurface();
  const drawn = chart.is === 'bars' ? bars(chart, document) : dots(chart, document);
  const svg = drawn.tagName.toLowerCase() === 'svg' ? drawn : drawn.querySelector('svg');
  if (svg === null) throw new Error(`Nothing was drawn for "${chart.title}".`);
  svg.querySelector('style')?.remove();
  svg.removeAttribute('class');
  svg.setAttribute('font-size', '13');
  // As an image it is one thing; names of its parts would be none that anybody hears.
  for (const named of svg.querySelectorAll('[aria-label]')) named.removeAttribute('aria-label');
  const [title, description] = [`chart-${number}-title`, `chart-${number}-description`];
  svg.setAttribute('role', 'img');
  svg.setAttribute('aria-labelledby', `${title} ${description}`);
  svg.prepend(
    labelled(document, 'title', title, chart.title),
    labelled(document, 'desc', description, chart.description),
    hatching(document),
  );
  return svg.outerHTML
    .replaceAll('url(#hatch)', `url(#hatch-${number})`)
    .replace('id="hatch"', `id="hatch-${number}"`);
}

/** A small sample of a series for the key. */
export function swatch(kind: Fill | Mark, number: number): string {
  const shape = {
    solid: `<rect x="1" y="1" width="14" height="10" fill="${fills.solid}" stroke="${ink}"/>`,
    open: `<rect x="1" y="1" width="14" height="10" fill="${paper}" stroke="${ink}"/>`,
    hatched: `<rect x="1" y="1" width="14" height="10" fill="url(#hatch-${number})" stroke="${ink}"/>`,
    dot: `<circle cx="8" cy="6" r="4" fill="${ink}"/>`,
    ring: `<circle cx="8" cy="6" r="4" fill="${paper}" stroke="${ink}"/>`,
    square: `<rect x="4.5" y="2.5" width="7" height="7" fill="${ink}"/>`,
    frame: `<rect x="4.5" y="2.5" width="7" height="7" fill="${paper}" stroke="${ink}"/>`,
    cross: `<path d="M4 2 12 10 M12 2 4 10" stroke="${ink}" stroke-width="1.6"/>`,
  }[kind];
  return `<svg width="16" height="12" aria-hidden="true">${shape}</svg>`;
}

function bars({ across, up, categories, series }: BarChart, document: Surface): Drawn {
  const rows = series.flatMap(({ name, fill, values }) =>
    values.map((value, index) => ({ name, value, fill: fills[fill], category: categories[index] ?? '' })),
  );
  return plotted(document, {
    ...size,
    x: { type: 'band', domain: [...categories], label: across, padding: 0.18, labelArrow: 'none' },
    y: { label: up, labelArrow: 'none', tickFormat: 'd', ticks: wholeTicks(rows, categories), grid: true },
    marks: [
      Plot.barY(rows, {
        x: 'category',
        y: 'value',
        fill: 'fill',
        stroke: ink,
        order: series.map(({ fill }) => fills[fill]),
        z: 'fill',
      }),
      Plot.ruleY([0], { stroke: ink }),
    ],
  });
}

/** Stems are whole: no tick between two of them. */
function wholeTicks(
  rows: readonly { category: string; value: number }[],
  categories: readonly string[],
): number[] {
  const most = Math.max(
    1,
    ...categories.map((one) =>
      rows.filter(({ category }) => category === one).reduce((sum, { value }) => sum + value, 0),
    ),
  );
  const step = Math.max(1, Math.ceil(most / 6));
  return Array.from({ length: Math.floor(most / step) + 1 }, (_, index) => index * step);
}

function dots({ across, up, series, joined }: DotChart, document: Surface): Drawn {
  const of = (mark: Mark) => series.filter((one) => one.mark === mark).flatMap(({ points }) => [...points]);
  const all = series.flatMap(({ points }) => [...points]);
  const [xs, ys] = [all.map(([x]) => x), all.map(([, y]) => y)];
  return plotted(document, {
    ...size,
    x: { label: across, labelArrow: 'none', domain: [Math.min(...xs) - 1, Math.max(...xs) + 1], grid: true },
    y: { label: up, labelArrow: 'none', domain: [0, Math.max(1, ...ys) * 1.1], ticks: 5, grid: true },
    marks: [
      Plot.ruleY([0], { stroke: ink }),
      ...(joined === true ? series.map(({ mark, points }) => joining(mark, points)) : []),
      Plot.dot(of('frame'), { r: 4, symbol: 'square', fill: paper, stroke: ink }),
      Plot.dot(of('square'), { r: 4, symbol: 'square', fill: ink }),
      Plot.dot(of('ring'), { r: 4.5, fill: paper, stroke: ink }),
      Plot.dot(of('dot'), { r: 4.5, fill: ink }),
      Plot.dot(of('cross'), { r: 4, symbol: 'times', stroke: ink, strokeWidth: 1.8 }),
    ],
  });
}

function joining(mark: Mark, points: DotChart['series'][number]['points']) {
  const isOpen = mark === 'ring' || mark === 'frame';
  return Plot.line([...points], { stroke: ink, strokeWidth: 1, ...(isOpen && { strokeDasharray: '3 3' }) });
}

type Options = NonNullable<Parameters<typeof Plot.plot>[0]>;

function plotted(document: Surface, options: Options): Drawn {
  return Plot.plot({
    ...options,
    document: document as never,
  }) as unknown as Drawn;
}

function labelled(document: Surface, tag: 'title' | 'desc', id: string, text: string): Drawn {
  const element = document.createElementNS('http://www.w3.org/2000/svg', tag);
  element.setAttribute('id', id);
  element.textContent = text;
  return element;
}

function hatching(document: Surface): Drawn {
  const holder = document.createElement('div');
  holder.innerHTML = `<svg><defs><pattern id="hatch" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="5" height="5" fill="${paper}"/><path d="M0 0V5" stroke="${ink}" stroke-width="2"/></pattern></defs></svg>`;
  const defs = holder.querySelector('defs');
  if (defs === null) throw new Error('The hatching could not be made.');
  return defs;
}
