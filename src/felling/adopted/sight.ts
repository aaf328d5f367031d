// What of a stand an adopted plan was about: its stems, and what stands, grows or lies within their reach.
import { isUnresolved, type PositionEntered } from '../../place/index.ts';
import {
  blockOfStem,
  boundaryOf,
  featureShape,
  hangOn,
  type Locator,
  locate,
  type Stand,
  type Stem,
} from '../../stand/index.ts';
import { type Reach, reachOf } from '../gather/reach.ts';
import type { Adopted } from './later.ts';

/** A thing that remembers its entries, with where it is and which group it belongs to. */
type Thing = Readonly<{ entries: readonly string[]; group?: string | undefined }>;

export type Sight = Readonly<{
  stand: Stand;
  group: string;
  planned: ReadonlySet<string>;
  aside: ReadonlySet<string>;
  /** Stems to fell, planned or set aside. */
  isToFell: (stem: string) => boolean;
  isNear: (entered: PositionEntered | undefined, when: string) => boolean;
  isStemNear: (stem: string) => boolean;
  isSaplingNear: (thing: 'sapling' | 'patch', id: string) => boolean;
  isFeatureNear: (id: string) => boolean;
  isBoundaryNear: (block: string) => boolean;
  isLineNear: (corners: readonly PositionEntered[], when: string) => boolean;
  /** Stakes, stems and blocks that the positions of all this hang on. */
  hangsOn: (is: 'stake' | 'stem' | 'block', id: string) => boolean;
  /** The blocks of the stems to fell. */
  blocks: ReadonlySet<string>;
  /** Stems to fell that stand and whose height comes from the curve. */
  byCurve: readonly Stem[];
}>;

export function sightOf(stand: Stand, { body }: Adopted): Sight {
  const locator = locate(stand);
  const planned = new Set(body.steps.map(({ stem }) => stem));
  const aside = new Set(body.aside ?? []);
  const toFell = [...planned, ...aside];
  const reach = reachOf(toFell, locator);
  const behind = new Set(body.restsOn ?? []);
  const isKnown = ({ entries, group }: Thing) =>
    group === body.group || entries.some((entry) => behind.has(entry));
  const stems = toFell.flatMap((id) => stand.stems.get(id) ?? []);
  const isStemNear = (id: string) => {
    const stem = stand.stems.get(id);
    return stem !== undefined && (isKnown(stem) || reach.place(locator.stem(id)));
  };
  const isSaplingNear: Sight['isSaplingNear'] = (thing, id) => {
    const found = thing === 'sapling' ? stand.saplings.get(id) : stand.patches.get(id);
    if (found === undefined) return false;
    if (isKnown(found) || reach.place(locator.resolve(found.position))) return true;
    const { edge = [], edgeWhen = '' } = stand.patches.get(id) ?? {};
    return thing === 'patch' && ringNear(edge, edgeWhen, reach, locator);
  };
  const isFeatureNear = (id: string) => {
    const feature = stand.features.get(id);
    if (feature === undefined) return false;
    const shape = featureShape(feature, locator);
    return (
      feature.entries.some((entry) => behind.has(entry)) || (!isUnresolved(shape) && reach.line(shape.points))
    );
  };
  let under: ReturnType<typeof hangOn> | undefined;
  const anchors = () => {
    under ??= hangOn(stand, [
      ...[...stand.stems.values()]
        .filter(({ id }) => isStemNear(id))
        .map(({ position }) => position?.entered),
      ...[...stand.saplings.values()]
        .filter(({ id }) => isSaplingNear('sapling', id))
        .map(({ position }) => position?.entered),
      ...[...stand.patches.values()]
        .filter(({ id }) => isSaplingNear('patch', id))
        .flatMap(({ edge = [] }) => edge),
      ...[...stand.features.values()]
        .filter(({ id }) => isFeatureNear(id))
        .flatMap(({ body: mapped }) => [mapped?.point, ...(mapped?.line ?? []), ...(mapped?.edge ?? [])]),
    ]);
    return under;
  };
  return {
    stand,
    group: body.group,
    planned,
    aside,
    isToFell: (stem) => planned.has(stem) || aside.has(stem),
    isNear: (entered, when) =>
      entered !== undefined && reach.place(locator.resolve({ entered, when, entry: '' })),
    isStemNear,
    isSaplingNear,
    isFeatureNear,
    isBoundaryNear: (id) => {
      const block = stand.blocks.get(id);
      const outline = block === undefined ? undefined : boundaryOf(block, locator);
      return outline !== undefined && !isUnresolved(outline) && reach.line(outline.points);
    },
    isLineNear: (corners, when) => ringNear(corners, when, reach, locator),
    hangsOn: (is, id) => anchors()[is].has(id),
    blocks: new Set(stems.flatMap((stem) => blockOfStem(stem, stand) ?? [])),
    byCurve: stems.filter(
      ({ height, status }) => height === undefined && (status === 'standing' || status === 'dead'),
    ),
  };
}

function ringNear(
  corners: readonly PositionEntered[],
  when: string,
  reach: Reach,
  locator: Locator,
): boolean {
  return corners.length > 0 && reach.line(locator.ring(corners, when).ring);
}
