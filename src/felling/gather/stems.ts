// Stems of the stand as the felling model takes them: metres, true azimuths, and what speaks against the bole.
import type { AzimuthEntered, QuantityEntered } from '../../events/index.ts';
import {
  fitHeightCurve,
  type HeightCurve,
  heightOf,
  isLengthUnit,
  isNotEnough,
  lengthIn,
  type NotEnough,
} from '../../measure/index.ts';
import { isUnresolved, type LonLat, toTrueAzimuth } from '../../place/index.ts';
import {
  callsForLooking,
  consentFor,
  hazardWords,
  howItStands,
  isDecay,
  type Lines,
  type Locator,
  lineWords,
  type Stand,
  type Stem,
  stemLabel,
} from '../../stand/index.ts';
import type { GroupStem, Lean, Point, StemDecay } from '../model/inputs.ts';

/** A length in metres; undefined for none, and for what is no length. */
export function metresOf(quantity: QuantityEntered | undefined): number | undefined {
  if (quantity === undefined || !isLengthUnit(quantity.unit)) return undefined;
  const value = lengthIn(Number(quantity.value), quantity.unit, 'm');
  return Number.isFinite(value) ? value : undefined;
}

export type Surroundings = Readonly<{
  stand: Stand;
  locator: Locator;
  lines: Lines;
  when: string;
  /** Stands in for heights that nobody measured; a measured one always wins. */
  heights: HeightCurve | NotEnough;
}>;

/** The curve through every stem of the logbook of which height and DBH were measured. */
export function heightsOf({ stems }: Stand): HeightCurve | NotEnough {
  const measured = [...stems.values()].flatMap((stem) => {
    const [height, dbh] = [metresOf(stem.height), metresOf(stem.dbh)];
    return height === undefined || dbh === undefined
      ? []
      : [{ dbh: lengthIn(dbh, 'm', 'in'), height: lengthIn(height, 'm', 'ft') }];
  });
  return fitHeightCurve(measured);
}

export function heightBy(curve: HeightCurve | NotEnough, dbh: number | undefined): number | undefined {
  if (dbh === undefined) return undefined;
  const height = heightOf({ dbh: lengthIn(dbh, 'm', 'in'), height: null }, curve);
  return isNotEnough(height) ? undefined : lengthIn(height.value, 'ft', 'm');
}

/** Signs that are rot, or that rot is likely behind. */
const rotten: ReadonlySet<string> = new Set(['conks', 'cavity', 'soft-butt', 'hollow-sound', 'ants']);

/** A stem that is to be cut. Members that nobody measured are left out. */
export function groupStem(
  stem: Stem,
  point: Point & { positionError: number | undefined },
  at: LonLat,
  around: Surroundings,
): GroupStem {
  const { dbh, height, crownBase, crownRadius, seams } = stem;
  const seam = seamOf(seams, at, around);
  const lean = leanOf(stem, at, around);
  const decay = decayOf(stem, at, around);
  const measured = metresOf(height);
  const estimated = measured === undefined ? heightBy(around.heights, metresOf(dbh)) : undefined;
  const hazards = [...around.stand.openHazards].flatMap((id) => around.stand.hazards.get(id) ?? []);
  return known({
    ...point,
    id: stem.id,
    label: stemLabel(stem),
    dbh: metresOf(dbh),
    height: measured ?? estimated,
    heightEstimated: isTrue(estimated !== undefined),
    crownBase: metresOf(crownBase),
    crownRadius: metresOf(crownRadius),
    lean,
    decay,
    ...conditionOf(stem),
    seam,
    hazardFirst: isTrue(hazards.some((hazard) => hazard.stem === stem.id && hazard.what !== 'hung-up-stem')),
    above: aboveOf(stem, hazards, around.stand),
    withheld: withheldBecause(stem, at, around),
  });
}

