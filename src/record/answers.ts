// Answers that mean another entry than the one typed: the same stem after all, or a wrong entry put right.
import { type Event, type JsonObject, kinds } from '../events/index.ts';
import type { Folded } from '../stand/index.ts';
import { versionInForce } from './amend.ts';
import type { Decided } from './compose.ts';

/** The entries to append, the answers given taken into account. */
export function answerWith(
  given: ReadonlySet<string>,
  decided: Decided,
  event: Event,
  folded: Folded,
): Decided[] {
  if (event.type === 'stem-marked' && given.has('same-stem')) return sameStem(decided, event.body, folded);
  if (event.type === 'stem-felled' && given.has('correct'))
    return correctFelling(decided, event.body.stem, folded);
  return [decided];
}

type Marked = Extract<Event, { type: 'stem-marked' }>['body'];

/** A stem that is in the log already: its mark changes, and what was measured is measured again. */
function sameStem(decided: Decided, body: Marked, { stand }: Folded): Decided[] {
  const stem = [...(stand.tags.get(body.tag?.toLowerCase() ?? '') ?? [])].find((id) => id !== body.stem);
  if (stem === undefined) return [decided];
  const { mark, group, reason, purpose } = body;
  const { species, dbh, height, merchantableHeight, lean, decaySigns, seams, defects, vigor, position } =
    body;
  const change = present({ stem, mark, group, reason, purpose });
  const measured = present({
    species,
    dbh,
    height,
    merchantableHeight,
    lean,
    decaySigns,
    seams,
    defects,
    vigor,
    position,
  });
  const marks = { ...decided, type: 'mark-changed', v: kinds['mark-changed'].v, body: change };
  if (Object.keys(measured).length === 0) return [marks];
  return [
    marks,
    { ...decided, type: 'stem-measured', v: kinds['stem-measured'].v, body: { stem, ...measured } },
  ];
}

/** The earlier entry of the fall was wrong: it is amended with what was typed now. */
function correctFelling(decided: Decided, stem: string, folded: Folded): Decided[] {
  const earlier = folded.stand.stems.get(stem)?.felling?.entry;
  const current = earlier === undefined ? undefined : versionInForce(folded, earlier);
  if (current === undefined) return [decided];
  const body = {
    replaces: current.version,
    type: decided.type,
    v: decided.v,
    body: decided.body,
    happenedAt: decided.happenedAt,
    reason: 'the fall was recorded anew',
  };
  return [{ ...decided, type: 'entry-amended', v: kinds['entry-amended'].v, body }];
}

function present(members: Record<string, unknown>): JsonObject {
  return Object.fromEntries(Object.entries(members).filter(([, value]) => value !== undefined)) as JsonObject;
}
