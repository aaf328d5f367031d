// Names of people: kept beside the log as erasable rows, looked up by the hash that an entry holds.
import type { JsonValue } from '../events/index.ts';
import type { Log } from '../log/store/index.ts';
import type { Folded, LogEntry } from '../stand/index.ts';

/**
 * Names and contacts by their sealed hash, of every entry that ever named a person or said whom to call: amended and
 * struck ones are still shown in the log. Erased ones are missing.
 */
export async function knownNames(
  log: Pick<Log, 'sealed'>,
  folded: Pick<Folded, 'entries'>,
): Promise<Map<string, string>> {
  const names = new Map<string, string>();
  for (const hash of nameRows(folded)) {
    const row = await log.sealed(hash);
    if (row) names.set(hash, new TextDecoder().decode(row.bytes));
  }
  return names;
}

/** Hashes of the rows that hold a name or a contact, whether they are here, erased or still to come. */
export function nameRows({ entries }: Pick<Folded, 'entries'>): Set<string> {
  return new Set([...entries.values()].flatMap(namingHashes));
}

function namingHashes({ type, body }: LogEntry): string[] {
  return type === 'entry-amended' ? hashesIn(body.type, body.body) : hashesIn(type, body);
}

/** Which fields of which kinds hold a name or a contact by its hash. */
const naming: Readonly<Record<string, readonly string[]>> = {
  'person-named': ['name', 'contact'],
  'emergency-card-set': ['contacts'],
  'call-expected': ['expectedBy'],
};

function hashesIn(type: JsonValue | undefined, body: JsonValue | undefined): string[] {
  const fields = typeof type === 'string' && Object.hasOwn(naming, type) ? naming[type] : undefined;
  if (fields === undefined || typeof body !== 'object' || body === null || Array.isArray(body)) return [];
  return fields
    .map((field) => (body as Readonly<Record<string, JsonValue>>)[field])
    .filter((hash) => typeof hash === 'string');
}
