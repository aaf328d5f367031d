// What a felling plan says in words, on an invented group on a slope: what comes to lie across what, what can roll, losses counted
// once, before which stem to stop, and what to measure first. The numbers are held against simulated falls in tests/felling/after.
import { describe, expect, test } from 'vitest';
import { type FellingPlan, type GroupInputs, planGroup } from '../../src/felling/index.ts';
import { planSheet } from '../../src/reports/index.ts';
import { inputs } from '../felling/after/fellings.ts';

const when = '2026-11-27T12:00:00Z';
const made = (group: GroupInputs, measureNext = false): FellingPlan =>
  planGroup(
    { inputs: group, unplaced: [], restsOn: [], origin: { lon: -81.7461, lat: 35.9532 } },
    // Each with its lean, whatever stands in the way: so that there is something to say.
    {
      when,
      measureNext,
      assumptions: { hangUpLimit: 0.99 },
      settled: group.stems.map(({ id, lean }) => ({ stem: id, aim: lean?.azimuth ?? 0 })),
    },
  );
const said = (plan: FellingPlan, system: 'inch' | 'metric' = 'inch') => planSheet(plan, system);
const { workPlaces: _, ...nobody } = inputs;
const plan = made(nobody);
/** With the aims free. */
const free = planGroup(
  { inputs: nobody, unplaced: [], restsOn: [], origin: { lon: -81.7461, lat: 35.9532 } },
  { when },
);
const rows = (caption: RegExp, of = said(plan)) =>
  of.tables.find((table) => caption.test(table.caption))?.rows ?? [];

describe('a plan in words', () => {
  test('names the pairs that cross by chance, the largest first, with where on both stems', () => {
    const crossed = rows(/comes to lie across what/);
    expect(crossed.length).toBeGreaterThan(1);
    const { pairs, expected } = plan.after.crossings;
    expect(crossed.map(([stem]) => stem)).toEqual(pairs.slice(0, 12).map(({ label }) => label));
    const [lying] = crossed.filter((row) => row[1] === 'old, which lies there');
    expect(lying?.[4]).toMatch(/^\d+ ft up \d, \d+ ft up old$/);
    expect(said(plan).remarks.join('\n')).toContain(
      `Expected in all: ${expected.toFixed(1)} times a stem lies across another`,
    );
  });

  test('says which boles may break, and that stones are not entered', () => {
    const [worst] = plan.after.crossings.broken;
    const remark = said(plan).remarks.find((one) => one.startsWith('May break'));
    expect(remark).toContain(`${worst?.label} (${worst?.expected.toFixed(2)} times)`);
    expect(remark).toContain('Stones, humps and ditches are not entered.');
  });

  test('lists what is below each stem that can roll, and to keep people out of it', () => {
    const below = rows(/stems that can roll/);
    expect(below.map(([stem]) => stem).filter((stem) => stem !== '')).toEqual(
      plan.after.rolling.map(({ label }) => label),
    );
    expect(below.some((row) => /^(sapling|patch|stem) /.test(row[1] ?? ''))).toBe(true);
    expect(said(plan).remarks.join('\n')).toContain('Nobody works or stays below it');
    const { slope: __, ...level } = nobody;
    expect(said(made(level)).remarks.join('\n')).toContain('No slope was said');
  });

  test('gives the loss counted once beside the loss added up, where they differ', () => {
    const { added, once, ratio } = plan.after.once;
    const remark = said(plan).remarks.find((one) => one.includes('cannot be lost again'));
    expect(added - once).toBeGreaterThan(0.01);
    expect(remark).toContain(
      `lose ${once.toFixed(2)} instead of ${added.toFixed(2)} saplings' worth (${ratio.toFixed(2)} times`,
    );
  });

  test('tells before which stem to stop, before anything else is read of it', () => {
    const rotten = {
      ...nobody,
      stems: nobody.stems.map((stem, at) => (at === 0 ? { ...stem, decayed: true } : stem)),
    };
    const { lead, tables } = said(made(rotten));
    expect(lead.join('\n')).toMatch(/Stop before 0: Stem 0 is decayed, and nobody measured/);
    expect(tables.length).toBeGreaterThan(1);
  });

  test('has a way out blocked by what lies across it already, and names it once', () => {
    // Stem 0 aims 60°: its ways out lead to 285° and 195°. A log lies across the second, 3 m out.
    const log = { id: 'log', label: 'old oak', x: -4, y: -3, tip: { x: 3, y: -3 }, dbh: 0.4 };
    const [fall] = made({ ...nobody, onTheGround: [log] }).falls.filter(({ label }) => label === '0');
    const right = fall?.waysOut.routes.find(({ side }) => side === 'right');
    expect(right?.azimuth).toBe(195);
    expect(right?.blockedBy.filter(({ label }) => label.startsWith('old oak'))).toMatchObject([
      { label: 'old oak, which lies there' },
    ]);
    const left = fall?.waysOut.routes.find(({ side }) => side === 'left');
    expect(left?.blockedBy.some(({ label }) => label.startsWith('old oak'))).toBe(false);
  });

  test('names what else could be done with its cost, in words that do not promise', () => {
    const instead = said(free).tables.filter(({ caption }) => caption.endsWith(': instead'));
    expect(instead.length).toBeGreaterThan(0);
    for (const { rows: others } of instead)
      for (const [what, cost] of others) {
        expect(what).toMatch(/^aim \d+\.\d°$|^fell \d first$/);
        expect(cost).toMatch(
          /^(?:\d+\.\d\d (?:more|fewer|less) (?:hang-ups|loss)(?:, )?)+|no difference that counts/,
        );
      }
    const words = JSON.stringify([said(plan), said(free)]);
    expect(words).not.toMatch(/\bsafe/i);
    expect(words).not.toMatch(/"(?:0|100) %"|−0\.00/);
  });

  test('says what to measure first in a sentence, with the value, its error and what it would turn', () => {
    const remarks = said(made(nobody, true)).remarks;
    const first = remarks.find((one) => one.startsWith('Measure first: '));
    expect(first).toMatch(
      /^Measure first: (?:height|lean|crown radius|position) of (?:stem|leave tree|sapling) \w+.*standard error [\d.]+ ft\)\. If it .*\.$/,
    );
    expect(said(plan).remarks.join('\n')).not.toContain('Measure first');
  });

  test('is in metres where the logbook is', () => {
    const metric = JSON.stringify(said(plan, 'metric').tables);
    expect(metric).toMatch(/\d\.\d m up/);
    expect(metric).not.toMatch(/\d ft\b/);
  });
});
