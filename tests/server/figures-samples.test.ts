// Sample plots, regeneration and damage as they are asked for over HTTP, and as sheets for the terminal. Values are held
// against sources in tests/reference; here it is that the right ones come out where they are asked for.
import { afterEach, beforeEach, expect, it } from 'vitest';
import { type FiguresTyped, readFigures, readStand } from '../../src/record/index.ts';
import { sheetOf } from '../../src/reports/index.ts';
import type { FigureKind } from '../../src/stand/index.ts';
import { type House, house } from './desk.ts';

let woods: House;
beforeEach(async () => {
  woods = await house({ empty: true });
  await woods.record('block-laid-out', { name: 'North cove', area: '12 ac' });
  await woods.record('group-laid-out', { label: 'G1', block: 'North cove' });
  const plot = { block: 'North cove', method: 'angle-gauge', factor: '10 ft2/ac' };
  await woods.record('plot-tallied', { ...plot, plot: '1', trees: 'white oak, 12 in; white oak, 14 in' });
  await woods.record('plot-tallied', { ...plot, plot: '2', trees: [{ dbh: '12 in' }] });
  const young = { group: 'G1', plotRadius: '3.72 ft', method: 'milacre plots' };
  await woods.record('regeneration-counted', { ...young, plot: 'r1', counts: 'white oak, under 1 ft, 3' });
  await woods.record('regeneration-counted', { ...young, plot: 'r2' });
  await woods.record('stem-marked', { mark: 'leave', tag: 'L3', group: 'G1', dbh: '12 in' });
  await woods.record('damage-noted', { to: 'leave-tree', stem: 'L3', woundArea: '100 in2' });
});
afterEach(() => woods.end());

const nearly = (value: number) => expect.closeTo(value, 2) as number;

async function asked(path: string): Promise<unknown> {
  const answer = await woods.ask(`/api/figures/${path}`);
  expect(answer.status, await answer.clone().text()).toBe(200);
  return ((await answer.json()) as { figures: unknown }).figures;
}

async function sheet(what: FigureKind, typed: FiguresTyped = {}) {
  const read = readFigures(what, await readStand(woods.log), typed, '2026-03-20T10:00:00-04:00');
  if (!read.ok) throw new Error(read.remedy);
  return sheetOf(read.value);
}

it('plots come with mean, error, unit and the numbers of their entries', async () => {
  expect(await asked('plots')).toMatchObject({
    blocks: [
      {
        label: 'North cove',
        plots: 2,
        basalArea: { value: 15, standardError: 5, low: nearly(15 - 63.531), unit: 'ft2/ac', restsOn: [4, 5] },
      },
    ],
  });
  // t with one degree of freedom is 12.706: 15 ± 63.5 (Student's table).
  // The figures keep that interval; the sheet shows no basal area below none, and says so.
  const { tables, lead, remarks } = await sheet('plots');
  expect(lead).toEqual([]);
  expect(tables[0]?.rows).toEqual([['North cove', '2', '15.0', '5.0', '0.0', '78.5', '424', 'ft²/ac']]);
  expect(remarks.join(' ')).toContain('goes below zero and is shown from 0');
});

it('regeneration comes by visit, for one group or block', async () => {
  expect(await asked('regeneration?group=G1')).toMatchObject({
    visits: [{ estimate: { plots: 2, stocking: { value: 0.5, unit: 'share' } }, restsOn: [6, 7] }],
  });
  expect((await sheet('regeneration', { group: 'G1', stockedFrom: '4' })).tables[0]?.rows[0]?.[6]).toBe('0');
  expect((await sheet('regeneration', { block: 'North cove' })).lead[0]).toMatch(/^No regeneration plot/);
});

it('damage comes by number and basal area, and by the limit that was asked for', async () => {
  expect(await asked('damage')).toMatchObject({ all: { trees: 1, damaged: 1, treesAtLeast: 1 } });
  expect(await asked('damage?limit=645.17 cm2')).toMatchObject({ all: { treesAtLeast: 0 } });
  expect((await sheet('damage')).tables[0]?.rows).toEqual([
    ['G1', '1', '1', '100', '100', '1', '1', '0', '0'],
    ['All', '1', '1', '100', '100', '1', '1', '0', '0'],
  ]);
});

it.each([
  ['plots?group=G1', 'group', /means nothing/],
  ['regeneration', 'group', /which group or which block/],
  ['regeneration?group=G1&stocked-from=0', 'stocked-from', /at least 1/],
  ['damage?limit=100', 'limit', /add a unit/],
  ['damage?limit=0 in2', 'limit', /above 0/],
])('%s is refused, naming %s', async (path, field, remedy) => {
  const answer = await woods.ask(`/api/figures/${path}`);
  expect(answer.status).toBe(400);
  const text = await answer.text();
  expect(text).toContain(field);
  expect(text).toMatch(remedy);
});
