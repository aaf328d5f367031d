/** How well a position is known: the one place where defaults for it stand. Horizontal standard errors in metres. */

/** What compass and tape are good for; a logbook can say its own. */
export type CompassAndTape = {
  /** Standard error of one compass reading, degrees. */
  readonly azimuthDegrees: number;
  /** Standard error of a taped distance as a share of it. */
  readonly distanceShare: number;
  /** What cannot be told apart on a trunk or a stake, metres. */
  readonly pointMetres: number;
};

/**
 * What a hand compass and a tape are taken to be good for. Common practice, no source: woodlot traverses by hand
 * compass and tape are commonly accepted when they close to between 1/80 and 1/300 (textbooks, from memory), which
 * single sights across rough ground, not adjusted, do not reach.
 */
export const COMPASS_AND_TAPE: CompassAndTape = {
  azimuthDegrees: 2,
  distanceShare: 0.01,
  pointMetres: 0.15,
};

/** Standard error of block axes given from true or grid north, degrees: from a plan or a survey. Common practice, no source. */
export const SURVEYED_AXIS_DEGREES = 0.25;

/**
 * What a fix or coordinates without an accuracy are taken to be good for, metres. Under a closed canopy mapping-grade
 * receivers were off by 2.6 to 3.5 m (Forest Science 58(6), 2012, abstract); a phone is commonly 3 to 5 m off (from memory).
 */
export const GUIDE_METRES = 5;

/**
 * How far an average of fixes can be trusted: errors of one receiver under one canopy go the same way. Mapping-grade
 * receivers under Douglas-fir came from 7.3 m (one fix) to 4.4 m (sixty), a share of 0.60, where chance alone would
 * give 0.13 ("Balancing horizontal accuracy and data collection efficiency", abstract); averages in thinned pine were
 * still off by 1.02 m ("Effects of forest thinning on static horizontal positions", abstract).
 */
export const AVERAGE_FLOOR = { shareOfOneFix: 0.6, metres: 1 } as const;

/** Extra errors where one datum is taken for another, metres: 1-2 m between WGS 84 and NAD83 and the like, from memory. */
const ANOTHER_DATUM = 2;
/** Between the realizations of NAD83, from memory. */
const ANOTHER_NAD83 = 1;

/** Standard error at the end of an offset of `metres`, from that at its start. */
export function offsetError(start: number, metres: number, good: CompassAndTape = COMPASS_AND_TAPE): number {
  const across = metres * ((good.azimuthDegrees * Math.PI) / 180);
  return Math.hypot(start, across, metres * good.distanceShare, good.pointMetres);
}

/** Standard error of an average, from those of its fixes; never better than {@link AVERAGE_FLOOR}. */
export function averageError(errors: readonly number[]): number {
  const independent = 1 / Math.sqrt(errors.reduce((sum, error) => sum + 1 / error ** 2, 0));
  const best = Math.min(...errors);
  return Math.max(independent, Math.min(best, AVERAGE_FLOOR.metres), best * AVERAGE_FLOOR.shareOfOneFix);
}

/** What is added when coordinates on one datum are taken over into another unchanged, and the same in words. */
export function datumError(from: string, to: string): { readonly metres: number; readonly words: string } {
  if (from === to) return { metres: 0, words: '' };
  const metres = from.startsWith('NAD83') && to.startsWith('NAD83') ? ANOTHER_NAD83 : ANOTHER_DATUM;
  const size = metres === ANOTHER_NAD83 ? 'up to 1 m' : '1–2 m';
  return { metres, words: `${from} taken as ${to}, ${size} more` };
}
