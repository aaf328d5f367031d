// Every assumption of the felling model: its default, unit, range, what it rests on, and what it means in a sentence.

/** What a number rests on: a rule somebody wrote, what the trade does, or nothing but our own guess. */
export type AssumptionBasis = 'source' | 'common practice' | 'guess';

export type Assumption = Readonly<{
  value: number;
  unit: string;
  /** Both ends can be taken. */
  least: number;
  most: number;
  basis: AssumptionBasis;
  /** Where it is written; only with the basis `source`. */
  source?: string;
  says: string;
}>;

const guess = (value: number, unit: string, least: number, most: number, says: string): Assumption => ({
  value,
  unit,
  least,
  most,
  basis: 'guess',
  says,
});
const practice = (...of: Parameters<typeof guess>): Assumption => ({
  ...guess(...of),
  basis: 'common practice',
});
const sourced = (source: string, ...of: Parameters<typeof guess>): Assumption => ({
  ...guess(...of),
  basis: 'source',
  source,
});

const OREGON = 'Oregon OAR 437-007-0810';
const TWO_LENGTHS = 'US 29 CFR 1910.266(d)(6) and (h)(1) in the words of Washington WAC 296-305-07016';
const OSHA_WEDGES = 'OSHA logging eTool, special techniques: most back lean that 2 in of wedging overcomes';
const SAW_KERF = 'Northern Woodlands, "Felling trees against the lean": 3/8 in of saw kerf';

