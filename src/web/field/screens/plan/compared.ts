// Adopted plans held against what was recorded since, by this phone or another; once for each state of the stand.
import { comparePlan, type PlanCompared } from '../../../../felling/index.ts';
import { declination, isUnresolved } from '../../../../place/index.ts';
import { type Folded, type Group, locate, type Stand } from '../../../../stand/index.ts';
import type { Engine } from '../../engine/port.ts';
import type { Way } from '../way.ts';

type Plans = ReadonlyMap<string, PlanCompared>;
let last: Readonly<{ folded: Folded; plans: Plans }> | undefined;

/** The adopted plans of groups that are not closed, by group. */
export function plansOf(folded: Folded): Plans {
  if (last?.folded === folded) return last.plans;
  const plans = new Map<string, PlanCompared>();
  for (const { id, plan, opening } of folded.stand.groups.values()) {
    const compared = plan === undefined || opening === 'closed' ? undefined : comparePlan(folded, id);
    if (compared !== undefined) plans.set(id, compared);
  }
  last = { folded, plans };
  return plans;
}

/** A plan that no longer holds, and that nobody has put away on this phone. */
export type Ended = Readonly<{ group: Group; entry: string; reasons: readonly string[]; way: Way }>;

/** The card that is due on this screen; the emergency card and the plan's own screen come before it. */
export function planEnded(engine: Engine, way: Way): Ended | undefined {
  const { folded } = engine.state();
  if (way.screen === 'emergency') return undefined;
  const shown = way.screen === 'plan' ? (way.about.group ?? engine.setting('group')) : undefined;
  for (const [id, { entry, ended: reasons }] of plansOf(folded)) {
    const group = folded.stand.groups.get(id);
    if (group !== undefined && reasons.length > 0 && id !== shown && !isPutAway(engine, id, entry))
      return { group, entry, reasons, way };
  }
  return undefined;
}

/** Put away in this sitting, also where the phone cannot keep that. */
const here = new Set<string>();

export function isPutAway(engine: Engine, group: string, entry: string): boolean {
  return here.has(entry) || engine.setting(away(group)) === entry;
}

/** The person has read why it ended. A plan that is adopted later is another entry and is not put away with it. */
export async function putAway(engine: Engine, group: string, entry: string): Promise<void> {
  here.add(entry);
  await engine.setSetting(away(group), entry).catch(() => undefined);
}

function away(group: string): string {
  return `plan-away:${group}`;
}

/** How far magnetic north lies from true north at a stem now, degrees; undefined where nobody knows. */
export function northAt(stand: Stand, stem: string): number | undefined {
  const place = locate(stand).stem(stem);
  if (isUnresolved(place)) return undefined;
  const north = declination(place.at, new Date().toISOString());
  return isUnresolved(north) ? undefined : north.value;
}
