// Verification of a whole logbook, beside reading the same rows and hashing their bytes.
import { createHash } from 'node:crypto';
import Sqlite from 'better-sqlite3';
import { verifyLogbook } from '../../src/log/store/index.ts';
import { type BenchRow, interleaved } from './row.ts';

const goal = 80_000;

/** @param path - a logbook of `count` entries */
export async function benchVerify(path: string, count: number): Promise<BenchRow> {
  const seconds = await interleaved(
    {
      ours: () => async () => {
        const { ok, size } = await verifyLogbook(path);
        if (!ok || size !== count) throw new Error('The logbook of the bench does not verify.');
      },
      bare: () => () => {
        const database = new Sqlite(path, { readonly: true });
        for (const bytes of database.prepare<[], Uint8Array>('SELECT bytes FROM entry').pluck().iterate())
          createHash('sha256').update(bytes).digest();
        database.close();
      },
    },
    3,
  );
  const [measured, baseline] = [count / seconds.ours, count / seconds.bare];
  return {
    what: `verify ${count.toLocaleString('en')} entries`,
    measured,
    unit: 'entries/s',
    against: 'bare read and SHA-256 of the same rows',
    baseline,
    ratio: measured / baseline,
    goal: `≥ ${goal.toLocaleString('en')}/s`,
    met: measured >= goal,
  };
}
