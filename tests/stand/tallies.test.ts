// Audited stumps, sample plots, regeneration plots and price lists: kept as they were recorded, told in words, given
// as JSON, and never counted twice when entries come late.
import { expect, describe as group, it, test } from 'vitest';
import type { JsonObject } from '../../src/events/index.ts';
import { describe, fold, standJson } from '../../src/stand/index.ts';
import { uuid } from './entries.ts';
import { group as g1, stem, work, written } from './group-story.ts';

const block = uuid(0x56_0001);
const quantity = (value: string, unit: string) => ({ text: `${value} ${unit}`, value, unit });
const oak = { text: 'white oak', list: 'us', code: 'QUAL' };

const plot: JsonObject = {
  block,
  plot: '7',
  method: 'angle-gauge',
  factor: quantity('10', 'ft2/ac'),
  trees: [
    { species: oak, dbh: quantity('14.2', 'in') },
    { dbh: quantity('12', 'in'), is: 'out' },
  ],
};
const regeneration: JsonObject = {
  group: g1,
  plot: 'r3',
  plotRadius: quantity('3.72', 'ft'),
  method: 'milacre plots',
  counts: [
    { species: oak, heightClass: 'under 1 ft', count: 6 },
    { species: oak, heightClass: '1 to 4.5 ft', count: 1 },
  ],
};
const prices: JsonObject = {
  rule: 'doyle',
  unit: 'Mbf',
  currency: 'USD',
  date: '2026-03-01',
  buyerClass: 'mill delivered',
  rows: [{ species: oak, product: 'sawlog', grade: 'F1', price: '450' }],
};
const stump: JsonObject = { stem, group: g1, diameterInside: quantity('15.5', 'in'), markSeen: true };
const laidOut: JsonObject = { block, name: 'North cove' };

const log = written(
  ['block-laid-out', laidOut],
  ...work,
  ['stump-audited', { ...stump, markSeen: false, note: 'no paint' }],
  ['stump-audited', stump],
  ['plot-tallied', plot],
  ['plot-tallied', { block, plot: '8', method: 'fixed-radius', plotRadius: quantity('37.24', 'ft') }],
  ['regeneration-counted', regeneration],
  ['regeneration-counted', { ...regeneration, group: undefined, block, counts: undefined } as never],
  ['prices-set', prices],
);

group('what is recorded for figures', () => {
  const { stand, happenings, findings } = fold(log);

  it('is kept in order of happening, as it was recorded', () => {
    expect(stand.stumpsAudited.map(({ body }) => body.markSeen)).toEqual([false, true]);
    expect(stand.plots.map(({ body }) => body.plot)).toEqual(['7', '8']);
    expect(stand.plots[0]?.body).toEqual(plot);
    expect(stand.regeneration).toHaveLength(2);
    expect(stand.prices[0]?.body).toEqual(prices);
    expect(findings).toEqual([]);
  });

  it('is known to the stem, the block and the group that it speaks of; of stumps the last one holds', () => {
    expect(stand.stems.get(stem)?.stump?.body).toEqual(stump);
    const named = [stand.blocks.get(block), stand.groups.get(g1), stand.stems.get(stem)];
    const ids = log.map(({ id }) => id);
    expect(named.map((thing) => thing?.entries.filter((id) => ids.indexOf(id) > 11).length)).toEqual([
      3, 3, 2,
    ]);
  });

  it('is the same in whatever order the entries come', () => {
    expect(fold(log.toReversed()).stand).toEqual(stand);
  });

  it('is told in a sentence each', () => {
    expect(happenings.slice(12).map(({ event }) => describe(event, stand))).toEqual([
      'stump of A12, in G1, inside bark 15.5 in, no mark seen, no paint',
      'stump of A12, in G1, inside bark 15.5 in, mark seen',
      'plot 7 in North cove, angle gauge 10 ft2/ac, 1 tree',
      'plot 8 in North cove, radius 37.24 ft, 0 trees',
      'regeneration plot r3 in G1, 7 young trees',
      'regeneration plot r3 in North cove, 0 young trees',
      'prices of 2026-03-01, mill delivered, 1 price in USD per Mbf, Doyle',
    ]);
  });

  it('of a stump that no stem is named for tells its tag, or that it has none', () => {
    const lines = written(['stump-audited', { tag: 'Z9' }], ['stump-audited', { note: 'fresh' }]);
    const folded = fold(lines);
    expect(folded.happenings.map(({ event }) => describe(event, folded.stand))).toEqual([
      'stump with tag Z9',
      'stump without a tag, fresh',
    ]);
  });

  it('stands in the JSON of the stand: all of it, or that of one group and its block', () => {
    const head = { size: log.length, root: 'ab' };
    const of = (one?: string) =>
      standJson(fold(log), { head: head as never, names: new Map(), ...(one ? { group: one } : {}) });
    const counts = ({ stumpsAudited, plots, regeneration: young, prices: lists }: ReturnType<typeof of>) =>
      [stumpsAudited, plots, young, lists].map((list) => list.length);
    expect(counts(of())).toEqual([2, 2, 2, 1]);
    expect(of().stumpsAudited[1]).toMatchObject({ recorded: stump, entries: [log[13]?.id] });
    expect(of().prices[0]).toMatchObject({ recorded: prices });
    // G1 lies in no block, so no plot is its own.
    expect(counts(of(g1))).toEqual([2, 0, 1, 1]);
  });
});

test('a block or group that only such an entry speaks of is known, and missing', () => {
  const { stand, findings } = fold(written(['plot-tallied', plot], ['regeneration-counted', regeneration]));
  expect(stand.blocks.get(block)?.introduced).toBe(false);
  expect(findings.map(({ code }) => code)).toEqual(['missing-target', 'missing-target']);
});
