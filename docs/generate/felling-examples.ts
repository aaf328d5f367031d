// Drawings of worked examples of docs/felling-model.md: the band of an aim, two stems that cross, a notch that goes deep. The
// numbers in them are what the model computes.

import { acrossStem, layings } from '../../src/felling/after/across.ts';
import { assume, buildModel, explain, type GroupInputs, hingeWorksheet } from '../../src/felling/index.ts';
import { filled } from '../../src/felling/model/filled.ts';
import { PIXELS, pens, picture, round } from './pens.ts';

/** How far off the aim a bole may come down before it reaches something else. */
export function band(): string {
  const { circle, line, sector, text, out } = pens(PIXELS);
  const at = (azimuth: number, distance: number) => {
    const [x, y] = out(azimuth, distance);
    return { x, y };
  };
  const tree = { id: 'L', label: 'L3', ...at(-16, 15), dbh: 0.4, crownRadius: 2 };
  const sapling = { id: 's', label: 's2', ...at(9, 12), radius: 0.3 };
  const group: GroupInputs = {
    id: 'G',
    label: 'G',
    stems: [
      {
        id: 'A',
        label: 'A',
        x: 0,
        y: 0,
        dbh: 0.4,
        height: 18,
        lean: { amount: 0.5, azimuth: 0, reference: 'true' },
      },
    ],
    saplings: [sapling],
    leaveTrees: [tree],
  };
  const model = buildModel(group);
  const choice = model.stems[0]?.aims.findIndex(({ aim }) => aim === 0) ?? 0;
  const { left, right } = explain(model, 0, choice, () => true)?.band ?? {
    left: { degrees: 0 },
    right: { degrees: 0 },
  };
  const degrees = (value: number) => `${value.toFixed(1)}°`;
  return picture('The band of an aim', [-9, -2.5, 7.5, 21], PIXELS, [
    sector(
      (right.degrees - left.degrees) / 2,
      (right.degrees + left.degrees) / 2,
      18,
      'fill="#ddd" stroke="none"',
    ),
    line([0, 0], out(0, 19), 'stroke-width="3"'),
    line([0, 0], out(-left.degrees, 18), 'stroke-dasharray="6 4"'),
    line([0, 0], out(right.degrees, 18), 'stroke-dasharray="6 4"'),
    circle(0, 0, 0.25, 'fill="#111"'),
    circle(tree.x, tree.y, 0.4, 'fill="#111"'),
    circle(sapling.x, sapling.y, 0.3, 'fill="#fff"'),
    text(-0.6, 19.5, 'aim 0°'),
    text(tree.x - 4.2, tree.y - 1.2, `leave tree L3`),
    text(sapling.x + 0.7, sapling.y - 0.2, 'sapling s2'),
    text(-8.5, -1, `free left ${degrees(left.degrees)}, until the bole reaches L3`),
    text(-8.5, -2, `free right ${degrees(right.degrees)}, until it reaches s2`),
  ]);
}

/** A stem that comes to lie across one that is down: both with the directions that one error covers. */
export function crossing(): string {
  const { circle, line, text, out } = pens(PIXELS);
  const body = (height: number) => ({
    height,
    lengthError: 0.07,
    halfWidth: 0.2,
    crownBase: 0.55 * height,
    crownRadius: 2.5,
  });
  const first = { aim: 60, directionError: 6, body: body(18), stump: { x: 0, y: 0 } };
  const second = { aim: 85, directionError: 6, body: body(17), stump: { x: -4, y: 6 } };
  const { chance, out: far, along } = acrossStem(second, layings(first, second.stump));
  const laid = ({ aim, directionError, body: { height }, stump }: typeof first, shade: string) => {
    const end = (azimuth: number): readonly [number, number] => {
      const [x, y] = out(azimuth, height);
      return [stump.x + x, stump.y + y];
    };
    const from = [stump.x, stump.y] as const;
    return [
      line(from, end(aim - directionError), 'stroke-dasharray="2 4"'),
      line(from, end(aim + directionError), 'stroke-dasharray="2 4"'),
      line(from, end(aim), `stroke-width="6" stroke="${shade}"`),
      circle(stump.x, stump.y, 0.3, 'fill="#111"'),
    ];
  };
  return picture('A stem that lies across another', [-6, -3.5, 19, 12], PIXELS, [
    ...laid(first, '#999'),
    ...laid(second, '#555'),
    text(-0.8, -1.1, 'A, felled first, aim 60°'),
    text(-5.6, 8, 'B, felled second, aim 85°'),
    text(-5.6, -2.2, `B lies across A with ${(100 * chance).toFixed(0)} %, on average`),
    text(
      -5.6,
      -3.1,
      `${far.toFixed(1)} m up B and ${along.toFixed(1)} m up A; dotted: one error to each side`,
    ),
  ]);
}

/** A pocket of rot towards the aim: the notch goes as deep as it takes to put the hinge behind it. */
export function deepNotch(): string {
  const scale = 700;
  const { circle, line, text, at } = pens(scale);
  const decay = { pocketAzimuth: 0, pocketDepth: 0.115, pocketWidth: 70 };
  const stem = filled({ id: 'A', label: 'A', x: 0, y: 0, dbh: 0.4, height: 22, decay }, assume());
  const { diameter, notch, hinge } = hingeWorksheet(stem, 0);
  const radius = diameter / 2;
  const across = (depth: number, more = '') => {
    const y = radius - depth;
    const half = Math.sqrt(Math.max(0, radius ** 2 - y ** 2));
    return line([-half, y], [half, y], more);
  };
  const inner = radius - decay.pocketDepth;
  const corner = (azimuth: number, out: number) => at(...pens(scale).out(azimuth, out));
  const half = decay.pocketWidth / 2;
  const [wide, narrow] = [round(radius * scale), round(inner * scale)];
  const pocket = `<path d="M${corner(-half, inner)} L${corner(-half, radius)} A${wide} ${wide} 0 0 1 ${corner(half, radius)} L${corner(half, inner)} A${narrow} ${narrow} 0 0 0 ${corner(-half, inner)} Z" fill="#ccc" stroke-dasharray="6 4"/>`;
  const centimetres = (metres: number) => `${(metres * 100).toFixed(1)} cm`;
  const label = (depth: number, words: string) => text(radius + 0.02, radius - depth, words);
  return picture('A pocket of rot towards the aim', [-0.22, -0.22, 0.68, 0.24], scale, [
    circle(0, 0, radius),
    pocket,
    across(notch.usual, 'stroke-dasharray="2 4"'),
    across(notch.depth),
    across(notch.depth + hinge.thickness),
    text(-0.02, 0.14, 'rot'),
    label(notch.usual - 0.012, `usual depth of the notch, ${centimetres(notch.usual)}`),
    label(
      notch.depth + 0.006,
      `it goes ${centimetres(notch.depth)} deep; never over ${centimetres(notch.most)}`,
    ),
    label(
      notch.depth + hinge.thickness + 0.01,
      `hinge, ${centimetres(hinge.sound)} of ${centimetres(hinge.wanted)} are sound`,
    ),
  ]);
}
