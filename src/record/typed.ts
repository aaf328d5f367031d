// A typed entry from start to end: read what was typed, look at it against the stand, ask or append.
import {
  type JsonObject,
  type Kind,
  nearestKind,
  parseBody,
  type Read,
  readTime,
  type Typing,
  type TypingProblem,
  typeBody,
} from '../events/index.ts';
import type { Envelope, Happened } from '../log/entry/index.ts';
import type { Receipt, SealedRow } from '../log/store/index.ts';
import { type Folded, findThing, fold } from '../stand/index.ts';
import { completeAmendment } from './amend.ts';
import { answerWith } from './answers.ts';
import { append, type Decided } from './compose.ts';
import { type Desk, timeIn } from './desk.ts';
import { erasedBy, erasesNothing, findPhoto, isErasure } from './erasing.ts';
import { knownNames } from './names.ts';
import { impossibleIn, type Question, questionsFor } from './questions.ts';
import { mediaTypeOf, sealTyped } from './sealing.ts';
import { loadAll, loadGroup, loadSlice } from './slice.ts';
import { kindTyped, wantedBy } from './wanted.ts';
import { whoDidIt } from './who.ts';
import { crsProblems } from './working-crs.ts';

/** What somebody typed: a kind, its fields as text, when it happened, and answers to questions. */
export type Draft = Readonly<{
  kind: string;
  fields: Readonly<Record<string, unknown>>;
  /** When it happened, as typed; now if left out. For an amendment: when the amended entry happened. */
  at?: string;
  /** Who did it: a name or id; the person at the desk if left out. */
  by?: string;
  answers?: readonly string[];
}>;

export type Recorded =
  | { outcome: 'recorded'; receipts: readonly Receipt[]; envelopes: readonly Envelope[]; folded: Folded }
  | { outcome: 'problems'; problems: readonly TypingProblem[] }
  | { outcome: 'questions'; questions: readonly Question[] };

/** Records a draft, or says what is missing, wrong or to be asked. Nothing is appended unless all is answered. */
export async function recordDraft(desk: Desk, draft: Draft): Promise<Recorded> {
  const kind = kindTyped(draft.kind);
  if (kind === undefined) return problem('kind', draft.kind, unknownKind(draft.kind));
  const entryIds = await findEntries(desk, kind, draft.fields);
  const read = { desk, kind, draft, entryIds };
  const lookedFor = { inVain: false };
  const whole = async () => look(read, fold(await loadAll(desk.log)), lookedFor);
  // What is to be erased may lie in any entry, and must not be missed.
  if (isErasure(kind.type)) return whole();
  const slice = await loadSlice(desk, wantedBy(kind, draft.fields, [...entryIds.values()]));
  const recorded = await look(read, slice, lookedFor);
  // A label that the slice does not hold: the whole logbook may hold a near one to suggest.
  return recorded.outcome === 'problems' && lookedFor.inVain ? whole() : recorded;
}

type Reading = { desk: Desk; kind: Kind; draft: Draft; entryIds: ReadonlyMap<string, string> };

/** @param lookedFor told when a label was looked for and not found */
async function look(
  { desk, kind, draft, entryIds }: Reading,
  folded: Folded,
  lookedFor: { inVain: boolean },
): Promise<Recorded> {
  const logbook = folded.stand.logbook?.body;
  if (logbook === undefined)
    return problem('logbook', '', 'this logbook has no first entry; start one with "gapledger init"');
  const names = await knownNames(desk.log, folded);
  const rows: SealedRow[] = [];
  const noted = <T extends { ok: boolean }>(found: T): T => {
    if (!found.ok) lookedFor.inVain = true;
    return found;
  };
  const typing: Typing = {
    units: logbook.units,
    zone: logbook.zone,
    now: timeIn(desk.outside, logbook.zone, desk.outside.now()),
    find: (noun, text) =>
      isNewStem(noun, text)
        ? { ok: true, value: desk.outside.newId() }
        : noted(findThing(folded.stand, noun, text, names, folded.entries)),
    findEntry: (text) => findEntry(text, entryIds, folded),
    newIdentity: () => desk.outside.newId(),
    seal: (field, text) =>
      kind.type === 'personal-data-erased'
        ? findPhoto(text, folded.entries)
        : sealTyped(desk, field, text, rows),
  };
  const time = readHappened(draft.at, typing);
  if (!time.ok) return { outcome: 'problems', problems: [time.problem] };
  const by = whoDidIt(desk, draft.by, folded.stand, names);
  if (!by.ok) return { outcome: 'problems', problems: [by.problem] };

  const amending = kind.type === 'entry-amended';
  const completed = amending
    ? completeAmendment(draft.fields, {
        folded,
        typing,
        happenedAt: draft.at === undefined ? undefined : time.value,
      })
    : { ok: true as const, fields: withDefaults(desk, kind, draft.fields) };
  if (!completed.ok) return { outcome: 'problems', problems: completed.problems };
  const typed = typeBody(kind, completed.fields, typing);
  if (!typed.ok) return { outcome: 'problems', problems: typed.problems };
  const refused = [...tagProblems(draft.fields.tag), ...crsProblems(kind.type, typed.body)];
  if (refused.length > 0) return { outcome: 'problems', problems: refused };

  const happenedAt: Happened = amending ? { at: typing.now, precision: 'instant' } : time.value;
  return decide(
    desk,
    { kind, body: typed.body, happenedAt, by: by.value, rows, zone: logbook.zone, names },
    new Set(draft.answers),
    folded,
  );
}

type Ready = {
  kind: Kind;
  body: JsonObject;
  happenedAt: Happened;
  by: string;
  rows: readonly SealedRow[];
  zone: string;
  /** Names of people by their sealed hash. */
  names: ReadonlyMap<string, string>;
};

