// How well places are known against each other. What is measured from the same stake shares the error of that stake, which moves
// all of it together and changes no plan.
import { isUnresolved, type Resolved, type Unresolved } from '../../place/index.ts';
import { hangOn, type Located, type Locator, type Stand } from '../../stand/index.ts';

/** Standard error of a place against the group, metres; undefined where it cannot be told. */
export type ErrorsIn = (place: Resolved | Unresolved, located: Located | undefined) => number | undefined;

/** @param first the position of a stem of the group: what hangs on the same stake as it moves with it */
export function errorsAgainst(stand: Stand, locator: Locator, first: Located | undefined): ErrorsIn {
  const shared = stakeUnder(stand, first);
  const place = shared === undefined ? undefined : locator.stake(shared);
  const together = place === undefined || isUnresolved(place) ? 0 : place.standardError;
  return (at, located) => {
    if (isUnresolved(at)) return undefined;
    const common = shared !== undefined && stakeUnder(stand, located) === shared ? together : 0;
    return Math.sqrt(Math.max(0, at.standardError ** 2 - common ** 2));
  };
}

/** The one stake with a place of its own that a position hangs on, directly or through others; none where it hangs on several. */
function stakeUnder(stand: Stand, located: Located | undefined): string | undefined {
  if (located === undefined) return undefined;
  const { stake, stem, block } = hangOn(stand, [located.entered]);
  const grounded = [...stake].filter((id) => {
    const entered = stand.stakes.get(id)?.position?.entered;
    return entered !== undefined && entered.how !== 'offset' && entered.how !== 'distances';
  });
  const fixedStems = [...stem].filter((id) => {
    const entered = stand.stems.get(id)?.position?.entered;
    return entered?.how !== 'offset' && entered?.how !== 'distances';
  });
  return grounded.length === 1 && fixedStems.length === 0 && block.size === 0 ? grounded[0] : undefined;
}
