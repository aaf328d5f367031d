// `npm run bench`: how fast it is, each figure beside something bare in the same run. Ends with 1 when a goal is
// missed. It is no test: what else the machine does at the time moves every figure, the ratios least.
//   npm run bench            all of it
//   npm run bench -- fold    what has "fold" in the name of its bench
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { buildProgram, root } from '../../cli/prepare.mjs';
import { createLogbook } from '../../src/log/store/index.ts';
import { noon } from '../log/invented.ts';
import { benchAppend } from './append.ts';
import { benchFelling } from './felling.ts';
import { benchFold } from './fold.ts';
import { benchImport } from './import.ts';
import { machineFacts } from './machine.ts';
import { benchChain, benchLines } from './places.ts';
import type { BenchRow } from './row.ts';
import { benchStandTables } from './stand-tables.ts';
import { benchRecord, benchStart } from './start.ts';
import { benchVerify } from './verify.ts';
import { woods } from './woods.ts';

const many = 200_000;
const aFewYears = 50_000;
const stems = 100_000;

/** On the disk of the project: temporary folders are often kept in memory. */
const cache = join(root, 'node_modules/.cache');
mkdirSync(cache, { recursive: true });
const folder = mkdtempSync(join(cache, 'bench-'));

// It runs in a browser and is checked with a browser's types, which these files do not have.
const fieldBench = new URL('../web/bench/field.ts', import.meta.url).href;
type FieldBench = Readonly<{ benchField: () => Promise<BenchRow[]> }>;

const benches: Readonly<Record<string, () => Promise<BenchRow[]>>> = {
  append: () => benchAppend(folder),
  felling: () => benchFelling(),
  fold: async () => [await benchFold(woods(many))],
  tables: () => benchStandTables(stems),
  lines: async () => [await benchLines(10_000, 2_000)],
  chain: async () => [await benchChain(stems)],
  verify: async () => [await benchVerify(await logbookOf(many), many)],
  start: async () => [await benchStart()],
  field: async () => ((await import(fieldBench)) as FieldBench).benchField(),
  import: async () => [await benchImport(folder, aFewYears)],
  record: async () => [await benchRecord(await logbookOf(aFewYears), aFewYears, join(folder, 'home'))],
};

async function logbookOf(count: number): Promise<string> {
  const path = join(folder, `${count}.logbook`);
  const log = await createLogbook(path);
  const receipts = await log.append(woods(count), noon);
  if (receipts.some(({ outcome }) => outcome !== 'recorded'))
    throw new Error('The logbook of the bench is not whole.');
  await log.close();
  return path;
}

function print({ what, measured, unit, against, baseline, ratio, goal, met }: BenchRow): void {
  const figure = (value: number): string =>
    `${value.toLocaleString('en', { maximumFractionDigits: unit === 'ms' ? 1 : 0 })} ${unit}`;
  console.log(`\n${what}`);
  console.log(`  ${figure(measured)}; ${against}: ${figure(baseline)}; ratio ${ratio.toFixed(2)}`);
  console.log(`  goal ${goal}: ${met ? 'met' : 'MISSED'}`);
}

try {
  buildProgram();
  console.log(machineFacts(folder));
  const wanted = process.argv.slice(2);
  let missed = 0;
  for (const [name, bench] of Object.entries(benches)) {
    if (wanted.length > 0 && !wanted.some((word) => name.includes(word))) continue;
    for (const row of await bench()) {
      print(row);
      if (!row.met) missed += 1;
    }
  }
  console.log(missed === 0 ? '\nAll goals met.' : `\n${missed} ${missed === 1 ? 'goal' : 'goals'} missed.`);
  process.exitCode = missed === 0 ? 0 : 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
