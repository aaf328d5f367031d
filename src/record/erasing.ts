// What an erasure takes out of the file: found among the entries and not in the stand, for a name that was struck
// or replaced lies in the file all the same.
import type { Event, JsonObject, JsonValue, Taken, TypingProblem } from '../events/index.ts';
import type { LogEntry } from '../stand/index.ts';

type Entries = ReadonlyMap<string, LogEntry>;
type Version = { entry: LogEntry; body: JsonObject };

/** Kinds that take something out of the file. */
export function isErasure(type: string): boolean {
  return type === 'personal-data-erased' || type === 'emergency-contacts-erased';
}

/** The rows that an erasure erases; none for any other entry. */
export function erasedBy(event: Event, entries: Entries): string[] {
  if (event.type === 'emergency-contacts-erased') return emergencyContacts(entries);
  if (event.type !== 'personal-data-erased') return [];
  const { person, photo } = event.body;
  const named = versionsOf('person-named', entries).filter(({ body }) => body.person === person);
  const hashes = person === undefined ? [] : named.flatMap(({ body }) => [body.name, body.contact]);
  return [...new Set([...hashes, photo].filter(isHash))];
}

/** All of them, for a number may stand on several cards, in amendments, and on cards that were struck. */
function emergencyContacts(entries: Entries): string[] {
  const cards = versionsOf('emergency-card-set', entries).map(({ body }) => body.contacts);
  const calls = versionsOf('call-expected', entries).map(({ body }) => body.expectedBy);
  return [...new Set([...cards, ...calls].filter(isHash))];
}

/** An erasure that would erase nothing is refused: somebody would trust it. */
export function erasesNothing(event: Event, hashes: readonly string[]): TypingProblem[] {
  if (!isErasure(event.type) || hashes.length > 0) return [];
  if (event.type !== 'personal-data-erased')
    return [{ field: 'type', value: event.type, remedy: 'no emergency card or expected call names anybody' }];
  const remedy = 'no entry of this logbook names this person, so there is nothing to erase';
  return [{ field: 'person', value: event.body.person ?? '', remedy }];
}

/** The photo that is to be erased: by its hash, or by the number or id of the entry that holds it. */
export function findPhoto(text: string, entries: Entries): Taken {
  const key = text.trim().replace(/^#/, '').toLowerCase();
  const photos = versionsOf('photo-taken', entries).flatMap(({ entry, body: { photo, of } }) =>
    isHash(photo) ? [{ entry, photo, of: typeof of === 'string' ? of : photo.slice(0, 12) }] : [],
  );
  const found = photos.find(
    ({ entry, photo }) => key === photo || key === entry.id || key === String(entry.position),
  );
  if (found !== undefined) return { ok: true, value: found.photo };
  const erased = new Set([...entries.values()].flatMap(({ erases }) => erases ?? []));
  const choices = photos
    .filter(({ photo }) => !erased.has(photo))
    .map(({ entry, of }) => ({ label: `photo of ${of}`, text: String(entry.position ?? entry.id) }));
  const remedy =
    choices.length === 0
      ? 'this logbook holds no photo that could be erased'
      : 'no photo here has this number, id or hash; give the number of the entry that holds it';
  return { ok: false, remedy, ...(choices.length === 0 ? {} : { choices: choices.slice(-20) }) };
}

/** All bodies of a kind that were ever written: entries and amendments, in force or not. */
function versionsOf(type: string, entries: Entries): Version[] {
  return [...entries.values()].flatMap((entry) => {
    if (entry.type === type) return [{ entry, body: entry.body as JsonObject }];
    const { type: amended, body } = entry.body;
    if (entry.type !== 'entry-amended' || amended !== type || typeof body !== 'object') return [];
    return [{ entry, body: body as JsonObject }];
  });
}

function isHash(value: JsonValue | undefined): value is string {
  return typeof value === 'string' && /^[0-9a-f]{64}$/.test(value);
}
