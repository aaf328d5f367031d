/**
 * A position from distances to known points. Two distances leave two places, one on either side of the line between the
 * points; three or more give the place that fits them best (least squares, Gauss-Newton) with what is left over.
 */
import { fromPlane, type Point, planeAt } from './plane.ts';
import type { LonLat, Resolved, Side, Unresolved } from './position.ts';
import type { CompassAndTape } from './standard-error.ts';

/** A known point, what it is called, and the level distance from it in metres. */
export type Spoke = { readonly anchor: Resolved; readonly called: string; readonly metres: number };

/** A spoke in the plane round the first point, with its standard error. */
type Circle = { readonly centre: Point; readonly radius: number; readonly error: number };
type Fit = { readonly point: Point; readonly squares: number };

/** Two fits whose weighted squares differ by less cannot be told apart: 95 % of chi-square with one degree of freedom. */
const TELLING = 3.84;
/** Places nearer to each other than this are one, metres. */
const SAME = 0.05;

/** Where the distances meet, or why that cannot be told; with two places and no side, both are handed back. */
export function fromDistances(
  spokes: readonly Spoke[],
  side: Side | undefined,
  good: CompassAndTape,
): Resolved | Unresolved {
  const [first, second] = spokes;
  if (first === undefined || second === undefined)
    return { why: 'One distance alone leads to no place; give two or three, each from a known point.' };
  const origin = first.anchor.at;
  const circles = spokes.map((spoke) => circleOf(spoke, origin, good));
  const met = meetingPoints(circles, [first.called, second.called]);
  if ('why' in met) return met;
  const found = spokes.length === 2 ? met : fits(met, circles);
  const seen = `as seen from ${first.called} to ${second.called}`;
  const picked = pick(found, circles, { side, seen, origin });
  if ('why' in picked) return picked;
  return answer(picked, spokes, circles);
}

function circleOf({ anchor, metres }: Spoke, origin: LonLat, good: CompassAndTape): Circle {
  // Of an anchor's own error about half lies along the tape.
  const own = anchor.standardError / Math.SQRT2;
  return {
    centre: planeAt(origin)(anchor.at),
    radius: metres,
    error: Math.hypot(metres * good.distanceShare, good.pointMetres, own),
  };
}

type Candidates = { readonly left: Fit; readonly right: Fit };

/** Where the first two circles meet, to the left and right of the line from the first centre to the second. */
function meetingPoints(
  [one, two]: readonly Circle[],
  [first, second]: readonly [string, string],
): Candidates | Unresolved {
  if (one === undefined || two === undefined) return { why: 'Two distances are needed.' };
  const [dx, dy] = [two.centre[0] - one.centre[0], two.centre[1] - one.centre[1]];
  const apart = Math.hypot(dx, dy);
  if (apart < SAME) return { why: `${first} and ${second} are in one place; measure from two points apart.` };
  const along = (one.radius ** 2 - two.radius ** 2 + apart ** 2) / (2 * apart);
  const gap = Math.max(apart - one.radius - two.radius, Math.abs(one.radius - two.radius) - apart);
  if (gap > 3 * Math.hypot(one.error, two.error)) {
    return {
      why: `The distances from ${first} and ${second} do not meet: ${gap.toFixed(1)} m is missing. Measure both again.`,
    };
  }
  const across = Math.sqrt(Math.max(0, one.radius ** 2 - along ** 2));
  const reach = gap > 0 ? between(one.radius, two.radius, gap, apart) : along;
  const at = (right: number): Fit => ({
    point: [
      one.centre[0] + (reach * dx + right * dy) / apart,
      one.centre[1] + (reach * dy - right * dx) / apart,
    ],
    squares: 0,
  });
  return { left: at(-across), right: at(across) };
}

/** Where two circles just miss each other: how far along the line of their centres the middle of the gap lies. */
function between(one: number, two: number, gap: number, apart: number): number {
  if (apart > one + two) return one + gap / 2;
  return one > two ? one - gap / 2 : -(one + gap / 2);
}

/** The best fit to all circles from either side. */
function fits({ left, right }: Candidates, circles: readonly Circle[]): Candidates {
  return { left: settle(left.point, circles), right: settle(right.point, circles) };
}

function settle(start: Point, circles: readonly Circle[]): Fit {
  let point = start;
  for (let round = 0; round < 50; round += 1) {
    const { normal, pull } = equations(point, circles);
    const step = solve(normal, pull);
    if (step === undefined) break;
    point = [point[0] + step[0], point[1] + step[1]];
    if (Math.hypot(...step) < 1e-6) break;
  }
  const squares = circles.reduce((sum, circle) => sum + (residual(point, circle) / circle.error) ** 2, 0);
  return { point, squares };
}

