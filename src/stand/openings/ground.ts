// The ground of an opening in each way that it was measured: corners, and how well each of them is known.
import type { AzimuthEntered } from '../../events/index.ts';
import {
  areaStandardError,
  COMPASS_AND_TAPE,
  crownEdge,
  distanceAndAzimuth,
  type EdgeTree,
  ellipseArea,
  ellipseRing,
  geodesicArea,
  hull,
  isUnresolved,
  metres,
  type Resolved,
  toTrueAzimuth,
  type Unresolved,
} from '../../place/index.ts';
import { instantOf } from '../entry.ts';
import type { Folded } from '../fold.ts';
import { counted } from '../labels.ts';
import { membersOf } from '../members.ts';
import { type Outline, outlineOf, outlineThrough } from '../outlines.ts';
import type { Group, Stem, Tallied } from '../state.ts';
import type { Locator } from '../where.ts';

/** Ways of measuring an opening, the one that is taken first where there are several. */
export const openingMethods = [
  'walked edge',
  'spokes',
  'crown edge',
  'two diameters',
  'edge trees',
  'hull of stumps',
] as const;
export type OpeningMethod = (typeof openingMethods)[number];

/** The ground of an opening, before its area is asked for. */
export type Ground = Readonly<{
  method: OpeningMethod;
  /** Its corners, with the error of its area where that does not follow from theirs. */
  at: (Outline & Readonly<{ areaError?: number }>) | Unplaced;
  /** What to know when reading the figure, in sentences. */
  remarks: readonly string[];
  /** The entries that it rests on. */
  entries: readonly string[];
}>;

/** An opening whose place is not known has an area all the same, m²; `why` says what is missing for the map. */
export type Unplaced = Readonly<{ m2: number; standardError: number; via: string; why: string }>;

type Measured = Tallied<'opening-measured'>;
type Told = Pick<Ground, 'at' | 'remarks'> | Unresolved;
type Scene = Readonly<{ group: Group; folded: Folded; locator: Locator }>;

/** A way in which the opening was measured, or could have been, and why that gave nothing. */
export type Way = Readonly<{ method: OpeningMethod; ground: Ground | Unresolved }>;

/** Every way in which the opening was measured, in the order of `openingMethods`; of one way the latest. */
export function waysOf(group: Group, folded: Folded, locator: Locator): Way[] {
  const scene = { group, folded, locator };
  const latest = (method: Measured['body']['method']) =>
    group.measured.findLast(({ body }) => body.method === method);
  const found: (Way | undefined)[] = [
    walked(latest('walked-edge'), scene),
    told('spokes', latest('spokes'), (measured) => bySpokes(measured, scene)),
    told('crown edge', latest('crown-edge'), (measured) => byCrowns(measured, scene)),
    told('two diameters', latest('two-diameters'), (measured) => byDiameters(measured, scene)),
    told('edge trees', latest('edge-trees'), (measured) => byEdgeTrees(measured, scene)),
    { method: 'hull of stumps', ground: hullOf(stumpsOf(scene), locator) },
  ];
  return found.filter((way) => way !== undefined);
}

function told(
  method: OpeningMethod,
  measured: Measured | undefined,
  groundOf: (measured: Measured) => Told,
): Way | undefined {
  if (measured === undefined) return undefined;
  const ground = groundOf(measured);
  return { method, ground: isUnresolved(ground) ? ground : { ...ground, method, entries: [measured.entry] } };
}

