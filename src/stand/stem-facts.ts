// What follows from the entries about one stem, said once for everybody who asks.
import type { Body, QuantityEntered } from '../events/index.ts';
import type { Stand, Stem } from './state.ts';

/** The block that a stem stands in: the one it was given itself, otherwise that of its group. */
export function blockOfStem(
  { block, group }: Pick<Stem, 'block' | 'group'>,
  stand: Pick<Stand, 'groups'>,
): string | undefined {
  return block ?? (group === undefined ? undefined : stand.groups.get(group)?.block);
}

/** The diameter of the stump inside bark: as measured at the felling, otherwise when its decay was looked at. */
export function stumpDiameterOf({
  felling,
  decay,
}: Pick<Stem, 'felling' | 'decay'>): QuantityEntered | undefined {
  return felling?.details.stumpDiameter ?? decay?.body.stumpDiameter;
}

/** Whether what a cut shows is decay. Stain alone is none: the wood is sound still. */
export function isDecay(found: Body<'decay-measured'>['found']): boolean {
  return found === 'rot' || found === 'hollow';
}
