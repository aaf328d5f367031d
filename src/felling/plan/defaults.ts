// What somebody's plans are computed with by a decision that was recorded: which of it this program can use, and what is
// refused where it is typed. An entry that a device brings in is kept whatever it says; a plan then says that it was not used.
import { type Body, type Event, type Issue, nearest, parseBody } from '../../events/index.ts';
import type { Stand } from '../../stand/index.ts';
import { FellingError } from '../error.ts';
import { ASSUMPTIONS, type AssumptionName } from '../model/assumption-list.ts';
import { ASSUMPTION_NAMES, type ChangedAssumption } from '../model/assumptions.ts';
import { isLooser } from '../model/looser.ts';

/** A recorded value that a plan of this person is computed with. */
export type RecordedDefault = Readonly<{
  name: AssumptionName;
  value: number;
  /** Id of the entry, and why it was recorded. */
  entry: string;
  person: string;
  reason: string;
  belowFloor: boolean;
}>;

export type OwnDefaults = Readonly<{
  used: readonly RecordedDefault[];
  /** What was recorded and cannot be used, each a sentence. */
  unused: readonly Readonly<{ entry: string; says: string }>[];
}>;

/** A number of the model that is not the usual one, whether that lets the plan do more, and the entry that it comes from. */
export type PlannedChange = ChangedAssumption & Readonly<{ looser: boolean; recorded?: RecordedDefault }>;

type Recorded = Body<'felling-default-set'>;

/** What was recorded for one person; nothing where nobody said who plans. */
export function defaultsOf({ fellingDefaults }: Stand, person: string | undefined): OwnDefaults {
  const used: RecordedDefault[] = [];
  const unused: { entry: string; says: string }[] = [];
  for (const { body, entry } of fellingDefaults.values()) {
    if (body.person !== person) continue;
    const [problem] = problemsOf(body);
    if (problem === undefined && isAssumption(body.assumption))
      used.push({
        name: body.assumption,
        value: Number(body.value),
        entry,
        person: body.person,
        reason: body.reason,
        belowFloor: body.belowFloor === true,
      });
    else
      unused.push({
        entry,
        says: `${body.assumption} was recorded as ${body.value} and is not used: ${problem?.remedy ?? ''}.`,
      });
  }
  return { used, unused };
}

/** What a plan is computed with: what is typed for it goes before what was recorded. */
export function laidOver(
  own: OwnDefaults | undefined,
  typed: Readonly<Record<string, number>> = {},
): Readonly<{ recorded: readonly RecordedDefault[]; values: Readonly<Record<string, number>> }> {
  const recorded = (own?.used ?? []).filter(({ name }) => typed[name] === undefined);
  const values = Object.fromEntries(recorded.map(({ name, value }) => [name, value]));
  return { recorded, values: { ...values, ...typed } };
}

/** Each change with whether it loosens and where it comes from. */
export function changesFrom(
  changed: readonly ChangedAssumption[],
  recorded: readonly RecordedDefault[],
): PlannedChange[] {
  return changed.map((one) => {
    const from = recorded.find(({ name }) => name === one.name);
    const looser = isLooser(one.name, one.value);
    return from === undefined ? { ...one, looser } : { ...one, looser, recorded: from };
  });
}

/** Below which nobody's direction error is taken, as recorded or as usual, degrees. */
export function floorOf({ used }: OwnDefaults): number {
  return (
    used.find(({ name }) => name === 'directionErrorFloor')?.value ?? ASSUMPTIONS.directionErrorFloor.value
  );
}

/** What a person who types a default, or an amendment of one, must put right first. */
export function refusedDefaults(event: Event): readonly Issue[] {
  if (event.type === 'felling-default-set') return problemsOf(event.body);
  if (event.type !== 'entry-amended' || event.body.type !== 'felling-default-set') return [];
  const { type, v, body } = event.body;
  const within = parseBody(type, v, body);
  return within.ok ? refusedDefaults(within.event) : [];
}

function problemsOf({ assumption, value, belowFloor }: Recorded): Issue[] {
  if (!isAssumption(assumption)) {
    const near = nearest(assumption, ASSUMPTION_NAMES);
    const remedy = `the model has no number of that name${near === undefined ? '' : `; did you mean ${near}?`} The reference of the felling model lists them`;
    return [{ field: 'assumption', value: assumption, remedy }];
  }
  const { least, most, unit } = ASSUMPTIONS[assumption];
  const number = Number(value);
  if (!(number >= least && number <= most))
    return [{ field: 'value', value, remedy: `${assumption} goes from ${least} to ${most} (${unit})` }];
  const floor = ASSUMPTIONS.directionErrorFloor.value;
  if (
    (assumption === 'directionError' || assumption === 'directionErrorFloor') &&
    number < floor &&
    belowFloor !== true
  )
    return [
      {
        field: 'value',
        value,
        remedy: `it is below the floor of ${floor}°: a plan would count on aiming better than anybody has shown. If it is meant, say so (below floor: yes) and give the reason`,
      },
    ];
  return [];
}

/**
 * Numbers typed for one plan may go below the floor only where somebody recorded that they may.
 * @throws FellingError naming the number and how to record it
 */
export function checkFloor(typed: Readonly<Record<string, number>>, own: OwnDefaults): void {
  const floor = floorOf(own);
  for (const name of ['directionError', 'directionErrorFloor'] as const) {
    const value = typed[name];
    const recorded = own.used.find((one) => one.name === name)?.value ?? floor;
    if (value !== undefined && value < Math.min(floor, recorded))
      throw new FellingError(
        'assume',
        `${name}=${value}`,
        `${name} of ${value}° is below the floor of ${floor}°, and no decision to go there is recorded for who plans.`,
        `Give ${floor} or more, or record it first with the reason: gapledger record felling-default-set --person NAME --assumption ${name} --value ${value} --below-floor yes --reason "…"`,
      );
  }
}

function isAssumption(name: string): name is AssumptionName {
  return Object.hasOwn(ASSUMPTIONS, name);
}