async function decide(
  desk: Desk,
  ready: Ready,
  answers: ReadonlySet<string>,
  folded: Folded,
): Promise<Recorded> {
  const { kind, body, happenedAt, by, rows, zone, names } = ready;
  const reading = parseBody(kind.type, kind.v, body);
  if (!reading.ok) return { outcome: 'problems', problems: reading.newer ? [] : reading.issues };
  const { event } = reading;
  const erases = erasedBy(event, folded.entries);
  const refused = [
    ...erasesNothing(event, erases),
    ...impossibleIn(event),
    ...((await desk.refuses?.(event)) ?? []),
  ];
  if (refused.length > 0) return { outcome: 'problems', problems: refused };
  const context = event.type === 'opening-closed' ? await loadGroup(desk, event.body.group) : folded;
  const questions = questionsFor(
    { event, happenedAt, now: desk.outside.now(), names: withRows(names, rows) },
    context,
  );
  const unanswered = questions.filter(({ choices }) => !choices.some(({ answer }) => answers.has(answer)));
  if (unanswered.length > 0) return { outcome: 'questions', questions: unanswered };

  const decided: Decided = {
    type: kind.type,
    v: kind.v,
    body,
    happenedAt,
    by,
    sealed: rows,
    erases,
  };
  // Only answers to questions that were asked count: a flag given in advance changes nothing else.
  const asked = new Set(questions.flatMap(({ choices }) => choices.map(({ answer }) => answer)));
  const given = new Set([...answers].filter((answer) => asked.has(answer)));
  const answered = answerWith(given, decided, event, folded);
  if (!answered.ok) return { outcome: 'problems', problems: [answered.problem] };
  const { receipts, envelopes } = await append(desk, zone, answered.entries);
  return { outcome: 'recorded', receipts, envelopes, folded };
}

/** The names known, and with them what was typed just now. */
function withRows(names: ReadonlyMap<string, string>, rows: readonly SealedRow[]): Map<string, string> {
  const texts = rows.filter(({ mediaType }) => mediaType.startsWith('text/'));
  return new Map([
    ...names,
    ...texts.map(({ hash, bytes }) => [hash, new TextDecoder().decode(bytes)] as const),
  ]);
}

function readHappened(
  at: string | undefined,
  typing: Typing,
): { ok: true; value: Happened } | { ok: false; problem: TypingProblem } {
  if (at === undefined) return { ok: true, value: { at: typing.now, precision: 'instant' } };
  const reading = readTime(at, typing.zone, typing.now);
  if (reading.ok) return reading;
  const choices = reading.choices?.map(({ label, value }) => ({ label, text: value.at }));
  return {
    ok: false,
    problem: { field: 'at', value: at, remedy: reading.remedy, ...(choices ? { choices } : {}) },
  };
}

function isNewStem(noun: string, text: string): boolean {
  return noun === 'stem' && text.trim().toLowerCase() === 'new';
}

/** A stem typed as "new" is one that was never marked, so no tag may read like that. */
function tagProblems(tag: unknown): TypingProblem[] {
  if (typeof tag !== 'string' || !isNewStem('stem', tag)) return [];
  const remedy = '"new" stands for a stem that was never marked; write what is on the tag, or leave it out';
  return [{ field: 'tag', value: tag, remedy }];
}

function findEntry(text: string, entryIds: ReadonlyMap<string, string>, folded: Folded): Read<string> {
  const id = entryIds.get(text.trim()) ?? (folded.entries.has(text) ? text : undefined);
  if (id !== undefined) return { ok: true, value: id };
  return {
    ok: false,
    remedy: `there is no entry ${text} in this logbook; "gapledger log" shows their numbers`,
  };
}

/** The entries that a draft names by number or id. */
async function findEntries(desk: Desk, kind: Kind, fields: Draft['fields']): Promise<Map<string, string>> {
  const found = new Map<string, string>();
  for (const [name, field] of Object.entries(kind.fields)) {
    if (!namesEntries(field.form)) continue;
    for (const text of entriesNamed(fields[name])) {
      const key = text.replace(/^#/, '');
      const stored = /^\d{1,12}$/.test(key)
        ? await desk.log.at(Number(key))
        : await desk.log.get(key.toLowerCase());
      if (stored) found.set(text, stored.id);
    }
  }
  return found;
}

function namesEntries(form: Kind['fields'][string]['form']): boolean {
  return form.is === 'entry' || (form.is === 'list' && form.of.is === 'entry');
}

/** One entry, or several: listed, or in a text with semicolons between them. */
function entriesNamed(given: unknown): string[] {
  if (typeof given === 'number') return [String(given)];
  const texts = typeof given === 'string' ? [given] : Array.isArray(given) ? given : [];
  return texts
    .filter((text) => typeof text === 'string')
    .flatMap((text) => text.split(';').map((part) => part.trim()));
}

/** What the program knows without being told: this device, the type of a photo's file. */
function withDefaults(desk: Desk, kind: Kind, fields: Draft['fields']): Draft['fields'] {
  if (kind.type === 'clock-offset-noted') return { device: desk.device, ...fields };
  if (kind.type === 'photo-taken' && typeof fields.photo === 'string')
    return { mediaType: mediaTypeOf(fields.photo), ...fields };
  return fields;
}

function unknownKind(kind: string): string {
  const near = nearestKind(kind);
  return near === undefined
    ? 'there is no such kind; "gapledger record --help" lists them'
    : `there is no such kind; did you mean ${near}?`;
}

function problem(field: string, value: string, remedy: string): Recorded {
  return { outcome: 'problems', problems: [{ field, value, remedy }] };
}
