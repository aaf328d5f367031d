// Rows that come after their entries: photos.
import type { Log, SealedRow, Supplied } from '../log/store/index.ts';
import { keysOf, keysVersion, sealedKey } from './keys.ts';

/** Gives the log a row that one of its entries names; 'not-named' when there is no such entry yet. */
export async function supplySealed(log: Log, row: SealedRow): Promise<Supplied> {
  const [entry] = await log
    .lookup((stored) => keysOf(stored.bytes), keysVersion)
    .entries([sealedKey(row.hash)]);
  return entry === undefined ? 'not-named' : log.supplySealed(row, entry.id);
}
