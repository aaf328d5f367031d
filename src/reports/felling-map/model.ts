// What a felling map shows: places in metres east and north, and the words beside them. Nothing here knows of paper.

import { momentIn } from '../../events/index.ts';
import { cautions, type FellingPlan, type PlannedFall, type Point, planHash } from '../../felling/index.ts';
import type { System } from '../../measure/index.ts';
import { howWords, rounded, stopsBefore, towards } from '../sheets/index.ts';

/** One fall, in its place in the order. Metres; degrees from true north, clockwise. */
export type MapFall = Point &
  Readonly<{
    number: number;
    label: string;
    aim: number;
    /** Height of the stem: as long as its arrow. */
    length: number;
    /** How far the aim may be off to either side before the bole lies on something that it spares on the aim. */
    left: number;
    right: number;
    waysOut: readonly Readonly<{ azimuth: number; length: number; barred: boolean }>[];
    /** Cells of the table: number, stem, by the compass, true, band, toward. */
    row: readonly string[];
  }>;

export const MARK_KINDS = [
  'aside',
  'danger',
  'sapling',
  'leave tree',
  'stump',
  'stake',
  'work place',
] as const;

/** A thing at one place. The drawing is made large enough for all that are framed; others are on it where they happen to fit. */
export type MapMark = Point & Readonly<{ kind: (typeof MARK_KINDS)[number]; label: string; framed: boolean }>;

/** A line on the ground, or the edge of a patch of regeneration. */
export type MapLine = Readonly<{
  kind: 'line' | 'patch';
  label: string;
  framed: boolean;
  points: readonly Point[];
}>;

export type FellingMap = Readonly<{
  title: string;
  description: string;
  /** When the plan was computed, RFC 3339. */
  when: string;
  system: System;
  /** Printed above the drawing. */
  before: readonly string[];
  north: string;
  falls: readonly MapFall[];
  marks: readonly MapMark[];
  lines: readonly MapLine[];
  /** Printed below the table. */
  after: readonly string[];
}>;

/** What somebody who fells has to have before the eyes, if it is near. */
const FRAMED: readonly MapMark['kind'][] = ['aside', 'danger', 'work place'];
/** Near is within two tree lengths of a stem, the distance in the cautions. */
const LENGTHS = 2;
/** What can be hurt by a fall is framed where a stem, taken somewhat longer than it is thought to be, could reach it. */
const REACH = 1.25;
/** Longer names are cut short on the drawing; in the words above it they are whole. */
const NAME = 28;

export const ROW_HEADS = ['No.', 'Stem', 'Compass', 'True', 'Left, right', 'Aim toward, and how'] as const;

/** Where and in what people here count. */
export type MapReaders = Readonly<{ system: System /** IANA name of the time zone. */; zone: string }>;

