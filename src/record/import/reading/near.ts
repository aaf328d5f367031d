// Where the woods are, as far as the logbook knows: coordinates far from there are in another order or system.
import { distanceAndAzimuth, farFrom, isUnresolved } from '../../../place/index.ts';
import type { Folded, Locator } from '../../../stand/index.ts';
import type { Near } from './coordinates.ts';

/** Near is within a day's walk of a block's boundary or of a stake. Common practice, no source. */
const nearMetres = 20_000;

export function nearWoods({ stand }: Folded, locator: Locator): Near {
  const rings = [...stand.blocks.values()].flatMap(({ boundary }) => {
    const { ring } = boundary === undefined ? { ring: [] } : locator.ring(boundary, '');
    return ring.length < 3 ? [] : [ring];
  });
  const stakes = [...stand.stakes.keys()].flatMap((id) => {
    const found = locator.stake(id);
    return isUnresolved(found) ? [] : [found.at];
  });
  if (rings.length + stakes.length === 0) return undefined;
  return (at) =>
    rings.some((ring) => !farFrom(at, ring, nearMetres)) ||
    stakes.some((stake) => distanceAndAzimuth(stake, at).metres <= nearMetres);
}
