/**
 * Cubic equations against the gross volumes of the US national inventory in Rhode Island (fixtures/fia-ri: public
 * domain). Those come from the inventory's own models, not from felled trees, and leave out stump and top (from
 * memory: from a 1-ft stump to a 4-in top), so that total stems have to come out larger. docs/measure.md tells the
 * errors; here they are computed again.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { root } from '../../cli/prepare.mjs';
import { inventoryTrees } from '../../fixtures/fia-ri/inventory.ts';
import { formFactorVolume, honerVolume } from '../../src/measure/index.ts';
import { number } from '../measure/figures.ts';

type Tree = Readonly<{ species: string; dbh: number; height: number; volume: number }>;

const trees: readonly Tree[] = inventoryTrees()
  .filter(({ STATUSCD, DIA, HT, VOLCFGRS }) => STATUSCD === '1' && DIA !== '' && HT !== '' && VOLCFGRS !== '')
  .map(({ SPCD, DIA, HT, VOLCFGRS }) => ({
    species: SPCD,
    dbh: Number(DIA),
    height: Number(HT),
    volume: Number(VOLCFGRS),
  }));

/** What the 31 felled cherries of fixtures/black-cherry fill of their cylinder, on average. */
const cherries = { name: 'mean of 31 black cherries', factor: 0.385, source: 'fixtures/black-cherry' };

/** Species codes of the inventory (REF_SPECIES) whose species has its own coefficients. */
const cases: readonly Readonly<{ name: string; code: string | null; volumeOf: (tree: Tree) => number }>[] = [
  { name: 'Honer, white pine', code: '129', volumeOf: (tree) => number(honerVolume('white pine', tree)) },
  { name: 'Honer, hemlock', code: '261', volumeOf: (tree) => number(honerVolume('hemlock', tree)) },
  { name: 'Honer, yellow birch', code: '371', volumeOf: (tree) => number(honerVolume('yellow birch', tree)) },
  { name: 'Honer, beech', code: '531', volumeOf: (tree) => number(honerVolume('beech', tree)) },
  { name: 'Honer, red oak', code: '833', volumeOf: (tree) => number(honerVolume('red oak', tree)) },
  {
    name: 'form factor 0.385, all species',
    code: null,
    volumeOf: (tree) => number(formFactorVolume(tree, cherries)),
  },
];

const page = readFileSync(join(root, 'docs/measure.md'), 'utf8');
const told = [...page.matchAll(/^\| ([^|]+?) *\| *(\d+) *\|([^|]*)\|([^|]*)\|$/gm)].map(
  ([, name, count, mean, square]) => ({
    name,
    figures: [count, mean, square].map(Number),
  }),
);

describe('against the gross volumes of the national inventory', () => {
  test('656 live trees have diameter, height and volume', () => {
    expect(trees).toHaveLength(656);
    expect(told).toHaveLength(cases.length);
  });

  test.each(cases)(
    '$name: the error told on the page is the error on these trees',
    ({ name, code, volumeOf }) => {
      const those = trees.filter(({ species }) => code === null || species === code);
      const errors = those.map((tree) => volumeOf(tree) - tree.volume);
      const sum = those.reduce((all, { volume }) => all + volume, 0);
      const [count, mean, square] = told.find((row) => row.name === name)?.figures ?? [];
      expect(count).toBe(those.length);
      expect(mean).toBeCloseTo((100 * errors.reduce((all, error) => all + error, 0)) / sum, 1);
      expect(square).toBeCloseTo(
        Math.sqrt(errors.reduce((all, error) => all + error ** 2, 0) / those.length),
        2,
      );
    },
  );
});
