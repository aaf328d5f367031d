// Starting a logbook: its first entry, and the person who keeps it.
import { isZone, kinds, momentIn, type Typing, type TypingProblem, typeBody } from '../events/index.ts';
import type { SealedRow } from '../log/store/index.ts';
import { crs, whyNotCrs } from '../place/index.ts';
import { append } from './compose.ts';
import type { Desk } from './desk.ts';
import { sealTyped } from './sealing.ts';

/** What a logbook starts with, as typed. */
export type Opening = Readonly<{
  logbook: Readonly<Record<string, unknown>>;
  /** The person who keeps it. */
  person: Readonly<Record<string, unknown>>;
}>;

export type Opened = { ok: true; person: string } | { ok: false; problems: readonly TypingProblem[] };

/** Appends "logbook opened" and "person named" as the first entries of an empty logbook. */
export async function openBook(desk: Desk, opening: Opening): Promise<Opened> {
  const person = desk.outside.newId();
  const rows: SealedRow[] = [];
  const refuse = { ok: false, remedy: 'there is nothing to refer to in an empty logbook' } as const;
  const zone = typeof opening.logbook.zone === 'string' ? opening.logbook.zone : '';
  const typing: Typing = {
    units: opening.logbook.units === 'metric' ? 'metric' : 'us',
    zone,
    now: new Date(desk.outside.now()).toISOString(),
    find: () => refuse,
    findEntry: () => refuse,
    newIdentity: () => person,
    seal: (field, text) => sealTyped(desk, field, text, rows),
  };
  const outside = placeProblems(opening.logbook);
  if (outside.length > 0) return { ok: false, problems: outside };
  const logbook = typeBody(kinds['logbook-opened'], opening.logbook, typing);
  const keeper = typeBody(kinds['person-named'], opening.person, typing);
  if (!logbook.ok || !keeper.ok) {
    return {
      ok: false,
      problems: [...(logbook.ok ? [] : logbook.problems), ...(keeper.ok ? [] : keeper.problems)],
    };
  }
  const happenedAt = { at: momentIn(zone, desk.outside.now()), precision: 'instant' as const };
  await append(desk, zone, [
    { type: 'logbook-opened', v: kinds['logbook-opened'].v, body: logbook.body, happenedAt, by: person },
    {
      type: 'person-named',
      v: kinds['person-named'].v,
      body: keeper.body,
      happenedAt,
      by: person,
      sealed: rows,
    },
  ]);
  return { ok: true, person };
}

/** Zone and CRS are checked before there is a logbook that rests on them. */
function placeProblems({ zone, crs: code }: Readonly<Record<string, unknown>>): TypingProblem[] {
  const problems: TypingProblem[] = [];
  if (typeof zone === 'string' && zone !== '' && !isZone(zone)) {
    problems.push({
      field: 'zone',
      value: zone,
      remedy: 'write an IANA time zone such as America/New_York or Europe/Stockholm',
    });
  }
  if (typeof code === 'string' && code !== '' && crs(code) === undefined) {
    problems.push({ field: 'crs', value: code, remedy: whyNotCrs(code) });
  }
  return problems;
}