/** The edge that was walked last, whether when the opening was closed or at another time. */
function walked(measured: Measured | undefined, { group, folded, locator }: Scene): Way | undefined {
  const method = 'walked edge';
  const edges = [...group.closings, ...(measured === undefined ? [] : [measured])].filter(
    ({ body }) => body.edge !== undefined,
  );
  const last = edges.sort((one, other) => instantOf(one.at) - instantOf(other.at)).at(-1);
  if (last?.body.edge === undefined) return undefined;
  const at = outlineOf(method, last.body.edge, last.at.at, locator);
  if (isUnresolved(at)) return { method, ground: at };
  const after = stumpsOf({ group, folded, locator }).filter(
    ({ felling }) => felling && instantOf(felling.at) > instantOf(last.at),
  );
  const remarks =
    after.length === 0
      ? []
      : [`The edge was walked before ${counted(after.length, 'stem')} of the group fell; walk it again.`];
  return { method, ground: { method, at, remarks, entries: [last.entry] } };
}

function bySpokes(measured: Measured, { group, locator }: Scene): Told {
  const { spokes = [] } = measured.body;
  const centre = centreOf(measured, group, locator);
  const placed = !isUnresolved(centre);
  const references = new Set(spokes.map(({ azimuth }) => `${azimuth.reference} ${azimuth.crs ?? ''}`));
  if (!placed && references.size > 1)
    return { why: `the azimuths refer to different norths, and the centre is not known: ${centre.why}` };
  // What the centre is off by moves the opening, and what north is off by turns it: neither changes its area.
  const from = placed ? { ...centre, standardError: 0 } : nominal;
  const ends = spokes.map(({ azimuth, distance, slope }) => {
    const taped = { azimuth: placed ? azimuth : turnedToTrue(azimuth), distance };
    return locator.offset(from, 'the centre', { ...taped, ...(slope && { slope }) }, measured.at.at);
  });
  const outline = outlineThrough('spokes', clockwise(from, ends), 'ends');
  if (isUnresolved(outline)) return outline;
  if (placed) return { at: outline, remarks: [] };
  const standardError = areaStandardError(outline.points, outline.errors);
  const via = `${spokes.length} spokes`;
  return { at: { m2: geodesicArea(outline.points), standardError, via, why: centre.why }, remarks: [] };
}

/** Spokes go round the centre in whatever order they were measured. */
function clockwise(from: Resolved, ends: readonly (Resolved | Unresolved)[]): (Resolved | Unresolved)[] {
  const azimuth = (end: Resolved | Unresolved) =>
    isUnresolved(end) ? 0 : distanceAndAzimuth(from.at, end.at).azimuthTrue;
  return [...ends].sort((one, other) => azimuth(one) - azimuth(other));
}

/** Where an opening is laid out whose place is not known: only its area is read from there. */
const nominal: Resolved = { at: { lon: 0, lat: 0 }, standardError: 0, via: 'no place' };

function turnedToTrue({ text, value }: AzimuthEntered): AzimuthEntered {
  return { text, value, reference: 'true' };
}

function byCrowns({ body }: Measured, { locator }: Scene): Told {
  const { edgeTrees = [] } = body;
  const stems = outlineThrough(
    'crown edge',
    edgeTrees.map(({ stem }) => locator.stem(stem)),
    'edge trees',
  );
  if (isUnresolved(stems)) return stems;
  const trees: EdgeTree[] = [];
  for (const [position, at] of stems.points.entries()) {
    const reach = edgeTrees[position]?.crown;
    const crown = reach === undefined ? { why: 'a crown was not measured' } : metres(reach, 'crown');
    if (isUnresolved(crown)) return crown;
    trees.push({ at, crownRadius: crown.metres });
  }
  return {
    at: { ...stems, points: crownEdge(trees) },
    remarks: ['Each crown is taken to reach toward the middle of the edge trees by as much as was measured.'],
  };
}

function byEdgeTrees({ body, at }: Measured, { locator }: Scene): Told {
  const { edge, edgeTrees = [] } = body;
  const outline =
    edge === undefined
      ? outlineThrough(
          'edge trees',
          edgeTrees.map(({ stem }) => locator.stem(stem)),
          'stems',
        )
      : outlineOf('edge trees', edge, at.at, locator);
  if (isUnresolved(outline)) return outline;
  const remarks = [
    'The expanded opening, out to the stems of the trees round it: larger than the hole in the canopy.',
  ];
  return { at: outline, remarks };
}

