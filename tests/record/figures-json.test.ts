// Every number in the JSON of figures stands with its unit, its method, its source and the entries that it rests on, in
// the object that has it or in one around it. Walked over the figures of the demo, kind by kind.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { writeDemo } from '../../cli/demo.ts';
import { createLogbook, type Log } from '../../src/log/store/index.ts';
import { type FiguresTyped, readFigures, readStand } from '../../src/record/index.ts';
import { type FigureKind, type Folded, figuresJson } from '../../src/stand/index.ts';

let folder: string;
let log: Log;
let folded: Folded;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'figures-json-'));
  log = await createLogbook(join(folder, 'woodlot.logbook'));
  await writeDemo(log);
  folded = await readStand(log);
});
afterAll(async () => {
  await log.close();
  rmSync(folder, { recursive: true });
});

/** What is counted, asked for or a limit of a class, and no figure: a count is what it counts. */
const noFigures = new Set(
  'plots trees damaged atLeast under unmeasured treesAtLeast lays without lower upper stockedFrom limit within'.split(
    ' ',
  ),
);

/** The paths of the numbers that lack something of what a figure has. */
function bare(json: unknown, path = '', has: ReadonlySet<string> = new Set(), key = ''): string[] {
  if (typeof json === 'number')
    return ['unit', 'method', 'source', 'restsOn'].every((part) => has.has(part)) ? [] : [path];
  if (typeof json !== 'object' || json === null || key === 'restsOn' || noFigures.has(key)) return [];
  const own = new Set([...has, ...Object.keys(json)]);
  return Object.entries(json).flatMap(([name, part]) =>
    typeof part === 'number' && noFigures.has(name) ? [] : bare(part, `${path}/${name}`, own, name),
  );
}

const board = { rule: 'international-quarter-inch', formClass: '78' };
it.each<[FigureKind, FiguresTyped]>([
  ['stand', { by: 'class', block: 'North cove' }],
  ['stand', { by: 'species', block: 'Spring knoll', units: 'metric' }],
  ['decay', { group: 'G1' }],
  ['stumps', {}],
  ['plots', board],
  ['regeneration', { group: 'G1' }],
  ['damage', {}],
])('in figures of the %s, asked with %j', (what, typed) => {
  const read = readFigures(what, folded, typed, '2026-11-25T10:00:00-05:00');
  if (!read.ok) throw new Error(read.remedy);
  const json = figuresJson(read.value.figures, folded);
  expect(bare(json)).toEqual([]);
  // The demo has figures of every kind: a walk over nothing would find nothing.
  expect(JSON.stringify(json)).toContain('"value":');
});

it('a number without its origin is found', () => {
  expect(bare({ rows: [{ mean: 3, unit: 'in' }] })).toEqual(['/rows/0/mean']);
});
