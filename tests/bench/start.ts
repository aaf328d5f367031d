// Whole processes of the built command line, from start to exit, beside a Node that does nothing.
import { execFileSync } from 'node:child_process';
import { program } from '../../cli/prepare.mjs';
import { type BenchRow, interleaved } from './row.ts';

const startGoal = 2.5;
/** 150 ms where `node -e 0` takes 50 ms. */
const recordGoal = 3;

const bare = (): void => void execFileSync(process.execPath, ['-e', '0']);

function gapledger(words: readonly string[], env: NodeJS.ProcessEnv): void {
  execFileSync(process.execPath, [program, ...words], { env: { ...process.env, ...env }, stdio: 'pipe' });
}

export async function benchStart(): Promise<BenchRow> {
  const seconds = await interleaved({ ours: () => () => gapledger(['--version'], {}), bare: () => bare }, 25);
  return rowOf('gapledger --version', seconds, startGoal);
}

/**
 * @param path - a logbook of `count` entries; some are added to it
 * @param home - where the device that writes is remembered
 */
export async function benchRecord(path: string, count: number, home: string): Promise<BenchRow> {
  let tag = 0;
  const ours = () => {
    tag += 1;
    const words = ['record', 'stem-marked', '--logbook', path, '--mark', 'cut', '--tag', `B${tag}`];
    words.push('--species', 'scarlet oak', '--dbh', '14.2', '--by', 'Ann Weaver');
    return () => gapledger(words, { GAPLEDGER_HOME: home });
  };
  const seconds = await interleaved({ ours, bare: () => bare }, 15);
  const what = `gapledger record stem-marked, in ${count.toLocaleString('en')} entries`;
  return rowOf(what, seconds, recordGoal);
}

function rowOf(what: string, seconds: { ours: number; bare: number }, goal: number): BenchRow {
  const ratio = seconds.ours / seconds.bare;
  return {
    what,
    measured: seconds.ours * 1000,
    unit: 'ms',
    against: 'node -e 0',
    baseline: seconds.bare * 1000,
    ratio,
    goal: `ratio ≤ ${goal}`,
    met: ratio <= goal,
  };
}