function byDiameters(measured: Measured, { group, locator }: Scene): Told {
  const { longest, across, longestAzimuth } = measured.body;
  const axes = [longest, across].map((axis) =>
    axis === undefined ? { why: 'one axis is missing' } : metres(axis, 'axis'),
  );
  const [length = { why: '' }, width = { why: '' }] = axes;
  if (isUnresolved(length)) return length;
  if (isUnresolved(width)) return width;
  const m2 = ellipseArea(length.metres, width.metres);
  // Both axes were taped: their shares of error come together.
  const share = COMPASS_AND_TAPE.distanceShare * Math.SQRT2;
  const remarks = [
    'An ellipse is a model: openings that were measured closely had about a fifth less (Battles et al. 1996).',
  ];
  const via = `two diameters, ${longest?.text} and ${across?.text}`;
  const known = { m2, standardError: m2 * share, via };
  const centre = centreOf(measured, group, locator);
  if (isUnresolved(centre)) return { at: { ...known, why: centre.why }, remarks };
  if (longestAzimuth === undefined)
    return { at: { ...known, why: 'the direction of the longest axis was not measured' }, remarks };
  const azimuth = toTrueAzimuth(longestAzimuth, centre.at, measured.at.at, locator.declination);
  if (isUnresolved(azimuth)) return { at: { ...known, why: azimuth.why }, remarks };
  const points = ellipseRing(centre.at, {
    length: length.metres,
    width: width.metres,
    azimuthTrue: azimuth.value,
  });
  const { standardError } = centre;
  return { at: { points, areaError: m2 * share, errors: [], via, standardError }, remarks };
}

/** Too small an extent for a hull of stumps to say anything: fewer than this many stumps bound no area. */
const FEWEST_STUMPS = 3;

function hullOf(stumps: readonly Stem[], locator: Locator): Ground | Unresolved {
  const answers = stumps.map((stem) => locator.stem(stem.id));
  const placed = answers.filter((answer): answer is Resolved => !isUnresolved(answer));
  if (placed.length < FEWEST_STUMPS) {
    return {
      why: `no edge was walked, and a hull needs at least ${FEWEST_STUMPS} stumps with positions; ${placed.length} of ${stumps.length} have one. Walk the edge, or locate the stumps.`,
    };
  }
  const points = hull(placed.map(({ at }) => at));
  const errors = points.map((point) => placed.find(({ at }) => at === point)?.standardError ?? 0);
  const count = placed.length === stumps.length ? `${placed.length}` : `${placed.length} of ${stumps.length}`;
  return {
    method: 'hull of stumps',
    at: {
      points,
      errors,
      via: `hull of ${count} stumps`,
      standardError: Math.max(...placed.map(({ standardError }) => standardError)),
    },
    remarks: [
      'The hull joins the outermost stumps: crowns reached further, so the hole in the canopy is larger, and standing trees between stumps are inside.',
      ...(placed.length < stumps.length
        ? [
            `${counted(stumps.length - placed.length, 'stem')} of the group have no position and are not in the hull.`,
          ]
        : []),
    ],
    entries: stumps.flatMap(({ felling, position }) =>
      position === undefined || felling === undefined ? [] : [...new Set([position.entry, felling.entry])],
    ),
  };
}

function stumpsOf({ group, folded }: Scene): Stem[] {
  return membersOf(folded.stand, folded.stand.stems, group.id).filter(({ felling }) => felling !== undefined);
}

/** The centre as measured, or the middle that the group was laid out with. */
function centreOf({ position }: Measured, { center }: Group, locator: Locator): Resolved | Unresolved {
  const located = position ?? center;
  return located === undefined ? { why: 'where its centre is was not recorded' } : locator.resolve(located);
}
