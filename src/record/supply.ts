// Rows that come after their entries: photos.
import type { Log, SealedRow, Supplied } from '../log/store/index.ts';
import { keysOf, keysVersion, sealedKey } from './keys.ts';

/** Gives the log a row that one of its entries names; 'not-named' when there is no such entry yet. */
export async function supplySealed(log: Log, row: SealedRow): Promise<Supplied> {
  const entry = await entryNaming(log, row.hash);
  return entry === undefined ? 'not-named' : log.supplySealed(row, entry);
}

/** Id of the first entry that names the row of this hash. */
export async function entryNaming(log: Log, hash: string): Promise<string | undefined> {
  const lookup = log.lookup((stored) => keysOf(stored.bytes), keysVersion);
  const [entry] = await lookup.entries([sealedKey(hash)]);
  return entry?.id;
}
