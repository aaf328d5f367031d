// The drawings of docs/felling-model.md, made with the functions that the model itself uses.
import { assume, hingeWorksheet } from '../../src/felling/index.ts';
import { filled } from '../../src/felling/model/filled.ts';
import { type Obstacle, obstacle } from '../../src/felling/model/hang-up.ts';
import { halfAngle } from '../../src/felling/model/strip.ts';
import { band, crossing, deepNotch } from './felling-examples.ts';
import { PIXELS, pens, picture, round } from './pens.ts';

type Drawing = Readonly<{ path: string; text: string }>;

/** Bole and crown of a stem on the ground, and a sapling with the angle within which the bole lies on it. */
function lay(): string {
  const { circle, line, sector, text } = pens(PIXELS);
  const body = { height: 20, halfWidth: 0.3, crownBase: 11, crownRadius: 3 };
  const sapling = { distance: 9, bearing: 14, radius: 0.6 };
  const half = halfAngle(body.halfWidth, sapling);
  const [x, y] = pens(PIXELS).out(sapling.bearing, sapling.distance);
  const crown = (body.height - body.crownBase) / 2;
  return picture('A stem on the ground as the model sees it', [-4, -1.5, 13, 21.5], PIXELS, [
    sector(sapling.bearing, half, sapling.distance + 2, 'fill="#ddd" stroke="none"'),
    circle(0, 0, body.halfWidth, 'fill="#111"'),
    `<rect x="${-body.halfWidth * PIXELS}" y="${-body.height * PIXELS}" width="${2 * body.halfWidth * PIXELS}" height="${body.height * PIXELS}" fill="#bbb"/>`,
    `<ellipse cx="0" cy="${round((-(body.crownBase + body.height) / 2) * PIXELS)}" rx="${body.crownRadius * PIXELS}" ry="${crown * PIXELS}" stroke-dasharray="6 4"/>`,
    circle(x, y, sapling.radius, 'fill="#fff"'),
    line([0, 0], [x, y], 'stroke-dasharray="2 4"'),
    text(0.6, -0.9, 'stump'),
    text(3.2, 15.5, 'crown, from B to L'),
    text(0.5, 20.4, 'tip, L from the stump'),
    text(x + 0.8, y - 0.1, `sapling, d = ${sapling.distance} m`),
    text(x + 0.8, y - 1, `under the bole within ±${half.toFixed(1)}°`),
  ]);
}

/** The worked case of two neighbours: in which directions boles, and in which crowns, meet. */
function hangUp(): string {
  const { circle, line, sector, text, out } = pens(PIXELS);
  const how = { boleHolds: 0.5, crownHolds: 0.1, crownOverlap: 0.5, crownCap: 30 };
  const falling = { halfWidth: 0.2, crownRadius: 3 };
  const neighbours = [
    { label: 'J', ...obstacle(falling, { distance: 8, bearing: 0, halfWidth: 0.2, crownRadius: 2 }, how) },
    { label: 'K', ...obstacle(falling, { distance: 10, bearing: 4, halfWidth: 0.25, crownRadius: 3 }, how) },
  ];
  const drawn = (one: Obstacle & { label: string }, index: number) => {
    const [x, y] = out(one.bearing, one.distance);
    const say = `${one.label}: boles meet within ±${one.bole.toFixed(1)}°, crowns within ±${one.crown.toFixed(1)}°`;
    return [
      text(-6.5, -1.6 - index, say),
      sector(one.bearing, one.crown, 12 + index, 'stroke-dasharray="6 4"'),
      sector(one.bearing, one.bole, 12 + index, 'fill="#bbb"'),
      circle(x, y, 0.3, 'fill="#111"'),
    ];
  };
  return picture('Two neighbours in the way', [-7, -3.2, 14, 14], PIXELS, [
    ...neighbours.flatMap(drawn),
    ...neighbours.map(({ label, bearing, distance }) =>
      text(out(bearing, distance)[0] + 1.2, out(bearing, distance)[1] - 0.2, label),
    ),
    line([0, 0], out(5, 13.5), 'stroke-dasharray="2 4"'),
    text(out(5, 13.5)[0] + 0.3, 13.2, 'aim 5°'),
    circle(0, 0, 0.25, 'fill="#fff"'),
  ]);
}

/** Notch, hinge, bore and strap in a section with a rotten core. */
function hinge(): string {
  const scale = 700;
  const { circle, line, text } = pens(scale);
  const shell = 0.09;
  const stem = filled({ id: 'A', label: 'A', x: 0, y: 0, dbh: 0.4, height: 22, decay: { shell } }, assume());
  const { diameter, notch, hinge: worked, bore } = hingeWorksheet(stem, 0);
  const radius = diameter / 2;
  const across = (depth: number, dashed = '') => {
    const y = radius - depth;
    const half = Math.sqrt(Math.max(0, radius ** 2 - y ** 2));
    return line([-half, y], [half, y], dashed);
  };
  const behind = notch.depth + worked.thickness;
  const label = (depth: number, words: string) => text(radius + 0.02, radius - depth, words);
  const centimetres = (metres: number) => `${(metres * 100).toFixed(1)} cm`;
  return picture('A section with a rotten core, seen from above', [-0.22, -0.24, 0.58, 0.24], scale, [
    circle(0, 0, radius),
    circle(0, 0, radius - shell, 'fill="#ccc" stroke-dasharray="6 4"'),
    across(notch.depth),
    across(behind),
    across(behind + (bore?.through ?? 0), 'stroke-dasharray="2 4"'),
    label(notch.depth / 2, `notch, ${centimetres(notch.depth)} deep`),
    label(notch.depth + worked.thickness / 2, `hinge, ${centimetres(worked.thickness)} thick`),
    label(
      notch.depth + worked.thickness / 2 + 0.025,
      `${centimetres(worked.sound)} of ${centimetres(worked.wanted)} are sound`,
    ),
    label(behind + (bore?.through ?? 0) / 2, 'bored from behind the hinge'),
    label(diameter - (bore?.strap ?? 0) / 2, `strap, ${centimetres(bore?.strap ?? 0)}`),
    text(-0.05, -0.01, 'rot'),
  ]);
}

/** All drawings, by their paths below docs. */
export function fellingDrawings(): readonly Drawing[] {
  return [
    { path: 'images/felling-lay.svg', text: lay() },
    { path: 'images/felling-hang-up.svg', text: hangUp() },
    { path: 'images/felling-hinge.svg', text: hinge() },
    { path: 'images/felling-band.svg', text: band() },
    { path: 'images/felling-crossing.svg', text: crossing() },
    { path: 'images/felling-deep-notch.svg', text: deepNotch() },
  ];
}
