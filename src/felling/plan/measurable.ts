// What could be measured about a group, and how each measurement could come out: one error to either side of what is known now.
import type { Assumed } from '../model/assumptions.ts';
import type { FellingModel, StemModel } from '../model/build.ts';
import { DEGREES } from '../model/fall.ts';
import { filledLeaveTree } from '../model/filled.ts';
import type { GroupStem, Point } from '../model/inputs.ts';
import type { Otherwise } from '../model/otherwise.ts';

/** One thing that could be measured. Metres. */
export type Measurable = Readonly<{
  of: 'stem' | 'leave tree' | 'sapling';
  id: string;
  label: string;
  what: 'height' | 'lean' | 'crown radius' | 'position';
  /** How the value came about that the plan is computed with. */
  basis: 'measured' | 'from the curve' | 'assumed';
  /** Left out for a position. */
  value?: number;
  /** One standard error. */
  error: number;
}>;

/** One outcome: in words that go on from "if it", with the value that it would have. */
export type MeasuredAs = Readonly<{ says: string; value?: number }>;

export type Possible = Readonly<{
  what: Measurable;
  outcomes: readonly Readonly<{ how: MeasuredAs; change: Otherwise }>[];
}>;

/** Places that are known better than this are not asked about, metres. */
const WELL_KNOWN = 0.1;

/**
 * Everything of the group's stems that is not known exactly; of what stands around only what a planned fall may well reach.
 * @param reached ids of saplings and leave trees that a planned fall may reach
 */
export function measurables(model: FellingModel, reached: ReadonlySet<string>): Possible[] {
  const { inputs, assumed } = model;
  const { saplings = [], leaveTrees = [] } = inputs;
  return [
    ...model.stems.flatMap((stem, index) => [
      ...heightOf(stem, index, assumed),
      ...leanOf(stem, index),
      ...crownOf(stem, index, assumed),
      ...placeOf('stem', stem.filled.stem, (now) => ({ of: 'stem', index, now, changes: 'position' })),
    ]),
    ...leaveTrees.flatMap((tree, index) => {
      if (!reached.has(tree.id)) return [];
      const { crownRadius } = filledLeaveTree(tree, assumed);
      return [
        ...(tree.crownRadius === undefined
          ? [
              crowns('leave tree', tree, crownRadius, assumed, (radius) => ({
                of: 'leave tree',
                index,
                now: { ...tree, crownRadius: radius },
              })),
            ]
          : []),
        ...placeOf('leave tree', tree, (now) => ({ of: 'leave tree', index, now })),
      ];
    }),
    ...saplings.flatMap((sapling, index) =>
      reached.has(sapling.id) ? placeOf('sapling', sapling, (now) => ({ of: 'sapling', index, now })) : [],
    ),
  ];
}

/** What measuring a height leaves is the error of the felled length; what it takes away is the rest. */
function heightOf({ filled: { stem, height } }: StemModel, index: number, assumed: Assumed): Possible[] {
  if (stem.heightEstimated !== true) return [];
  const share = Math.sqrt(Math.max(0, assumed.lengthErrorEstimated ** 2 - assumed.lengthError ** 2));
  const { heightEstimated: _, ...measured } = stem;
  const outcome = (says: string, value: number) => ({
    how: { says, value },
    change: { of: 'stem', index, now: { ...measured, height: value }, changes: 'height' } as const,
  });
  return [
    {
      what: {
        ...named('stem', stem),
        what: 'height',
        basis: 'from the curve',
        value: height,
        error: share * height,
      },
      outcomes: [
        outcome('is one error higher', height * (1 + share)),
        outcome('is one error lower', height * (1 - share)),
      ],
    },
  ];
}

/** The crown stands one error to each of four sides of where it was noted; of a stem that nobody looked at, off the stump. */
function leanOf({ filled: { stem, lean, height } }: StemModel, index: number): Possible[] {
  const { amount, error, azimuth = 0 } = lean;
  const noted = lean.azimuth !== undefined;
  const at = azimuth / DEGREES;
  const crown = { x: amount * Math.sin(at), y: amount * Math.cos(at) };
  const sides = noted
    ? ([
        'leans one error more',
        'leans one error farther right',
        'leans one error less',
        'leans one error farther left',
      ] as const)
    : (['leans north', 'leans east', 'leans south', 'leans west'] as const);
  const { amountError } = stem.lean ?? {};
  if (!(error > 0)) return [];
  return [
    {
      what: {
        ...named('stem', stem),
        what: 'lean',
        basis: noted ? 'measured' : 'assumed',
        value: amount,
        error,
      },
      outcomes: sides.map((says, quarter) => {
        const to = at + (quarter * Math.PI) / 2;
        const [x, y] = [crown.x + error * Math.sin(to), crown.y + error * Math.cos(to)];
        const now: GroupStem = {
          ...stem,
          lean: {
            amount: Math.min(height, Math.hypot(x, y)),
            azimuth: (Math.atan2(x, y) * DEGREES + 360) % 360,
            reference: 'true',
            ...(amountError === undefined ? {} : { amountError }),
          },
        };
        return {
          how: { says, value: now.lean?.amount ?? 0 },
          change: { of: 'stem', index, now, changes: 'lean' } as const,
        };
      }),
    },
  ];
}

function crownOf({ filled: { stem, crownRadius } }: StemModel, index: number, assumed: Assumed): Possible[] {
  if (stem.crownRadius !== undefined) return [];
  return [
    crowns('stem', stem, crownRadius, assumed, (radius) => ({
      of: 'stem',
      index,
      now: { ...stem, crownRadius: radius },
      changes: 'crown radius',
    })),
  ];
}

function crowns(
  of: Measurable['of'],
  thing: Named,
  radius: number,
  { crownRadiusError }: Assumed,
  change: (radius: number) => Otherwise,
): Possible {
  const outcome = (says: string, value: number) => ({ how: { says, value }, change: change(value) });
  return {
    what: {
      ...named(of, thing),
      what: 'crown radius',
      basis: 'assumed',
      value: radius,
      error: crownRadiusError * radius,
    },
    outcomes: [
      outcome('is one error wider', radius * (1 + crownRadiusError)),
      outcome('is one error narrower', radius * (1 - crownRadiusError)),
    ],
  };
}

type Named = Readonly<{ id: string; label: string }>;

function named(of: Measurable['of'], { id, label }: Named) {
  return { of, id, label };
}

const SIDES = [
  ['north', 0, 1],
  ['east', 1, 0],
  ['south', 0, -1],
  ['west', -1, 0],
] as const;

function placeOf<T extends Point & Named & Readonly<{ positionError?: number }>>(
  of: Measurable['of'],
  thing: T,
  change: (now: T) => Otherwise,
): Possible[] {
  const error = thing.positionError ?? 0;
  if (error < WELL_KNOWN) return [];
  return [
    {
      what: { ...named(of, thing), what: 'position', basis: 'measured', error },
      outcomes: SIDES.map(([side, east, north]) => ({
        how: { says: `stands one error farther ${side}` },
        change: change({ ...thing, x: thing.x + error * east, y: thing.y + error * north }),
      })),
    },
  ];
}
