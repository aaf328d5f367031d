// What is around a group as the felling model takes it: lines on the ground and along the property, stumps and stakes to
// aim at, and what hangs or is dead.
import type { Body } from '../../events/index.ts';
import { isUnresolved } from '../../place/index.ts';
import {
  boundaryOf,
  featureShape,
  hazardWords,
  type Locator,
  layLine,
  type Stand,
  type Stem,
  stemLabel,
} from '../../stand/index.ts';
import type { Hazard, Landmark, Line, OnTheGround, Point } from '../model/inputs.ts';
import type { Plane } from './plane.ts';
import { known, metresOf } from './stems.ts';

const kinds: Readonly<Partial<Record<Body<'feature-mapped'>['what'], Line['kind']>>> = {
  stream: 'water',
  'standing-water': 'water',
  wetland: 'water',
  'vernal-pool': 'water',
  road: 'road',
  structure: 'structure',
  'power-line': 'power line',
  trail: 'trail',
};

/** Features of the ground, and the boundaries of blocks as far as they can be placed. */
export function linesAround(stand: Stand, locator: Locator, plane: Plane): Line[] {
  const features = [...stand.features.values()].flatMap((feature): Line[] => {
    const kind = feature.body === undefined ? undefined : kinds[feature.body.what];
    if (kind === undefined) return [];
    const shape = featureShape(feature, locator);
    if (isUnresolved(shape)) {
      plane.of(feature.label, shape);
      return [];
    }
    const points = shape.points.map(plane.at);
    return [
      { id: feature.id, label: feature.label, kind, points: shape.is === 'ring' ? closed(points) : points },
    ];
  });
  const boundaries = [...stand.blocks.values()].flatMap((block): Line[] => {
    const outline = boundaryOf(block, locator);
    if (isUnresolved(outline)) return [];
    const points = closed(outline.points.map(plane.at));
    return [{ id: block.id, label: `the boundary of ${block.name}`, kind: 'property line', points }];
  });
  return [...features, ...boundaries];
}

function closed(points: readonly Point[]): readonly Point[] {
  const [first] = points;
  return first === undefined ? points : [...points, first];
}

/** Stumps and stakes, by which a direction is found on the ground. */
export function landmarksAround(stand: Stand, locator: Locator, plane: Plane): Landmark[] {
  const stumps = [...stand.stems.values()]
    .filter(({ status, position }) => status === 'felled' && position !== undefined)
    .flatMap((stem) =>
      placed(plane, locator.stem(stem.id), stem.id, `the stump of ${stemLabel(stem)}`, 'stump'),
    );
  const stakes = [...stand.stakes.values()].flatMap((stake) =>
    placed(plane, locator.stake(stake.id), stake.id, `stake ${stake.label}`, 'stake'),
  );
  return [...stumps, ...stakes];
}

/** Stems that lie there already, and the stumps of all that were felled: what another stem can come down on. */
export function onTheGroundAround(stand: Stand, locator: Locator, plane: Plane): OnTheGround[] {
  const down = [...stand.stems.values()].filter(({ status }) => status === 'felled');
  return down.flatMap((stem): OnTheGround[] => {
    const stump = locator.stem(stem.id);
    if (isUnresolved(stump)) return [];
    const lay = layLine(stem, locator);
    const shared = { id: stem.id, label: stemLabel(stem), ...plane.at(stump.at), dbh: metresOf(stem.dbh) };
    return [
      known<OnTheGround>({ ...shared, tip: undefined }),
      ...(isUnresolved(lay) ? [] : [known<OnTheGround>({ ...shared, tip: plane.at(lay.points[1]) })]),
    ];
  });
}

function placed(
  plane: Plane,
  place: ReturnType<Locator['stem']>,
  id: string,
  label: string,
  kind: Landmark['kind'],
): Landmark[] {
  return isUnresolved(place) ? [] : [{ ...plane.at(place.at), id, label, kind }];
}

/** Stems that hang or hold one, dead stems that stay, and hazards with a place of their own. */
export function hazardsAround(
  stand: Stand,
  locator: Locator,
  plane: Plane,
  planned: ReadonlySet<string>,
): Hazard[] {
  const stemHazard = (stem: Stem, kind: Hazard['kind']): Hazard[] => {
    const point = plane.of(stemLabel(stem), locator.stem(stem.id));
    if (point === undefined) return [];
    const { id, dbh, height } = stem;
    return [
      known<Hazard>({
        ...point,
        id,
        label: stemLabel(stem),
        kind,
        dbh: metresOf(dbh),
        height: metresOf(height),
      }),
    ];
  };
  const hung = [...stand.hungUp].flatMap((id) => stand.stems.get(id) ?? []);
  const holding = hung.flatMap(({ felling }) => stand.stems.get(felling?.hungOn ?? '') ?? []);
  const dead = [...stand.stems.values()].filter(
    ({ id, status, vigor, position }) =>
      !planned.has(id) &&
      position !== undefined &&
      (status === 'dead' || (status === 'standing' && vigor === 'dead')),
  );
  const others = [...stand.openHazards]
    .flatMap((id) => stand.hazards.get(id) ?? [])
    .flatMap((hazard): Hazard[] => {
      if (hazard.stem !== undefined && planned.has(hazard.stem)) return [];
      const place = hazard.stem === undefined ? locator.resolve(hazard.position) : locator.stem(hazard.stem);
      const label = hazardWords(stand, hazard);
      const point = plane.of(label, place);
      return point === undefined ? [] : [{ ...point, id: hazard.id, label, kind: 'other' }];
    });
  return [
    ...hung.flatMap((stem) => stemHazard(stem, 'hung-up')),
    ...holding.flatMap((stem) => stemHazard(stem, 'holds a hung-up stem')),
    ...dead.flatMap((stem) => stemHazard(stem, 'dead')),
    ...others,
  ];
}
