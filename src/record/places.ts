// Places far from the woods are slips: latitude and longitude exchanged, another zone, another unit. Every
// field that holds a position or a ring is looked at, whatever it is called.
import { type Event, kinds } from '../events/index.ts';
import {
  decimalDegrees,
  distanceAndAzimuth,
  farFrom,
  hull,
  isUnresolved,
  type LonLat,
  type PositionEntered,
  type Unresolved,
  whyFar,
} from '../place/index.ts';
import { type Locator, locate, type Stand } from '../stand/index.ts';
import { anyway, type Question } from './question.ts';

/** Things farther than this from their block are asked about, metres. Common practice, no source. */
const farMetres = 300;
/**
 * Stakes, the blocks themselves and where help is met may lie apart from what is there, by up to this many metres; so
 * may everything where no block has a boundary yet. Common practice, no source.
 */
const farStakeMetres = 20_000;
const mayLieApart: ReadonlySet<string> = new Set(['stake-set', 'block-laid-out', 'emergency-card-set']);

/** Asks about positions that cannot be worked out, and about places far from the woods, once for each field. */
export function aboutPlace(event: Event, stand: Stand, when: string): Question[] {
  const entered = positionsIn(event);
  if (entered.length === 0) return [];
  const locator = locate(stand);
  const reference = referenceFor(event, stand, locator, when);
  return entered.flatMap(({ name, corners }) => {
    const resolve = (corner: PositionEntered) => locator.resolve({ entered: corner, when, entry: '' });
    const answers = corners
      .filter(({ how }) => how !== 'unknown')
      .map((corner) => ({ corner, found: resolve(corner) }));
    const placed: Placed[] = [];
    for (const { corner, found } of answers) {
      if (isUnresolved(found)) return [unresolved(name, found, meantBy(corner, reference, resolve))];
      placed.push({ at: found.at, meant: (held) => meantBy(corner, held, resolve) });
    }
    return farOut(placed, reference);
  });
}

/** A corner where it was found, and what was probably meant by it. */
type Placed = Readonly<{ at: LonLat; meant: (held: Reference) => string }>;

/** "Did you mean …?" where undoing a usual slip leads to the woods. */
function meantBy(
  corner: PositionEntered,
  { metres, rings, points }: Reference,
  resolve: (entered: PositionEntered) => ReturnType<Locator['resolve']>,
): string {
  const near = [...rings.map(({ ring }) => ring), ...points.map(({ at }) => [at])];
  const [meant] = whyFar(corner, { near, metres, resolve });
  if (meant === undefined) return '';
  return meant.text === undefined
    ? `Perhaps ${meant.words}?`
    : `Did you mean "${meant.text}"? Then ${meant.words}.`;
}

/** The corner that is too far away, if one is. Of a ring the outermost corners tell. */
function farOut(corners: readonly Placed[], reference: Reference): Question[] {
  const outermost = new Set(hull(corners.map(({ at }) => at)));
  const [first, ...others] = outermost.size > 0 ? corners.filter(({ at }) => outermost.has(at)) : corners;
  if (first === undefined) return [];
  const known = reference.rings.length + reference.points.length > 0;
  // The corners of a first boundary have nothing to be held against but each other.
  const held = known
    ? reference
    : { metres: farStakeMetres, rings: [], points: [{ called: 'its other corners', at: first.at }] };
  const asked = [first, ...others].flatMap((corner) => farAway(corner, held) ?? []);
  return asked.slice(0, 1);
}

/** Positions as entered, by the name of their field. */
function positionsIn(event: Event): { name: string; corners: readonly PositionEntered[] }[] {
  const values = event.body as Readonly<Record<string, unknown>>;
  return Object.entries(kinds[event.type].fields).flatMap(([name, { form }]) => {
    const value = values[name];
    if (value === undefined) return [];
    if (form.is === 'position') return [{ name, corners: [value as PositionEntered] }];
    return form.is === 'ring' ? [{ name, corners: value as readonly PositionEntered[] }] : [];
  });
}

/** What a place is held against: the boundaries of blocks, or single points. */
type Reference = Readonly<{
  metres: number;
  rings: readonly { called: string; ring: readonly LonLat[] }[];
  points: readonly { called: string; at: LonLat }[];
}>;

function referenceFor(event: Event, stand: Stand, locator: Locator, when: string): Reference {
  const own = event.type === 'stake-set' ? event.body.stake : undefined;
  const wide = mayLieApart.has(event.type);
  const rings = blocksOf(event, stand).flatMap((block) => {
    const ring = block.boundary === undefined ? [] : locator.ring(block.boundary, when).ring;
    return ring.length < 3 ? [] : [{ called: block.name, ring }];
  });
  if (rings.length > 0) return { metres: wide ? farStakeMetres : farMetres, rings, points: [] };
  const points = [...stand.stakes.values()].flatMap(({ id, label }) => {
    const found = id === own ? undefined : locator.stake(id);
    return found === undefined || isUnresolved(found) ? [] : [{ called: `stake ${label}`, at: found.at }];
  });
  return { metres: farStakeMetres, rings: [], points };
}

function farAway({ at, meant }: Placed, held: Reference): Question | undefined {
  const { metres, rings, points } = held;
  const called = [...rings, ...points].map(({ called: name }) => name);
  const near =
    rings.some(({ ring }) => !farFrom(at, ring, metres)) ||
    points.some((point) => distanceAndAzimuth(point.at, at).metres <= metres);
  if (called.length === 0 || near) return undefined;
  return {
    code: 'far-from-block',
    sentence: [
      `Latitude ${at.lat.toFixed(5)}, longitude ${at.lon.toFixed(5)} is more than ${distanceText(metres)} from ${listed(called)}.`,
      meant(held) || 'Check the order of the numbers, their unit and the zone.',
    ].join(' '),
    choices: [anyway()],
  };
}

/** Two distances leave two places: the answer says which, and is written into the position. */
function unresolved(field: string, { why, either }: Unresolved, meant: string): Question {
  const what = field === 'position' ? 'This position' : `A position in "${field}"`;
  const sides = (either ?? []).map(({ side, at }) => ({
    answer: side,
    label: `to the ${side}, at ${decimalDegrees(at)}`,
  }));
  return {
    code: 'position',
    sentence: `${what} cannot be worked out: ${why}${meant === '' ? '' : ` ${meant}`}`,
    choices: [...sides, anyway('keep it as written')],
  };
}

/** The blocks that a place belongs to; a block itself is held against the others. */
function blocksOf(event: Event, stand: Stand) {
  if (event.type === 'block-laid-out')
    return [...stand.blocks.values()].filter(({ id }) => id !== event.body.block);
  const body = event.body as { group?: string; block?: string };
  const block = body.block ?? (body.group === undefined ? undefined : stand.groups.get(body.group)?.block);
  const named = block === undefined ? undefined : stand.blocks.get(block);
  return named?.boundary === undefined ? [...stand.blocks.values()] : [named];
}

function distanceText(metres: number): string {
  return metres < 1000 ? `${metres} m` : `${metres / 1000} km`;
}

function listed(names: readonly string[]): string {
  const shown = names.slice(0, 3).join(', ');
  return names.length > 3 ? `${shown} and ${names.length - 3} more` : shown;
}
