/** Hours of sun as a picture in the report: what can be seen stands in the table too, and as a sentence for those who cannot see. */
import { describe, expect, test } from 'vitest';
import { drawChart } from '../../src/reports/charts/index.ts';
import { figureParts } from '../../src/reports/figures.ts';
import { fold } from '../../src/stand/index.ts';
import { pen, uuid } from '../stand/entries.ts';

const [group, stem, sapling] = [uuid(0x61), uuid(0x51), uuid(0x71)];
const metres = (value: string) => ({ text: `${value} m`, value, unit: 'm' });
const grid = (east: number, north: number) => ({
  how: 'grid',
  crs: 'EPSG:32617',
  easting: String(500_000 + east),
  northing: String(3_950_000 + north),
  accuracy: metres('1'),
});
const spoke = (degrees: number) => ({
  azimuth: { text: `${degrees} true`, value: String(degrees), reference: 'true' },
  distance: metres('15'),
});

const write = pen();
const folded = fold([
  write('logbook-opened', { name: 'Woods', zone: 'America/New_York', units: 'metric', crs: 'EPSG:32617' }),
  write('group-laid-out', { group, label: 'G1', center: grid(0, 0) }),
  write('stem-marked', { stem, group, mark: 'cut', tag: 'A1', position: grid(0, 0) }),
  write('stem-felled', { stem, came: 'down' }),
  write('sapling-protected', { sapling, label: 's1', group, position: grid(0, 10) }),
  write('opening-measured', {
    group,
    method: 'spokes',
    center: grid(0, 0),
    spokes: [0, 45, 90, 135, 180, 225, 270, 315].map(spoke),
    edgeHeight: metres('20'),
  }),
]);
const part = figureParts(folded, [...folded.stand.groups.values()], { only: true, names: new Map() }).find(
  ({ sheet }) => sheet.title === 'Hours of direct sun in G1',
);

describe('hours of sun in the report', () => {
  test('are drawn for the centre and a sapling, before and after the cut, by marks and not by colour', () => {
    const { chart } = part ?? {};
    if (chart?.is !== 'dots') throw new Error('no chart');
    expect(chart.series.map(({ name, mark }) => `${name} ${mark}`)).toEqual([
      'centre, before the cut ring',
      'centre, after it dot',
      's1, before the cut frame',
      's1, after it square',
    ]);
    // Under the canopy there was none. At the centre there is most when the sun stands highest; north of it the sun comes
    // over the trees already in March, when the centre has still next to none (sun at noon 90° - 35.7° = 54°, trees of 20 m).
    const [centreBefore = [], centre = [], saplingBefore = [], north = []] = chart.series.map(({ points }) =>
      points.map(([, hours]) => hours),
    );
    expect(Math.max(...centreBefore, ...saplingBefore)).toBe(0);
    expect(centre.indexOf(Math.max(...centre))).toBe(5);
    expect(north[2] ?? 0).toBeGreaterThan((centre[2] ?? 0) + 1);
    expect(chart.title).toContain('estimate of open sky');
  });

  test('stand in the table to the same tenth of an hour, and the picture is named and described', () => {
    const { chart, sheet } = part ?? {};
    if (chart?.is !== 'dots' || sheet === undefined) throw new Error('no chart');
    const columns = chart.series.map(({ points }) => points.map(([, hours]) => hours.toFixed(1)));
    expect(sheet.tables[0]?.rows.map((row) => row.slice(1))).toEqual(
      Array.from({ length: 12 }, (_, month) => columns.map((column) => column[month])),
    );
    const svg = drawChart(chart, 3);
    expect(svg).toMatch(/^<svg aria-labelledby="chart-3-title chart-3-description" role="img"/);
    expect(svg).toContain(chart.description);
    expect(svg.match(/stroke-dasharray="3 3"/g)).toHaveLength(2);
    expect(sheet.remarks.join(' ')).toContain('estimate of open sky');
  });

  test('are left out where nobody said how high the trees are', () => {
    const bare = fold([...folded.entries.values()].filter(({ type }) => type !== 'opening-measured'));
    const parts = figureParts(bare, [...bare.stand.groups.values()], { only: true, names: new Map() });
    expect(parts.map(({ sheet }) => sheet.title)).not.toContain('Hours of direct sun in G1');
  });
});
