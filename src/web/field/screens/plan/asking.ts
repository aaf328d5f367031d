// What somebody settled on this phone -> what the planner is asked; and the answer, made again whenever something is recorded
// that the plan rests on.
import { useEffect, useMemo, useState } from 'preact/hooks';
import { gatherAsked, type PlanTyped, type PlanWork } from '../../../../felling/index.ts';
import { type Folded, type Group, viewGroup } from '../../../../stand/index.ts';
import type { Draft } from '../../engine/port.ts';
import { makePlan, type PlanAnswer } from '../../planner/index.ts';
import { asText, numberParts } from '../values.ts';

/** Fields of the draft that stay when a plan is adopted: they tell of the place and the day, not of the plan. */
const circumstances = ['wedges', 'winch', 'wind', 'slope', 'downhill', 'people'] as const;
/** Fields of the draft that hold an aim, by the id of the stem. */
const aimField = 'aim:';
/** 1 mile is 1,609.344 m (agreement of 1959). */
const milesAnHour = 1609.344 / 3600;

export const aimFieldOf = (stem: string): string => `${aimField}${stem}`;

export function circumstancesOf(draft: Draft): Draft {
  return Object.fromEntries(
    circumstances.flatMap((name) => (draft[name] === undefined ? [] : [[name, draft[name]]])),
  );
}

/** Aims and the stem that goes first, as somebody settled them, of stems that are still to fall. */
export function settledIn(draft: Draft, stems: ReadonlySet<string>) {
  const aims = Object.entries(draft).flatMap(([name, value]) => {
    const stem = name.slice(aimField.length);
    return name.startsWith(aimField) && stems.has(stem) && asText(value) !== ''
      ? [{ stem, aim: asText(value) }]
      : [];
  });
  const next = asText(draft.next);
  return { aims, next: stems.has(next) ? next : undefined };
}

/** Asked freely, as settled here. */
export function freely(draft: Draft, stems: ReadonlySet<string>): PlanTyped {
  const { aims, next } = settledIn(draft, stems);
  return {
    ...circumstancesTyped(draft),
    ...(aims.length === 0 ? {} : { fix: aims.map(({ stem, aim }) => `${stem}=${aim}`).join(';') }),
    ...(next === undefined ? {} : { place: `${next}=1` }),
  };
}

type Adopted = NonNullable<Group['plan']>['body'];

/** Asked so that order and aims come out as they were adopted: what is new are the chances, and what is in the way now. */
export function asAdopted(
  draft: Draft,
  { steps, wind, assumed = [] }: Pick<Adopted, 'steps' | 'wind' | 'assumed'>,
): PlanTyped {
  const order = steps.map(({ stem }) => stem);
  const before = order.slice(1).map((stem, at) => `${order[at]}=${stem}`);
  return {
    ...(wind === undefined ? {} : { wind }),
    ...circumstancesTyped(draft),
    fix: steps.map(({ stem, aim }) => `${stem}=${aim.value} true`).join(';'),
    ...(before.length === 0 ? {} : { before: before.join(';') }),
    ...(assumed.length === 0
      ? {}
      : { assume: assumed.map(({ name, value }) => `${name}=${value}`).join(';') }),
  };
}

function circumstancesTyped(draft: Draft): PlanTyped {
  const wind = numberParts(asText(draft.wind));
  const said = (['slope', 'downhill', 'people'] as const).filter((name) => asText(draft[name]).trim() !== '');
  const metresPerSecond = Number(wind.number) * (wind.unit === 'mph' ? milesAnHour : 1);
  return {
    wedges: draft.wedges === 'yes',
    winch: draft.winch === 'yes',
    ...(wind.number === '' ? {} : { wind: String(metresPerSecond) }),
    ...Object.fromEntries(said.map((name) => [name, asText(draft[name])])),
  };
}

/** The stems that are still to fall in a group. */
export function toFall({ stand }: Folded, group: Group): ReadonlySet<string> {
  return new Set(viewGroup(stand, [], group).standingCut.map(({ id }) => id));
}

/** The answer to what is asked now; undefined while it is worked out, so that no plan stands there that is out of date. */
export function usePlan(folded: Folded, group: Group, typed: PlanTyped): PlanAnswer | undefined {
  const asked = JSON.stringify(typed);
  const steady = useSteady(asked);
  const { work, key } = useMemo(() => {
    const made = gathered(folded, group, JSON.parse(steady) as PlanTyped);
    // The same inputs give the same plan: an entry that touches none of them changes nothing here.
    const inputs = typeof made === 'string' ? made : { ...made, asked: { ...made.asked, when: '' } };
    return { work: made, key: JSON.stringify(inputs) };
  }, [folded, group, steady]);
  const [answer, setAnswer] = useState<Readonly<{ key: string; answer: PlanAnswer }> | undefined>(undefined);
  useEffect(() => {
    if (typeof work === 'string') return setAnswer({ key, answer: { ok: false, why: work } });
    return makePlan(work, (made) => setAnswer({ key, answer: made }));
  }, [key]);
  return answer?.key === key && asked === steady ? answer.answer : undefined;
}

/** A text once it has stood for a moment: nothing is planned for each letter that is typed. */
function useSteady(text: string): string {
  const [steady, setSteady] = useState(text);
  useEffect(() => {
    const timer = setTimeout(() => setSteady(text), 300);
    return () => clearTimeout(timer);
  }, [text]);
  return steady;
}

/** What the planner gets, or why there is nothing to plan. */
function gathered({ stand }: Folded, group: Group, typed: PlanTyped): PlanWork | string {
  try {
    return gatherAsked(stand, group, typed, new Date().toISOString());
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}