/** What was taped less what the place is away, metres. */
function residual([x, y]: Point, { centre, radius }: Circle): number {
  return radius - Math.hypot(x - centre[0], y - centre[1]);
}

type Normal = readonly [xx: number, xy: number, yy: number];

function equations([x, y]: Point, circles: readonly Circle[]): { normal: Normal; pull: Point } {
  let [xx, xy, yy, px, py] = [0, 0, 0, 0, 0];
  for (const circle of circles) {
    const [dx, dy] = [x - circle.centre[0], y - circle.centre[1]];
    const away = Math.hypot(dx, dy) || 1;
    const [ux, uy] = [dx / away, dy / away];
    const weight = 1 / circle.error ** 2;
    const left = residual([x, y], circle);
    xx += weight * ux * ux;
    xy += weight * ux * uy;
    yy += weight * uy * uy;
    px += weight * ux * left;
    py += weight * uy * left;
  }
  return { normal: [xx, xy, yy], pull: [px, py] };
}

function solve([xx, xy, yy]: Normal, [px, py]: Point): Point | undefined {
  const determinant = xx * yy - xy * xy;
  if (!(determinant > 1e-9 * (xx + yy) ** 2)) return undefined;
  return [(yy * px - xy * py) / determinant, (xx * py - xy * px) / determinant];
}

function pick(
  { left, right }: Candidates,
  [one, two]: readonly Circle[],
  { side, seen, origin }: Readonly<{ side: Side | undefined; seen: string; origin: LonLat }>,
): Fit | Unresolved {
  const better = left.squares <= right.squares ? left : right;
  const apart = Math.hypot(left.point[0] - right.point[0], left.point[1] - right.point[1]);
  const told = apart < SAME || Math.abs(left.squares - right.squares) > TELLING;
  if (told) {
    const off = rightOf(better.point, one, two);
    const is = off < 0 ? 'left' : 'right';
    if (side === undefined || side === is || Math.abs(off) < 3 * (one?.error ?? 0)) return better;
    return {
      why: `The further distances put it to the ${is}, ${seen}, and "${side}" was written; correct one of them.`,
    };
  }
  if (side !== undefined) return side === 'left' ? left : right;
  const either = (['left', 'right'] as const).map((each) => ({
    side: each,
    at: fromPlane(origin, (each === 'left' ? left : right).point),
  }));
  return {
    why: `Two places fit, one to the left and one to the right ${seen}; add ", left" or ", right", or a distance from a third point.`,
    either,
  };
}

/** How far a point lies to the right of the line from one centre to the other, metres. */
function rightOf([x, y]: Point, one: Circle | undefined, two: Circle | undefined): number {
  if (one === undefined || two === undefined) return 0;
  const [dx, dy] = [two.centre[0] - one.centre[0], two.centre[1] - one.centre[1]];
  return ((x - one.centre[0]) * dy - (y - one.centre[1]) * dx) / Math.hypot(dx, dy);
}

function answer(fit: Fit, spokes: readonly Spoke[], circles: readonly Circle[]): Resolved {
  const guide = spokes.some(({ anchor }) => anchor.errorIsGuide === true);
  const left = circles.map((circle) => residual(fit.point, circle));
  const residuals = left.map((metres) => metres.toFixed(2)).join(', ');
  const [first] = spokes;
  return {
    at: fromPlane(first?.anchor.at ?? { lon: 0, lat: 0 }, fit.point),
    standardError: errorOf(fit, circles),
    ...(guide ? { errorIsGuide: true } : {}),
    via: spokes.length > 2 ? `least squares, left over ${residuals} m` : 'where both distances meet',
  };
}

/** The standard error of the fit; larger where distances contradict each other, and bounded where circles only touch. */
function errorOf({ point, squares }: Fit, circles: readonly Circle[]): number {
  const { normal } = equations(point, circles);
  const [xx, xy, yy] = normal;
  const determinant = xx * yy - xy * xy;
  const spread = circles.length > 2 ? Math.max(1, squares / (circles.length - 2)) : 1;
  const error = Math.sqrt((spread * (xx + yy)) / Math.max(determinant, Number.MIN_VALUE));
  // A circle of radius r moved by s goes on meeting another within the root of 2 r s of where it touched it.
  const [radius, widest] = [
    Math.max(...circles.map((circle) => circle.radius)),
    Math.max(...circles.map((circle) => circle.error)),
  ];
  return Math.min(error, Math.sqrt(2 * radius * widest * spread) + widest * Math.sqrt(spread));
}
