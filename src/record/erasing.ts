// What an erasure takes out of the file: found among the entries and not in the stand, for a name that was struck
// or replaced lies in the file all the same.
import type { Event, JsonObject, JsonValue, Taken, TypingProblem } from '../events/index.ts';
import type { LogEntry } from '../stand/index.ts';

type Entries = ReadonlyMap<string, LogEntry>;
type Version = { entry: LogEntry; body: JsonObject };

/** The rows that "personal data erased" erases; none for any other entry. */
export function erasedBy(event: Event, entries: Entries): string[] {
  if (event.type !== 'personal-data-erased') return [];
  const { person, photo } = event.body;
  const named = versionsOf('person-named', entries).filter(({ body }) => body.person === person);
  const hashes = person === undefined ? [] : named.flatMap(({ body }) => [body.name, body.contact]);
  return [...new Set([...hashes, photo].filter(isHash))];
}

/** An erasure that would erase nothing is refused: somebody would trust it. */
export function erasesNothing(event: Event, hashes: readonly string[]): TypingProblem[] {
  if (event.type !== 'personal-data-erased' || hashes.length > 0) return [];
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
