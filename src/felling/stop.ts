// When a stop card is due: a stem that hangs, a lay far off what was aimed, worse rot than was noted.
import type { Body, Event, QuantityEntered } from '../events/index.ts';
import { isUnresolved, metres } from '../place/index.ts';
import { isDecay, type Stand, type Stem } from '../stand/index.ts';
import { offBetween } from './lay-off.ts';
import type { StopReason } from './stop-cards.ts';

/**
 * How many degrees a lay may be off before the card comes. No published figure was found; 10° takes the top of a
 * 60 ft stem more than 10 ft to the side (60 sin 10°). Common practice, no source.
 */
export const farOffDegrees = 10;

/**
 * Why somebody must stop now that this has been recorded; in the order in which the cards are to be shown, and none
 * where nothing of the kind is recorded, which does not say that nothing is there.
 *
 * @param before the stand without this entry, so that what was noted earlier can be told from what it brings
 * @param when the time of the entry (RFC 3339), for the declination
 */
export function stopReasons(before: Stand, event: Event, when: string): StopReason[] {
  switch (event.type) {
    case 'stem-felled':
      return [
        ...(event.body.came === 'hung-up' ? (['hung-up'] as const) : []),
        ...(isFarOff(before, event.body, when) ? (['lay-far-off'] as const) : []),
      ];
    case 'hazard-noted':
      return event.body.what === 'hung-up-stem' ? ['hung-up'] : [];
    case 'decay-measured':
      return isMoreRot(before.stems.get(event.body.stem), event.body) ? ['more-rot'] : [];
    default:
      return [];
  }
}

/** Whether a lay was measured and is far off the aim; without one of the two nothing can be said. */
function isFarOff(before: Stand, { stem, aimed, lay }: Body<'stem-felled'>, when: string): boolean {
  if (aimed === undefined || lay === undefined) return false;
  const off = offBetween(before, stem, { azimuth: aimed, when }, { azimuth: lay, when });
  return off !== undefined && Math.abs(off) >= farOffDegrees;
}

const hollowSigns: readonly string[] = ['cavity', 'hollow-sound'];

/**
 * Rot or a hollow where no sign of it had been noted; a hollow where only rot was to be expected; or larger figures
 * than those of an earlier look. Stain alone is not counted.
 */
export function isMoreRot(
  before: Partial<Pick<Stem, 'decaySigns' | 'decay'>> | undefined,
  { found, upTheButt, diameter }: Body<'decay-measured'>,
): boolean {
  if (!isDecay(found)) return false;
  const { decaySigns = [], decay } = before ?? {};
  const earlier = decay?.body;
  if (earlier === undefined || !isDecay(earlier.found))
    return found === 'hollow'
      ? !decaySigns.some((sign) => hollowSigns.includes(sign))
      : decaySigns.length === 0;
  if (found === 'hollow' && earlier.found === 'rot') return true;
  return isLarger(upTheButt, earlier.upTheButt) || isLarger(diameter, earlier.diameter);
}

function isLarger(now: QuantityEntered | undefined, earlier: QuantityEntered | undefined): boolean {
  if (now === undefined || earlier === undefined) return false;
  const [one, other] = [metres(now, 'decay'), metres(earlier, 'decay')];
  return !isUnresolved(one) && !isUnresolved(other) && one.metres > other.metres;
}