/** The map of a plan, in the units and the time of the logbook. */
export function fellingMap(plan: FellingPlan, { system, zone }: MapReaders): FellingMap {
  const { group, aside, model, unplaced, when } = plan;
  const { inputs, stems } = model;
  const placed = new Map(stems.map(({ filled }) => [filled.stem.id, filled]));
  const falls = plan.falls.flatMap((fall, at) => {
    const of = placed.get(fall.stem);
    return of === undefined ? [] : [mapFall(fall, at + 1, { ...of.stem, length: of.height }, system)];
  });
  const tallest = Math.max(...stems.map(({ filled }) => filled.height));
  const near = (point: Point, lengths = LENGTHS): boolean =>
    stems.some(({ filled: { stem } }) => Math.hypot(stem.x - point.x, stem.y - point.y) <= lengths * tallest);
  const aimedAt = new Set(plan.falls.map(({ explanation }) => explanation.landmark?.id));
  const mark =
    (kind: MapMark['kind']) =>
    ({ id, x, y, label }: Point & Readonly<{ id: string; label: string }>): MapMark => ({
      kind,
      x,
      y,
      label: shortened(label),
      framed:
        (FRAMED.includes(kind) && near({ x, y })) ||
        ((kind === 'sapling' || aimedAt.has(id)) && near({ x, y }, REACH)),
    });
  const notPlanned = aside.flatMap(({ stem, label }) => {
    const of = placed.get(stem)?.stem;
    return of === undefined ? [] : [mark('aside')({ ...of, label: `NOT planned: ${label}` })];
  });
  const dangers = inputs.hazards ?? [];
  const saplings = inputs.saplings ?? [];
  const patches = inputs.patches ?? [];
  const far = [
    ...[...dangers, ...saplings].filter((one) => !near(one)),
    ...patches.filter(({ ring }) => !ring.some((point) => near(point))),
  ];
  return {
    title: `Felling map of ${group.label}`,
    description: `${falls.length} falls in their order (${falls.map(({ label }) => label).join(', ') || 'none'}), ${aside.length} stems set aside and not planned, ${saplings.length} saplings and ${patches.length} patches of regeneration, seen from above with true north up. Each fall stands in the table below the drawing.`,
    when,
    system,
    before: [
      cautions.lead,
      'The plan ends when anything differs from it: a stem, a lay, rot, wind, the order, somebody who is there. Stop then, and plan again.',
      ...(dangers.length === 0
        ? []
        : [
            `Dangerous, as recorded: ${dangers.map(({ kind, label }) => (kind === 'other' ? label : `${label} (${kind})`)).join('; ')}.`,
          ]),
      ...notPlannedWords(aside),
      ...stopsBefore(plan.falls),
    ],
    north: northWords(plan.declination),
    falls,
    marks: [
      ...notPlanned,
      // More than what it is stands above the drawing.
      ...dangers.map((one) => mark('danger')({ ...one, label: one.label.replace(/,.*$/, '') })),
      ...saplings.map(mark('sapling')),
      ...(inputs.workPlaces ?? []).map(mark('work place')),
      ...(inputs.leaveTrees ?? []).map(mark('leave tree')),
      ...(inputs.landmarks ?? []).map((one) =>
        // The sign says what it is.
        mark(one.kind)({ ...one, label: one.label.replace(/^(?:the stump of|stake) /, '') }),
      ),
    ],
    lines: [
      ...patches.map(({ label, ring }): MapLine => {
        const [first] = ring;
        return {
          kind: 'patch',
          label,
          framed: ring.some((point) => near(point, REACH)),
          points: first === undefined ? [] : [...ring, first],
        };
      }),
      ...(inputs.lines ?? []).map(
        ({ label, kind, points }): MapLine => ({
          kind: 'line',
          framed: false,
          label: label.includes(kind) ? label : `${kind} ${label}`,
          points,
        }),
      ),
    ],
    after: [
      ...(falls.length === 0 ? ['No stem of the group can be planned as entered.'] : []),
      ...(unplaced.length === 0
        ? []
        : [`Not on the map, because it has no place: ${unplaced.map(({ label }) => label).join(', ')}.`]),
      ...(far.length === 0
        ? []
        : [
            `More than two tree lengths from every stem of the group, so perhaps beyond the edge: ${far.map(({ label }) => label).join(', ')}.`,
          ]),
      'What nobody entered is not on it: brush, vines, wires, dead limbs overhead, people.',
      `Computed ${momentIn(zone, Date.parse(when)).slice(0, 16).replace('T', ' ')}, time of ${zone}, from what was recorded by then; plan ${planHash(plan).slice(0, 8)}.`,
    ],
  };
}

function mapFall(fall: PlannedFall, number: number, at: Point & { length: number }, system: System): MapFall {
  const { label, step, aim, magnetic, explanation, waysOut } = fall;
  const { left, right } = explanation.band;
  return {
    x: at.x,
    y: at.y,
    length: at.length,
    number,
    label,
    aim: step.aim,
    left: left.degrees,
    right: right.degrees,
    waysOut: waysOut.routes.map(({ azimuth, length, blockedBy, steep }) => ({
      azimuth,
      length,
      barred: steep || blockedBy.length > 0,
    })),
    row: [
      String(number),
      label,
      magnetic === undefined ? '–' : `${rounded(magnetic, 1)}°`,
      `${rounded(step.aim, 1)}°`,
      `${rounded(left.degrees, 0)}°, ${rounded(right.degrees, 0)}°`,
      [
        ...(waysOut.noneClear === undefined ? [] : ['STOP: neither way out is clear']),
        ...(explanation.landmark === undefined ? [] : [towards(explanation.landmark, system)]),
        // With its lean is how a stem is felled where nothing else is said.
        ...(aim.method === 'with the lean' && aim.afterwards.length === 0 ? [] : [howWords(aim, system)]),
      ].join('; ') || '–',
    ],
  };
}

/** Stems that stay for the same reason are named together. */
function notPlannedWords(aside: FellingPlan['aside']): string[] {
  const labels = new Map<string, string[]>();
  for (const { label, because } of aside) labels.set(because, [...(labels.get(because) ?? []), label]);
  return [...labels].map(([because, those]) => `NOT planned: ${those.join(', ')}. ${because}`);
}

function shortened(label: string): string {
  return label.length > NAME ? `${label.slice(0, NAME - 1)}…` : label;
}

/** @param east declination in degrees, east positive; undefined where none is known */
function northWords(east: number | undefined): string {
  if (east === undefined)
    return 'True north is up. No declination is known here: set no compass by this map.';
  const side = east < 0 ? 'west' : 'east';
  return `True north is up. Declination ${rounded(Math.abs(east), 1)}° ${side}: a compass points that far ${side} of it.`;
}
