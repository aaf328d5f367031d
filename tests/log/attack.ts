// How an attack is written down and tried.
import type { Database } from 'better-sqlite3';
import { expect, it } from 'vitest';
import { type ProblemCode, verifyLogbook } from '../../src/log/store/index.ts';
import { type EntryRow, rehash, rowsOf, soundLogbook, type tamper } from './tampering.ts';

/** The deed, what it is called by, and the first entry that is bad; undefined where no entry is. */
export type Attack = readonly [
  name: string,
  deed: (database: Database) => void,
  what: ProblemCode,
  position?: number,
];

export const run =
  (sql: string, ...values: unknown[]) =>
  (database: Database): void => {
    const { changes } = database.prepare(sql).run(...values);
    expect(changes, 'the deed changes something').toBeGreaterThan(0);
  };
export const exec = (sql: string) => (database: Database) => void database.exec(sql);
export const rewritten = (change: (rows: EntryRow[]) => EntryRow[]) => (database: Database) =>
  rehash(database, change(rowsOf(database)));

/** Each attack is tried on a logbook of its own, and verification must name it and the first bad entry. */
export function caught(attacks: readonly Attack[], reach: typeof tamper): void {
  for (const [name, deed, what, position] of attacks) {
    it(name, async () => {
      const path = await soundLogbook();
      reach(path, deed);
      const { ok, problems } = await verifyLogbook(path);
      expect(ok).toBe(false);
      expect(problems.map((problem) => problem.what)).toContain(what);
      expect(problems.find((problem) => problem.what === what)?.position).toBe(position);
      expect(problems[0]?.position).toBe(position);
      for (const { sentence } of problems) expect(sentence).toMatch(/^[A-Z].*\.$/);
    });
  }
}
