// Names of people: kept beside the log as erasable rows, looked up by the hash that an entry holds.
import type { Log } from '../log/store/index.ts';
import type { Stand } from '../stand/index.ts';

/** Names and contacts by their sealed hash; erased ones are missing. */
export async function knownNames(log: Log, stand: Stand): Promise<Map<string, string>> {
  const names = new Map<string, string>();
  for (const { name, contact } of stand.people.values()) {
    for (const hash of contact === undefined ? [name] : [name, contact]) {
      const row = await log.sealed(hash);
      if (row) names.set(hash, new TextDecoder().decode(row.bytes));
    }
  }
  return names;
}
