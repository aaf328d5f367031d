// Answers that mean another entry than the one typed: the same stem after all, a hang-up that came down, or a wrong
// entry put right. Whatever was typed goes into one of them.
import { type Event, type JsonObject, kinds, type TypingProblem } from '../events/index.ts';
import type { Folded, Stand } from '../stand/index.ts';
import { versionInForce } from './amend.ts';
import type { Decided } from './compose.ts';

export type Answered = { ok: true; entries: Decided[] } | { ok: false; problem: TypingProblem };

/** The entries to append, the answers given taken into account. */
export function answerWith(
  given: ReadonlySet<string>,
  typed: Decided,
  asked: Event,
  folded: Folded,
): Answered {
  const decided = sideSaid(given, typed);
  const event = { ...asked, body: decided.body } as unknown as Event;
  const same = [...given].find((answer) => answer === 'same-stem' || answer.startsWith('same-stem:'));
  if (event.type === 'stem-marked' && same !== undefined)
    return sameStem(decided, event.body, same, folded.stand);
  if (event.type !== 'stem-felled') return { ok: true, entries: [decided] };
  if (given.has('correct'))
    return { ok: true, entries: correctFelling(decided, event.body.stem, folded) ?? [decided] };
  if (given.has('cleared')) return { ok: true, entries: hangUpCleared(decided, event.body, folded) };
  return { ok: true, entries: [decided] };
}

/** The side that was answered goes into positions of two distances that name none. */
function sideSaid(given: ReadonlySet<string>, decided: Decided): Decided {
  const side = (['left', 'right'] as const).find((one) => given.has(one));
  if (side === undefined) return decided;
  const body = Object.entries(decided.body).map(([name, value]) => [
    name,
    typeof value === 'object' && value !== null && 'how' in value && value.how === 'distances'
      ? { side, ...value }
      : value,
  ]);
  return { ...decided, body: Object.fromEntries(body) as JsonObject };
}

type Marked = Extract<Event, { type: 'stem-marked' }>['body'];
type Felled = Extract<Event, { type: 'stem-felled' }>['body'];

/** A stem that is in the log already: its mark changes, and what was measured is measured again. */
function sameStem(decided: Decided, body: Marked, answer: string, stand: Stand): Answered {
  const carriers = carriersOf(stand, body);
  const named = answer.split(':')[1];
  const [stem] = named === undefined ? carriers : carriers.filter((id) => id === named);
  if (stem === undefined || (named === undefined && carriers.length > 1)) {
    const remedy = `say which stem it is: ${carriers.map((id) => `same-stem:${id}`).join(' or ')}`;
    return { ok: false, problem: { field: 'answers', value: answer, remedy } };
  }
  const {
    stem: _made,
    tag: _carried,
    mark,
    group,
    reason,
    purpose,
    markAtEye,
    markOnStump,
    block,
    ...seen
  } = body;
  const change = present({ stem, mark, group, reason, purpose, markAtEye, markOnStump, block });
  const measured = present(seen);
  const entries = [as(decided, 'mark-changed', change)];
  if (Object.keys(measured).length > 0) entries.push(as(decided, 'stem-measured', { stem, ...measured }));
  return { ok: true, entries };
}

/** Stems that carry the tag now; where none does, those that carried it before. */
function carriersOf(stand: Stand, { tag, stem: made }: Marked): string[] {
  const key = tag?.toLowerCase() ?? '';
  const now = [...(stand.tags.get(key) ?? [])].filter((id) => id !== made);
  if (now.length > 0) return now;
  return [...stand.stems.values()]
    .filter(({ earlierTags }) => earlierTags.some((earlier) => earlier.toLowerCase() === key))
    .map(({ id }) => id);
}

/** The earlier entry of the fall was wrong: it is amended with what was typed now. */
function correctFelling(decided: Decided, stem: string, folded: Folded): Decided[] | undefined {
  const amended = amendFelling(decided, stem, folded, () => ({
    body: decided.body,
    happenedAt: decided.happenedAt,
    reason: 'the fall was recorded anew',
  }));
  return amended && [amended];
}

/** The hung-up stem has come down: that is an entry of its own. What else was typed belongs to its felling. */
function hangUpCleared(decided: Decided, body: Felled, folded: Folded): Decided[] {
  const { stem, came: _down, hungOn: _held, lay, ...more } = body;
  const cleared = as(decided, 'hang-up-cleared', present({ stem, lay }));
  const added = present(more);
  if (Object.keys(added).length === 0) return [cleared];
  const amended = amendFelling(decided, stem, folded, (current) => ({
    body: { ...current.body, ...added },
    happenedAt: current.happenedAt,
    reason: 'said when the hang-up was cleared',
  }));
  return amended === undefined ? [cleared] : [cleared, amended];
}

type Version = Readonly<{ body: JsonObject; happenedAt: Decided['happenedAt'] }>;

function amendFelling(
  decided: Decided,
  stem: string,
  folded: Folded,
  anew: (current: Version) => Version & { reason: string },
): Decided | undefined {
  const earlier = folded.stand.stems.get(stem)?.felling?.entry;
  const current = earlier === undefined ? undefined : versionInForce(folded, earlier);
  if (current?.event.type !== decided.type) return undefined;
  const { version, happenedAt, event } = current;
  const next = anew({ body: event.body as JsonObject, happenedAt });
  return as(decided, 'entry-amended', { replaces: version, type: decided.type, v: decided.v, ...next });
}

function as(decided: Decided, type: keyof typeof kinds, body: JsonObject): Decided {
  return { ...decided, type, v: kinds[type].v, body };
}

function present(members: Record<string, unknown>): JsonObject {
  return Object.fromEntries(Object.entries(members).filter(([, value]) => value !== undefined)) as JsonObject;
}