/** The defaults. Changing one is the user's right; which ones differ is printed with every plan. */
export const ASSUMPTIONS = {
  directionError: guess(
    6,
    '°',
    1,
    45,
    'Standard deviation of the direction of fall around the aim, for a sound stem felled with its lean.',
  ),
  directionErrorPerLean: guess(
    1,
    '° per % of height',
    0,
    10,
    'Added for side lean and for back lean, each as a share of the height.',
  ),
  directionErrorDecayed: guess(
    1.5,
    'times',
    1,
    5,
    'The direction error of a decayed, seamed or forked stem is multiplied by this.',
  ),
  directionErrorDead: guess(
    1.25,
    'times',
    1,
    5,
    'The direction error of a dead stem, or one with a dead top, is multiplied by this.',
  ),
  directionErrorPerWind: guess(0.5, '° per m/s', 0, 10, 'Added for the wind.'),
  directionErrorPulled: guess(
    1,
    '°',
    0,
    20,
    'Added where the stem is wedged or pulled beyond the band round its lean.',
  ),
  widestDirectionError: guess(
    30,
    '°',
    10,
    60,
    'The direction error is never taken wider than this; a stem that would be wider is no stem to aim.',
  ),
  lengthError: guess(
    0.07,
    'of the height',
    0,
    0.3,
    'Standard deviation of the felled length against a measured height.',
  ),
  lengthErrorEstimated: guess(
    0.12,
    'of the height',
    0,
    0.4,
    'The same, where the height was estimated or comes from a curve.',
  ),
  leanError: guess(
    0.01,
    'of the height',
    0,
    0.1,
    'Standard deviation of a lean that was noted without an error.',
  ),
  leanErrorUnknown: guess(
    0.02,
    'of the height',
    0,
    0.1,
    'Standard deviation of the lean of a stem that nobody looked at; the lean itself is then taken as none.',
  ),
  leanUpperErrors: guess(
    1,
    'standard deviations',
    0,
    3,
    'How far on the bad side the back lean is taken when wedges are worked out.',
  ),
  uprightLean: guess(
    0.01,
    'of the height',
    0,
    0.05,
    'A stem that leans less than this counts as upright: it has no band round its lean.',
  ),
  crownBase: guess(
    0.55,
    'of the height',
    0,
    0.95,
    'Height of the lowest part of the crown, where it was not measured.',
  ),
  crownRadiusBase: guess(
    0.75,
    'm',
    0,
    5,
    'Crown radius of a stem without diameter, where it was not measured.',
  ),
  crownRadiusPerDbh: guess(7, 'cm per cm of DBH', 0, 30, 'Added to it for the diameter.'),
  aimFromLean: practice(
    45,
    '°',
    0,
    90,
    'How far from its lean a sound stem is aimed without wedges or winch.',
  ),
  aimFromLeanDecayed: guess(
    25,
    '°',
    0,
    45,
    'The same for decayed, seamed, forked or dead stems, for which nothing further is considered.',
  ),
  sideLean: guess(0.02, 'of the height', 0, 0.1, 'Most lean across the aim.'),
  wedgeShare: guess(
    0.5,
    'of the limit',
    0.1,
    1,
    'How much of what wedges can lift, by table and lever, is used.',
  ),
  wedgeThickness: sourced(
    OSHA_WEDGES,
    0.0508,
    'm',
    0.01,
    0.0508,
    'Thickness of wedges for which the table holds.',
  ),
  kerf: sourced(
    SAW_KERF,
    0.009525,
    'm',
    0.003,
    0.02,
    'Width of the saw cut, which the wedge has to fill first.',
  ),
  winchBackLean: guess(
    0.05,
    'of the height',
    0,
    0.15,
    'Most back lean, at its upper error, against which a stem is pulled with winch and rope.',
  ),
  uphillSlope: guess(
    30,
    '%',
    0,
    200,
    'On ground steeper than this nothing is aimed within the angle below of straight up the slope.',
  ),
  uphillAngle: guess(45, '°', 0, 90, 'That angle.'),
  rollSlope: guess(
    15,
    '%',
    0,
    200,
    'On ground steeper than this a stem that lies across the slope is said to be able to roll, one that lies down it to slide.',
  ),
  boleHolds: guess(0.5, 'chance', 0, 1, 'That a standing stem holds a falling one whose bole meets its own.'),
  crownHolds: guess(
    0.1,
    'chance',
    0,
    1,
    'That a standing stem holds a falling one whose crown meets its crown only.',
  ),
  crownOverlap: guess(0.5, 'of both crown radii', 0, 1, 'How near crowns must pass to count as meeting.'),
  crownCap: guess(30, '°', 0, 90, 'Crowns of near neighbours meet at most this far to either side.'),
  brokenOver: guess(
    0.35,
    "of the falling stem's DBH",
    0,
    1,
    'A standing stem thinner than this does not hold: it is broken over.',
  ),
  hangUpLimit: guess(0.25, 'chance', 0.01, 0.99, 'Most chance of a hang-up that a fall may have.'),
  tolerance: guess(
    0.05,
    'hang-ups a group',
    0,
    1,
    'How many expected hang-ups more are taken for less loss.',
  ),
  underBole: guess(1, 'of its value', 0, 1, 'What a sapling loses when the bole lies on it.'),
  underCrown: guess(0.5, 'of its value', 0, 1, 'What a sapling loses when only the crown does.'),
  leaveTree: guess(
    3,
    'saplings',
    0,
    100,
    'What a leave tree counts whose bole is struck, where nothing else is said.',
  ),
  leaveTreeDbh: guess(0.3, 'm', 0.05, 2, 'Diameter of a leave tree that nobody measured.'),
  crownScrape: guess(0.1, 'of its value', 0, 1, 'What a leave tree loses whose crown is scraped.'),
  patchCell: guess(1, 'm', 0.25, 5, 'Regeneration patches are looked at in squares of about this side.'),
  structure: guess(20, 'saplings', 0, 10000, 'What reaching a structure counts.'),
  structureLimit: guess(0.01, 'chance', 0, 1, 'Most chance of reaching a structure.'),
  road: guess(2, 'saplings', 0, 10000, 'What reaching a road counts.'),
  roadLimit: guess(0.25, 'chance', 0, 1, 'Most chance of reaching a road; closing it comes first.'),
  trail: guess(0.5, 'saplings', 0, 10000, 'What reaching a trail counts.'),
  trailLimit: guess(1, 'chance', 0, 1, 'Most chance of reaching a trail; closing it comes first.'),
  powerLine: guess(50, 'saplings', 0, 10000, 'What reaching a power line counts.'),
  powerLineLimit: guess(0.001, 'chance', 0, 1, 'Most chance of coming within the clearance of a power line.'),
  powerLineClearance: guess(
    3,
    'm',
    0,
    30,
    'What a stem must stay away from a power line; who runs the line says how far and comes first.',
  ),
  water: guess(1, 'saplings', 0, 10000, 'What reaching water counts.'),
  waterLimit: guess(1, 'chance', 0, 1, 'Most chance of reaching water; local law may allow none.'),
  propertyLine: guess(5, 'saplings', 0, 10000, 'What reaching over a property line counts.'),
  propertyLineLimit: guess(0.05, 'chance', 0, 1, 'Most chance of reaching over a property line.'),
  hazard: guess(
    5,
    'saplings',
    0,
    10000,
    'What striking a hung-up or dead stem counts, which can then come loose.',
  ),
  hazardLimit: guess(0.01, 'chance', 0, 1, 'Most chance of striking one.'),
  workPlaceLengths: sourced(
    TWO_LENGTHS,
    2,
    'tree lengths',
    1,
    5,
    'How far a work place must be from the stump.',
  ),
  hazardLengths: sourced(
    TWO_LENGTHS,
    2,
    'tree lengths',
    1,
    5,
    'How far a danger tree that stays, or a stem that hangs, must be from the stump.',
  ),
  escapeLength: sourced(
    OREGON,
    7.62,
    'm',
    3,
    30,
    'How far, back and to the side, the way out leads (25 ft).',
  ),
  escapeAngle: practice(45, '°', 20, 70, 'How far to either side of straight back the ways out lead.'),
  escapeHalfWidth: guess(0.5, 'm', 0.2, 2, 'Half the width of a way out that has to be clear.'),
  hingeThickness: practice(0.1, 'of the diameter', 0.05, 0.2, 'Thickness of the hinge.'),
  hingeLength: practice(0.8, 'of the diameter', 0.5, 1, 'Length of the hinge.'),
  stumpHeight: practice(0.3, 'm', 0, 2, 'Height of the stump where nothing speaks for another.'),
  leastHinge: guess(
    0.5,
    'of the wanted hinge',
    0.1,
    1,
    'How much of the wanted hinge has to be sound wood; less is a reason to stop.',
  ),
} as const satisfies Record<string, Assumption>;

export type AssumptionName = keyof typeof ASSUMPTIONS;
