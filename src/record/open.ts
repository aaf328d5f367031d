// Starting a logbook: its first entry, and the person who keeps it. All is read and checked before there is a file.
import { type JsonObject, kinds, type Typing, type TypingProblem, typeBody } from '../events/index.ts';
import type { SealedRow } from '../log/store/index.ts';
import { append } from './compose.ts';
import { type Desk, type Outside, timeIn } from './desk.ts';
import { sealTyped } from './sealing.ts';
import { crsProblems } from './working-crs.ts';

/** What a logbook starts with, as typed. */
export type Opening = Readonly<{
  logbook: Readonly<Record<string, unknown>>;
  /** The person who keeps it. */
  person: Readonly<Record<string, unknown>>;
}>;

/** The same read and checked. */
export type OpeningRead = Readonly<{
  logbook: JsonObject;
  keeper: JsonObject;
  /** Identity of the person. */
  person: string;
  rows: readonly SealedRow[];
}>;

export type Opened = { ok: true; person: string } | { ok: false; problems: readonly TypingProblem[] };

/** Reads what a logbook is to start with; says all that is wrong or missing. Fields of the person are "person.…". */
export function readOpening(
  outside: Outside,
  opening: Opening,
): { ok: true; read: OpeningRead } | { ok: false; problems: readonly TypingProblem[] } {
  const person = outside.newId();
  const rows: SealedRow[] = [];
  const refuse = { ok: false, remedy: 'there is nothing to refer to in an empty logbook' } as const;
  const typing: Typing = {
    units: opening.logbook.units === 'metric' ? 'metric' : 'us',
    zone: 'UTC',
    now: new Date(outside.now()).toISOString(),
    find: () => refuse,
    findEntry: () => refuse,
    newIdentity: () => person,
    seal: (field, text) => sealTyped({ outside }, field, text, rows),
  };
  const logbook = typeBody(kinds['logbook-opened'], opening.logbook, typing);
  const keeper = typeBody(kinds['person-named'], opening.person, typing);
  const problems = [...(logbook.ok ? [] : logbook.problems), ...placeProblems(opening.logbook)];
  const first = problems.filter(
    ({ field }, index) => problems.findIndex((one) => one.field === field) === index,
  );
  const ofPerson = keeper.ok ? [] : keeper.problems;
  if (!logbook.ok || !keeper.ok || first.length > 0) {
    return {
      ok: false,
      problems: [...first, ...ofPerson.map((one) => ({ ...one, field: `person.${one.field}` }))],
    };
  }
  return { ok: true, read: { logbook: logbook.body, keeper: keeper.body, person, rows } };
}

/** Appends "logbook opened" and "person named" as the first entries of an empty logbook; gives the person. */
export async function appendOpening(desk: Desk, read: OpeningRead): Promise<string> {
  const { logbook, keeper, person, rows } = read;
  const zone = typeof logbook.zone === 'string' ? logbook.zone : 'UTC';
  const happenedAt = { at: timeIn(desk.outside, zone, desk.outside.now()), precision: 'instant' as const };
  const entry = (type: 'logbook-opened' | 'person-named', body: JsonObject) => ({
    type,
    v: kinds[type].v,
    body,
    happenedAt,
    by: person,
  });
  await append(desk, zone, [
    entry('logbook-opened', logbook),
    { ...entry('person-named', keeper), sealed: rows },
  ]);
  return person;
}

/** Reads and appends, where an empty logbook is there already. */
export async function openBook(desk: Desk, opening: Opening): Promise<Opened> {
  const reading = readOpening(desk.outside, opening);
  return reading.ok ? { ok: true, person: await appendOpening(desk, reading.read) } : reading;
}

/** Zone and CRS are looked at even where something else is wrong, so that all is said at once. */
function placeProblems(typed: Opening['logbook']): TypingProblem[] {
  const { zone, crs } = typed;
  const kind = kinds['logbook-opened'];
  return [
    ...(typeof zone === 'string' && zone !== '' ? kind.between({ zone }) : []),
    ...(typeof crs === 'string' && crs !== '' ? crsProblems(kind.type, { crs }) : []),
  ];
}
