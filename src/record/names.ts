// Names of people: kept beside the log as erasable rows, looked up by the hash that an entry holds.
import type { JsonValue } from '../events/index.ts';
import type { Log } from '../log/store/index.ts';
import type { Folded, LogEntry } from '../stand/index.ts';

/**
 * Names and contacts by their sealed hash, of every entry that ever named a person: amended and struck ones are
 * still shown in the log. Erased ones are missing.
 */
export async function knownNames(
  log: Pick<Log, 'sealed'>,
  { entries }: Pick<Folded, 'entries'>,
): Promise<Map<string, string>> {
  const hashes = new Set([...entries.values()].flatMap(namingHashes));
  const names = new Map<string, string>();
  for (const hash of hashes) {
    const row = await log.sealed(hash);
    if (row) names.set(hash, new TextDecoder().decode(row.bytes));
  }
  return names;
}

function namingHashes({ type, body }: LogEntry): string[] {
  if (type === 'entry-amended') return body.type === 'person-named' ? hashesIn(body.body) : [];
  return type === 'person-named' ? hashesIn(body) : [];
}

function hashesIn(body: JsonValue | undefined): string[] {
  if (typeof body !== 'object' || body === null || Array.isArray(body)) return [];
  const { name, contact } = body as Readonly<Record<string, JsonValue>>;
  return [name, contact].filter((hash) => typeof hash === 'string');
}
