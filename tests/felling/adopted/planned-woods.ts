// A small invented group with a plan that somebody adopted, in a real logbook whose clock goes on by a minute with every entry.
import {
  adoption,
  comparePlan,
  comparePlans,
  type FellingPlan,
  type PlanCompared,
  type PlanTyped,
  planAsked,
} from '../../../src/felling/index.ts';
import { type Draft, readStand } from '../../../src/record/index.ts';
import { type Folded, findThing } from '../../../src/stand/index.ts';
import { emptyWoods, type Woods } from '../../record/woods.ts';

export type PlannedWoods = Woods &
  Readonly<{
    folded: () => Promise<Folded>;
    id: (noun: 'stem' | 'group' | 'sapling', label: string) => Promise<string>;
    plan: (typed?: PlanTyped) => Promise<FellingPlan>;
    adopt: (typed?: PlanTyped) => Promise<FellingPlan>;
    compared: () => Promise<PlanCompared>;
    all: () => Promise<PlanCompared[]>;
    /** The reasons why the plan ended. */
    ended: () => Promise<readonly string[]>;
  }>;

/** Of trees on their lean one after the other, so that each fall has its own direction and nothing stands in its way. */
const stems = [
  ['A1', '0 true, 2 m from stake S', '1 m at 0 true'],
  ['A2', '90 true, 9 m from stake S', '1 m at 90 true'],
  ['A3', '180 true, 9 m from stake S', '1 m at 180 true'],
] as const;

/** @param before recorded before the plan is adopted */
export async function plannedWoods(
  before: (woods: Woods) => Promise<unknown> = async () => undefined,
  typed: PlanTyped = {},
): Promise<PlannedWoods> {
  const made = await emptyWoods('metric');
  const clock = { now: Date.parse('2026-03-20T10:00:00-04:00') };
  const on = <T>(work: () => Promise<T>): Promise<T> => {
    clock.now += 60_000;
    made.setClock(new Date(clock.now).toISOString());
    return work();
  };
  const woods: Woods = {
    ...made,
    tryIt: (kind, fields?: Draft['fields'], more?: Partial<Draft>) =>
      on(() => made.tryIt(kind, fields, more)),
    record: (kind, fields?: Draft['fields'], more?: Partial<Draft>) =>
      on(() => made.record(kind, fields, more)),
  };
  const { record } = woods;
  await record('block-laid-out', {
    name: 'North cove',
    boundary: '35.7130,-81.6860; 35.7130,-81.6810; 35.7170,-81.6810; 35.7170,-81.6860',
    boundaryFrom: 'map',
  });
  await record('stake-set', { label: 'S', position: '35.7150, -81.6835 +-1 m' });
  await record('stake-set', { label: 'T', position: '35.7152, -81.6832 +-1 m' });
  await record('stake-set', { label: 'far', position: '35.7160, -81.6815 +-1 m' });
  await record('group-laid-out', { label: 'G1', block: 'North cove' });
  for (const [tag, position, lean] of stems)
    await record('stem-marked', {
      mark: 'cut',
      tag,
      group: 'G1',
      dbh: '30 cm',
      height: '18 m',
      lean,
      position,
    });
  await record('stem-marked', {
    mark: 'leave',
    tag: 'L1',
    dbh: '25 cm',
    position: '225 true, 30 m from stake T',
  });
  await record('stem-marked', {
    mark: 'leave',
    tag: 'L9',
    dbh: '25 cm',
    position: '0 true, 4 m from stake far',
  });
  await record('sapling-protected', { label: 's1', group: 'G1', position: '20 true, 12 m from stake S' });
  await record('sapling-protected', { label: 's2', group: 'G1', position: '300 true, 20 m from stake S' });
  await record('sapling-protected', { label: 's9', position: '0 true, 3 m from stake far' });
  await before(woods);

  const folded = () => readStand(made.log);
  const id: PlannedWoods['id'] = async (noun, label) => {
    const found = findThing((await folded()).stand, noun, label, new Map());
    if (!found.ok) throw new Error(found.remedy);
    return found.value;
  };
  const plan: PlannedWoods['plan'] = async (asked = {}) => {
    const { stand } = await folded();
    const group = stand.groups.get(await id('group', 'G1'));
    if (group === undefined) throw new Error('There is no G1.');
    return planAsked(stand, group, { wedges: true, ...asked }, new Date(clock.now).toISOString());
  };
  const adopt: PlannedWoods['adopt'] = async (asked) => {
    const found = await plan(asked);
    await record('felling-plan-adopted', adoption(found, await made.size()));
    return found;
  };
  const all = async () => comparePlans(await folded(), await id('group', 'G1'));
  const compared = async () => {
    const last = comparePlan(await folded(), await id('group', 'G1'));
    if (last === undefined) throw new Error('No plan was adopted.');
    return last;
  };
  await adopt(typed);
  return { ...woods, folded, id, plan, adopt, compared, all, ended: async () => (await compared()).ended };
}
