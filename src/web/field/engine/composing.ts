// From what somebody wants to record to an entry: fields read against the stand of this phone, texts and photos put
// under seal, time and person filled in. Pure but for what is handed in.
import {
  type EventType,
  type JsonObject,
  type JsonValue,
  kindOf,
  type Taken,
  type Typing,
  type TypingProblem,
  typeBody,
  type UnitSystem,
} from '../../../events/index.ts';
import { parseEnvelope, type SealedRow, seal, writeEntry } from '../../../log/entry/index.ts';
import { findThing } from '../../../stand/index.ts';
import { text as words } from '../text/index.ts';
import type { Held } from './held.ts';
import { type Outside, timeHere } from './outside.ts';
import type { Wanted } from './port.ts';

/** Who records on which phone, and how what is typed is read. */
export type Composing = Readonly<{
  outside: Outside;
  held: Held;
  device: string;
  person: string | undefined;
  units: UnitSystem;
}>;

/** An entry that wants nothing but its sequence number. */
export type Composed = Readonly<{
  id: string;
  identity: string | undefined;
  texts: readonly SealedRow[];
  photo: SealedRow | undefined;
  /** @throws TypeError when a text holds half a surrogate pair */
  write: (seq: number) => Uint8Array;
}>;
type Composition = { ok: true; composed: Composed } | { ok: false; problems: readonly TypingProblem[] };

const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;
const hash = /^[0-9a-f]{64}$/;

/** Reads what is wanted, or says all that stands in the way. */
export function compose(context: Composing, wanted: Wanted): Composition {
  const { outside, device } = context;
  const kind = kindOf(wanted.kind);
  if (kind === undefined) return problem('kind', wanted.kind, words.engine.noSuchKind);
  if (kind.type === 'personal-data-erased') return problem('kind', kind.type, words.engine.eraseAtDesk);
  const rows: SealedRow[] = [];
  const now = timeHere(outside, outside.now());
  const typing = typingIn(context, now, rows);
  const sealedPhoto = wanted.photo && sealRow(outside, wanted.photo.bytes, wanted.photo.mediaType);
  const fields = withKnown(kind.type as EventType, wanted, { device, photo: sealedPhoto });
  const typed = typeBody(kind, fields, typing);
  if (!typed.ok) return typed;
  const identityField = Object.entries(kind.fields).find(([, { form }]) => form.is === 'identity')?.[0];
  const identity = textIn(typed.body, identityField);
  const by = context.person ?? (kind.type === 'person-named' ? identity : undefined);
  if (by === undefined) return problem('by', '', words.engine.sayWho);
  const happenedAt = wanted.happenedAt ?? { at: now, precision: 'instant' };
  const id = outside.newId();
  const photo = sealedPhoto === undefined || !names(typed.body, sealedPhoto.hash) ? undefined : sealedPhoto;
  const sealed = [...rows, ...(photo === undefined ? [] : [photo])].map((row) => row.hash);
  const write = (seq: number) =>
    writeEntry({
      id,
      type: kind.type,
      v: kind.v,
      happenedAt,
      recordedAt: now,
      by,
      device,
      seq,
      ...(sealed.length > 0 ? { sealed } : {}),
      body: typed.body,
    });
  const issue = unfit(write);
  if (issue !== undefined) return { ok: false, problems: [issue] };
  return { ok: true, composed: { id, identity, texts: rows, photo, write } };
}

function typingIn({ outside, held, units }: Composing, now: string, rows: SealedRow[]): Typing {
  const { stand, entries } = held.folded();
  return {
    units,
    zone: stand.logbook?.body.zone ?? outside.zone,
    now,
    find: (noun, text) => findThing(stand, noun, text, held.texts, entries),
    findEntry: (text) => {
      const written = text.trim();
      const id = uuid.test(written) ? written : held.at(Number(/^\d{1,12}$/.test(written) ? written : -1));
      return id === undefined
        ? { ok: false, remedy: words.engine.noSuchEntry(written) }
        : { ok: true, value: id };
    },
    newIdentity: () => outside.newId(),
    seal: (field, text): Taken => {
      if (hash.test(text)) return { ok: true, value: text };
      if (field === 'photo') return { ok: false, remedy: words.engine.photoFirst };
      const row = sealRow(outside, new TextEncoder().encode(text), 'text/plain;charset=utf-8');
      rows.push(row);
      return { ok: true, value: row.hash };
    },
  };
}

function sealRow({ randomBytes }: Outside, bytes: Uint8Array, mediaType: string): SealedRow {
  const salt = randomBytes(16);
  return { hash: seal(bytes, salt), salt, bytes, mediaType };
}

/** The fields with what this phone knows by itself: its own id for its clock, the photo that was just taken. */
function withKnown(
  type: EventType,
  { fields }: Wanted,
  { device, photo }: { device: string; photo: SealedRow | undefined },
): Readonly<Record<string, JsonValue>> {
  if (type === 'clock-offset-noted') return { device, ...fields };
  if (photo === undefined) return fields;
  return { mediaType: photo.mediaType, ...fields, photo: photo.hash };
}

function textIn(body: JsonObject, field: string | undefined): string | undefined {
  const value = field === undefined ? undefined : body[field];
  return typeof value === 'string' ? value : undefined;
}

function names(body: JsonObject, wanted: string): boolean {
  return Object.values(body).includes(wanted);
}

/** What is wrong with the envelope: its time, its length. */
function unfit(write: (seq: number) => Uint8Array): TypingProblem | undefined {
  try {
    const reading = parseEnvelope(write(Number.MAX_SAFE_INTEGER));
    return reading.ok ? undefined : reading.issue;
  } catch {
    return { field: 'entry', value: '', remedy: words.engine.halfCharacter };
  }
}

function problem(field: string, value: string, remedy: string): Composition {
  return { ok: false, problems: [{ field, value, remedy }] };
}
