// The contrast figures of docs/look.md, computed anew from the style sheet by the formula of WCAG 2.2 (definitions of
// "relative luminance" and "contrast ratio"). Required there: 4.5 for text (1.4.3), 7 for AAA (1.4.6), 3 for borders of
// controls (1.4.11).
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

const root = new URL('../../../', import.meta.url);
const tokens = readFileSync(new URL('src/web/field/look/styles/tokens.css', root), 'utf8');
// Tables are padded for reading; one blank is enough to compare.
const doc = readFileSync(new URL('docs/look.md', root), 'utf8').replaceAll(/ {2,}/g, ' ');

function colours(block: string): ReadonlyMap<string, string> {
  return new Map(
    [...block.matchAll(/--([a-z]+): (#[0-9a-f]{6});/g)].map(([, name = '', hex = '']) => [name, hex]),
  );
}

const [sunBlock = '', duskBlock = '', autoBlock = ''] = [...tokens.matchAll(/:root[^{]*\{([^}]*)\}/g)].map(
  ([, inside]) => inside,
);
const lights = { sun: colours(sunBlock), dusk: colours(duskBlock) };

function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5]
    .map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255)
    .map((share) => (share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(one: string, other: string): number {
  const [lighter = 0, darker = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (lighter + 0.05) / (darker + 0.05);
}

test('the formula gives 21 for black on white and 4.54 for #767676 on white, the grey that just passes', () => {
  expect(contrast('#000000', '#ffffff')).toBe(21);
  expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
});

test('dusk is the same whether the phone or the person chose it', () => {
  expect(colours(autoBlock)).toEqual(lights.dusk);
});

describe.each(['sun', 'dusk'] as const)('in %s', (light) => {
  const palette = lights[light];
  const of = (name: string) => palette.get(name) ?? '';

  test.each(['paper', 'sheet'])('words on %s have at least 7 and borders at least 3', (ground) => {
    for (const name of ['ink', 'soft', 'rust', 'slate', 'ochre'])
      expect(contrast(of(name), of(ground)), name).toBeGreaterThanOrEqual(7);
    expect(contrast(of('line'), of(ground))).toBeGreaterThanOrEqual(3);
  });

  test.each(['paper', 'sheet'])('the page says the figures on %s', (ground) => {
    const figures = ['ink', 'soft', 'rust', 'slate', 'ochre', 'line'].map((name) =>
      contrast(of(name), of(ground)).toFixed(1),
    );
    expect(doc).toContain(`| ${light}, ${ground} | ${figures.join(' | ')} |`);
  });

  test('the page says the colours', () => {
    for (const [name, hex] of palette) expect(doc, name).toMatch(new RegExp(`\\| ${name} \\|.*\`${hex}\``));
  });
});
