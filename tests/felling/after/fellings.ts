// An invented group, and simulated fellings of it by plain geometry: where each stem comes to lie, what it crosses, what is left of
// the saplings, what is below it on the slope. Shares nothing with the code but the distributions of docs/felling-model.md.
import { assume, buildModel, type GroupInputs, seeded } from '../../../src/felling/index.ts';
import { normal, touches } from '../model/falls.ts';

export type Spot = Readonly<{ x: number; y: number }>;

/** Five stems on a slope of 30 % that falls to the south, an old log, an old stump, saplings, a patch and people below. */
export const inputs: GroupInputs = {
  id: 'G',
  label: 'G',
  stems: [
    { x: 0, y: 0, azimuth: 60 },
    { x: 7, y: 3, azimuth: 20 },
    { x: -4, y: 6, azimuth: 90 },
    { x: 3, y: -6, azimuth: 10 },
    { x: 10, y: -2, azimuth: 300 },
  ].map(({ azimuth, ...at }, index) => ({
    ...at,
    id: `${index}`,
    label: `${index}`,
    dbh: 0.3 + 0.03 * index,
    height: 16 + 2 * index,
    heightEstimated: index % 2 === 0,
    lean: { amount: 0.6, azimuth, reference: 'true' },
  })),
  saplings: [
    { id: 's', label: 's', x: 9, y: 7, radius: 0.3 },
    { id: 't', label: 't', x: 4, y: 12, value: 2 },
    { id: 'u', label: 'u', x: 12, y: 9, radius: 0.2 },
  ],
  patches: [
    {
      id: 'p',
      label: 'p',
      value: 3,
      ring: [
        { x: 3, y: 8 },
        { x: 8, y: 8 },
        { x: 8, y: 12 },
        { x: 3, y: 12 },
      ],
    },
  ],
  workPlaces: [{ id: 'w', label: 'landing', x: 8, y: -100 }],
  onTheGround: [
    { id: 'old', label: 'old', x: -2, y: 11, tip: { x: 14, y: 13 }, dbh: 0.4 },
    { id: 'stump', label: 'stump', x: 5, y: 4, dbh: 0.8 },
  ],
  slope: { percent: 30, aspect: 180 },
};

export const model = buildModel(inputs, assume({ rollLengths: 6 }));
const order = [3, 0, 1, 4, 2];
/** Each stem with its lean: the aim that is listed first. */
export const steps = order.map((stem) => ({ stem, choice: 0 }));

/** Two pieces of line cross: each has the ends of the other on different sides. */
export function cross(a: Spot, b: Spot, c: Spot, d: Spot): boolean {
  const side = (p: Spot, q: Spot, r: Spot) => (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

/** From a place so far out along an azimuth. */
export function out({ x, y }: Spot, azimuth: number, length: number): Spot {
  const turned = (azimuth * Math.PI) / 180;
  return { x: x + length * Math.sin(turned), y: y + length * Math.cos(turned) };
}

function seenFrom(from: Spot, to: Spot) {
  const [east, north] = [to.x - from.x, to.y - from.y];
  return { distance: Math.hypot(east, north), bearing: (Math.atan2(east, north) * 180) / Math.PI };
}

/** One stem as it lies: its stump, the end of its bole and its tip. */
type Lies = Readonly<{
  id: string;
  from: Spot;
  bole: Spot;
  to: Spot;
  direction: number;
  length: number;
  height: number;
}>;

/** How often each thing happened; the keys name stem and thing. */
export type Tally = Readonly<{ times: (key: string) => number; add: (key: string, value?: number) => void }>;

function tally(): Tally {
  const counts = new Map<string, number>();
  return {
    times: (key) => counts.get(key) ?? 0,
    add: (key, value = 1) => counts.set(key, (counts.get(key) ?? 0) + value),
  };
}

const old: Pick<Lies, 'id' | 'from' | 'bole' | 'to'> = {
  id: 'old',
  from: { x: -2, y: 11 },
  to: { x: 14, y: 13 },
  bole: { x: 14, y: 13 },
};

/** Fells the group so often, in its order. */
export function simulate(times: number): Tally {
  const random = seeded(20_261);
  const counts = tally();
  const falling = order.map((index) => {
    const of = model.stems[index];
    const aim = of?.aims[0];
    if (of === undefined || aim === undefined) throw new Error('the group has no such aim');
    return { ...of.filled, aim: aim.aim, sigma: aim.directionError };
  });
  for (let felling = 0; felling < times; felling += 1) {
    const down: (Lies & { halfWidth: number })[] = [];
    const left = new Map((inputs.saplings ?? []).map(({ id }) => [id, 1]));
    for (const one of falling) {
      const direction = one.aim + one.sigma * normal(random);
      const length = one.height * (1 + one.lengthError * normal(random));
      const lies = laid(one, direction, length);
      countCrossed(lies, [...down, old], counts);
      countStumps(one, lies, down, counts);
      for (const { id, radius = 0, ...at } of inputs.saplings ?? []) {
        const { bole, crown } = touches(one, { ...seenFrom(one.stem, at), radius }, direction, length);
        left.set(id, (left.get(id) ?? 1) * (bole ? 0 : crown ? 0.5 : 1));
      }
      countBelow(lies, counts);
      down.push({ ...lies, halfWidth: one.halfWidth });
    }
    for (const [id, share] of left) {
      counts.add(`left of ${id}`, share);
      counts.add(`left of ${id}, squared`, share * share);
    }
  }
  return counts;
}

type Filled = (typeof model)['stems'][number]['filled'];

function laid({ stem, crownBase, height }: Filled, direction: number, length: number): Lies {
  const bole = out(stem, direction, Math.min(length, crownBase));
  return { id: stem.id, from: stem, to: out(stem, direction, length), bole, direction, length, height };
}

type Down = readonly Readonly<{ id: string; from: Spot; halfWidth: number }>[];

function countStumps(one: Filled, { id, direction, length }: Lies, down: Down, counts: Tally) {
  for (const stump of [{ id: 'stump', from: { x: 5, y: 4 }, halfWidth: 0.4 }, ...down]) {
    const disc = { ...seenFrom(one.stem, stump.from), radius: stump.halfWidth };
    if (touches(one, disc, direction, length).bole) counts.add(`${id} stump of ${stump.id}`);
  }
}

function countCrossed(
  lies: Lies,
  others: readonly Pick<Lies, 'id' | 'from' | 'bole' | 'to'>[],
  counts: Tally,
) {
  for (const other of others) {
    if (cross(lies.from, lies.to, other.from, other.to)) {
      counts.add(`${lies.id} over ${other.id}`);
      counts.add('crossed');
    }
    if (cross(lies.from, lies.bole, other.from, other.bole))
      counts.add(`boles of ${lies.id} and ${other.id}`);
  }
}

/** The slope falls to the south: what lies below a stem has an x between its two ends. */
function countBelow({ id, from, to, direction, height }: Lies, counts: Tally) {
  // Across: between 30° and 150° off straight down, to either side.
  if (Math.abs(Math.cos((direction * Math.PI) / 180)) > Math.cos(Math.PI / 6)) return;
  counts.add(`${id} across the slope`);
  for (const thing of [...(inputs.saplings ?? []), ...(inputs.workPlaces ?? [])]) {
    const part = (thing.x - from.x) / (to.x - from.x);
    const above = from.y + part * (to.y - from.y) - thing.y;
    if (part >= 0 && part <= 1 && above >= 0 && above <= 6 * height) counts.add(`${thing.id} below ${id}`);
  }
}