/** Limbs, tops and bark that can come down on somebody at the stump; undefined where none is noted. */
function aboveOf(
  stem: Stem,
  hazards: readonly Parameters<typeof hazardWords>[1][],
  stand: Stand,
): readonly string[] | undefined {
  const noted = hazards
    .filter((hazard) => hazard.stem === stem.id)
    .map((hazard) => hazardWords(stand, hazard));
  const seen = stem.decaySigns.filter((sign) => sign === 'dead-limbs' || sign === 'dead-top');
  const all = [...noted, ...seen.map((sign) => sign.replace('-', ' '))];
  return all.length === 0 ? undefined : all;
}

/** What is known to speak against the bole, without measures. */
export function conditionOf({ decaySigns, decay, rot, status, vigor }: Stem) {
  return {
    decayed: isTrue(
      decaySigns.some((sign) => rotten.has(sign)) ||
        rot !== undefined ||
        (decay !== undefined && isDecay(decay.body.found)),
    ),
    deadTop: isTrue(decaySigns.includes('dead-top')),
    dead: isTrue(status === 'dead' || vigor === 'dead'),
    fork: isTrue(decaySigns.includes('fork')),
  };
}

/** Members that are undefined are left out, as the model wants it. */
export function known<T extends object>(members: { [Key in keyof T]: T[Key] | undefined }): T {
  return Object.fromEntries(Object.entries(members).filter(([, value]) => value !== undefined)) as T;
}

function isTrue(what: boolean): true | undefined {
  return what ? true : undefined;
}

/** What was bored or sounded while it stands; what a cut showed comes before that. */
function decayOf({ decay, rot, dbh }: Stem, at: LonLat, around: Surroundings): StemDecay | undefined {
  const azimuth = rot?.pocket === undefined ? undefined : trueOf(rot.pocket, at, around);
  const [round, diameter] = [metresOf(rot?.pocketAround), metresOf(dbh)];
  const found = known<StemDecay>({
    shell: metresOf(decay?.body.shell) ?? metresOf(rot?.shell),
    pocketAzimuth: azimuth,
    pocketDepth: metresOf(rot?.pocketDepth),
    pocketWidth:
      round === undefined || diameter === undefined
        ? undefined
        : Math.min(360, (360 * round) / (Math.PI * diameter)),
  });
  return Object.keys(found).length === 0 ? undefined : found;
}

function trueOf(azimuth: AzimuthEntered, at: LonLat, { when, locator }: Surroundings): number | undefined {
  const turned = toTrueAzimuth(azimuth, at, when, locator.declination);
  return isUnresolved(turned) ? undefined : turned.value;
}

function leanOf({ lean }: Stem, at: LonLat, around: Surroundings): Lean | undefined {
  const amount = metresOf(lean?.offset);
  const azimuth = lean === undefined ? undefined : trueOf(lean.azimuth, at, around);
  return amount === undefined || azimuth === undefined ? undefined : { amount, azimuth, reference: 'true' };
}

/** All of them; where one cannot be turned to true north it is only known that there are some. */
function seamOf(seams: Stem['seams'], at: LonLat, around: Surroundings): GroupStem['seam'] {
  if (seams.length === 0) return undefined;
  const turned = seams.flatMap((one) => trueOf(one, at, around) ?? []);
  return turned.length === seams.length ? turned : true;
}

/** Why nothing may be planned for a stem: it holds another, or nobody beyond the line has agreed. */
function withheldBecause(
  stem: Stem,
  at: LonLat,
  { stand, locator, lines }: Surroundings,
): string | undefined {
  const held = [...stand.hungUp]
    .flatMap((id) => stand.stems.get(id) ?? [])
    .find(({ felling }) => felling?.hungOn === stem.id);
  if (held !== undefined)
    return `${stemLabel(held)} hangs in it. Nothing is planned for it until that is recorded down.`;
  const place = locator.stem(stem.id);
  if (isUnresolved(place)) return undefined;
  const line = lines.judge({ ...stem, at: { ...place, at } });
  if (line === undefined || !callsForLooking(line) || consentFor(stand, stem.id, line) !== undefined)
    return undefined;
  return `It ${howItStands(line)} ${lineWords(stand, line)}, and no consent of the neighbour is recorded. Nothing is planned for it until there is one (record neighbour-consent-noted), or until the line is known better.`;
}
