// Audited stumps, sample plots, regeneration plots, price lists, adopted plans, what they are computed with by default, and wind: kept
// as they were recorded, in order of happening.
import type { EventType } from '../../events/index.ts';
import type { PositionEntered } from '../../place/index.ts';
import type { Happening } from '../entry.ts';
import type { Stand, Tallied } from '../state.ts';
import { blockOf } from './frame.ts';
import { type Apply, groupOf, located, stemOf } from './scene.ts';

export const stumpAudited: Apply<'stump-audited'> = (stand, body, happening) => {
  const stump = tallied<'stump-audited'>(body, happening, body.position);
  const stem = body.stem ?? carrierOf(stand, body.tag);
  if (stem !== undefined) stemOf(stand, stem, happening).stump = stump;
  goesWith(stand, body, happening);
  stand.stumpsAudited.push(stump);
};

/** The one stem that carries a tag; none where several do, for a tag alone does not tell them apart. */
function carrierOf(stand: Stand, tag: string | undefined): string | undefined {
  const [one, another] = stand.tags.get(tag?.trim().toLowerCase() ?? '') ?? [];
  return another === undefined ? one : undefined;
}

export const plotTallied: Apply<'plot-tallied'> = (stand, body, happening) => {
  goesWith(stand, body, happening);
  stand.plots.push(tallied<'plot-tallied'>(body, happening, body.position));
};

export const regenerationCounted: Apply<'regeneration-counted'> = (stand, body, happening) => {
  goesWith(stand, body, happening);
  stand.regeneration.push(tallied<'regeneration-counted'>(body, happening, body.position));
};

export const openingMeasured: Apply<'opening-measured'> = (stand, body, happening) => {
  groupOf(stand, body.group, happening).measured.push(
    tallied<'opening-measured'>(body, happening, body.center),
  );
};

export const pricesSet: Apply<'prices-set'> = (stand, body, happening) => {
  stand.prices.push(tallied<'prices-set'>(body, happening, undefined));
};

export const planAdopted: Apply<'felling-plan-adopted'> = (stand, body, happening) => {
  const group = groupOf(stand, body.group, happening);
  if (group.plan !== undefined) group.earlierPlans = [...(group.earlierPlans ?? []), group.plan];
  group.plan = tallied<'felling-plan-adopted'>(body, happening, undefined);
};

export const windNoted: Apply<'wind-noted'> = (stand, body, happening) => {
  goesWith(stand, body, happening);
  stand.winds.push(tallied<'wind-noted'>(body, happening, undefined));
};

/** The last one for a person and a number holds; whether a plan can use it is judged where plans are made. */
export const fellingDefaultSet: Apply<'felling-default-set'> = (stand, body, happening) => {
  const set = tallied<'felling-default-set'>(body, happening, undefined);
  stand.fellingDefaults.set(`${body.person} ${body.assumption}`, set);
};

/** The block and the group that are named know of the entry, also when no other has brought them in. */
function goesWith(
  stand: Stand,
  { block, group }: Readonly<{ block?: string | undefined; group?: string | undefined }>,
  happening: Happening,
): void {
  if (block !== undefined) blockOf(stand.blocks, block, happening);
  if (group !== undefined) groupOf(stand, group, happening);
}

export function tallied<T extends EventType>(
  body: Tallied<T>['body'],
  happening: Happening,
  position: PositionEntered | undefined,
): Tallied<T> {
  const { entry, happenedAt } = happening;
  return {
    entry: entry.id,
    at: happenedAt,
    recordedAt: entry.recordedAt,
    body,
    position: located(position, happening),
  };
}
