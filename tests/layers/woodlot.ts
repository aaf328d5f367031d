// A small invented logbook for tests of the layers: every layer has something in it, and most leave something out.
import type { EventType, JsonObject } from '../../src/events/index.ts';
import { type Folded, fold, type LogEntry } from '../../src/stand/index.ts';
import { pen, uuid } from '../stand/entries.ts';

export const id = {
  block: uuid(0xb1),
  pathBlock: uuid(0xb2),
  stakeA: uuid(0xa1),
  stakeB: uuid(0xa2),
  walked: uuid(0x61),
  unwalked: uuid(0x62),
  uncut: uuid(0x63),
  leave: uuid(0x501),
  hung: uuid(0x502),
  nowhere: uuid(0x503),
  sapling: uuid(0x71),
  lostSapling: uuid(0x72),
  patch: uuid(0x73),
  middlePatch: uuid(0x74),
} as const;

/** Stake A, on a round place of the grid of EPSG:2264 (US survey feet). */
const origin = { easting: 1_209_000, northing: 741_000 };

/** A square of 200 US survey feet: four of them, as walked round the first opening. */
export const walkedSide = 200;

export function grid(east: number, north: number, accuracy?: JsonObject): JsonObject {
  const easting = String(origin.easting + east);
  const northing = String(origin.northing + north);
  return { how: 'grid', crs: 'EPSG:2264', easting, northing, ...(accuracy ? { accuracy } : {}) };
}

export function quantity(value: string, unit: string): JsonObject {
  return { text: `${value} ${unit}`, value, unit };
}

function azimuth(value: string, reference: 'mag' | 'true' = 'true'): JsonObject {
  return { text: `${value} ${reference}`, value, reference };
}

const scarletOak = { text: 'scarlet oak', list: 'us', code: 'QUCO2' };

/** The corners of a square with its lower left corner at `east`, `north` from stake A. */
export function square(east: number, north: number, side: number): JsonObject[] {
  return [
    grid(east, north),
    grid(east, north + side),
    grid(east + side, north + side),
    grid(east + side, north),
  ];
}

/** Stumps of the group that nobody walked round: a right triangle of 100 by 60 US survey feet, and one inside. */
const triangle: readonly (readonly [number, number])[] = [
  [300, 0],
  [400, 0],
  [300, 60],
  [310, 10],
];

/** The entries of the logbook; `more` is written at the end. */
export function entries(more: readonly (readonly [EventType, JsonObject])[] = []): LogEntry[] {
  const write = pen();
  const log: LogEntry[] = [];
  const put = (type: EventType, body: JsonObject) => log.push(write(type, body));
  put('logbook-opened', { name: 'Test woods', zone: 'America/New_York', units: 'us', crs: 'EPSG:2264' });
  put('block-laid-out', {
    block: id.block,
    name: 'North cove',
    boundary: square(-500, -500, 1500),
    boundaryFrom: 'surveyed',
    area: quantity('51.6', 'ac'),
  });
  put('block-laid-out', { block: id.pathBlock, name: 'South slope' });
  put('stake-set', { stake: id.stakeA, label: 'A', position: grid(0, 0, quantity('2', 'm')) });
  put('stake-set', { stake: id.stakeB, label: 'B' });
  put('group-laid-out', { group: id.walked, label: 'G1', block: id.block, plannedArea: quantity('1', 'ac') });
  put('group-laid-out', { group: id.unwalked, label: 'G2', block: id.block });
  put('group-laid-out', { group: id.uncut, label: 'G3', block: id.block });
  putStems(put);
  putRegeneration(put);
  putHarm(put);
  put('opening-closed', { group: id.walked, edge: square(0, 0, walkedSide), slash: 'lopped' });
  putFeatures(put);
  for (const [type, body] of more) put(type, body);
  return log;
}

/** One feature of the ground of each shape. */
function putFeatures(put: (type: EventType, body: JsonObject) => void): void {
  put('feature-mapped', {
    feature: uuid(0x81),
    label: 'spring house',
    what: 'structure',
    point: grid(500, 100),
  });
  const line = [grid(-200, 300), grid(100, 340), grid(400, 330)];
  put('feature-mapped', { feature: uuid(0x82), label: 'Laurel Run', what: 'stream', line, perennial: true });
  put('feature-mapped', {
    feature: uuid(0x83),
    label: 'pool',
    what: 'vernal-pool',
    edge: square(600, 400, 30),
  });
}

export function woodlot(more: readonly (readonly [EventType, JsonObject])[] = []): Folded {
  return fold(entries(more));
}

type Put = (type: EventType, body: JsonObject) => void;

function putStems(put: Put): void {
  put('stem-marked', {
    stem: id.leave,
    mark: 'leave',
    tag: 'L1',
    purpose: 'seed',
    species: { text: 'white oak', list: 'us', code: 'QUAL' },
    dbh: quantity('20.5', 'in'),
    height: quantity('80', 'ft'),
    lean: { offset: quantity('6', 'ft'), azimuth: azimuth('210', 'mag') },
    decaySigns: ['conks', 'dead-top'],
    group: id.walked,
    position: {
      how: 'offset',
      from: { stake: id.stakeA },
      azimuth: azimuth('45', 'mag'),
      distance: quantity('60', 'ft'),
    },
  });
  put('stem-marked', { stem: id.nowhere, mark: 'cut', tag: 'N1', group: id.uncut });
  put('stem-marked', { stem: id.hung, mark: 'cut', tag: 'H1', group: id.walked, position: grid(50, 50) });
  put('stem-felled', { stem: id.hung, came: 'hung-up', hungOn: id.leave, lay: azimuth('90') });
  for (const [number, [east, north]] of triangle.entries()) {
    const stem = uuid(0x510 + number);
    put('stem-marked', {
      stem,
      mark: 'cut',
      tag: `C${number + 1}`,
      species: scarletOak,
      dbh: quantity('14.0', 'in'),
      group: id.unwalked,
      position: grid(east, north),
      ...(number === 1 ? { height: quantity('70', 'ft') } : {}),
    });
    put('stem-felled', {
      stem,
      came: 'down',
      ...(number < 3 ? { lay: azimuth('90') } : {}),
      ...(number === 0 ? { layLength: quantity('66', 'ft') } : {}),
      stumpHeight: quantity('8', 'in'),
      boreCut: true,
      wedges: 2,
    });
  }
  const first = uuid(0x510);
  put('decay-measured', {
    stem: first,
    found: 'rot',
    upTheButt: quantity('3.5', 'ft'),
    diameter: quantity('6', 'in'),
  });
}

function putRegeneration(put: Put): void {
  put('sapling-protected', {
    sapling: id.sapling,
    label: 's1',
    height: quantity('6', 'ft'),
    group: id.walked,
    position: grid(20, 30),
  });
  put('sapling-protected', { sapling: id.lostSapling, label: 's2', group: id.walked });
  put('sapling-checked', { sapling: id.sapling, condition: 'bent', byStem: id.hung });
  put('patch-protected', { patch: id.patch, label: 'p1', group: id.walked, edge: square(100, 100, 20) });
  put('patch-protected', { patch: id.middlePatch, label: 'p2', position: grid(10, 10) });
}

function putHarm(put: Put): void {
  put('hazard-noted', {
    hazard: uuid(0x81),
    what: 'hung-up-stem',
    stem: id.hung,
    group: id.walked,
    radius: quantity('150', 'ft'),
  });
  put('hazard-noted', { hazard: uuid(0x82), what: 'footing', group: id.walked });
  put('damage-noted', {
    damage: uuid(0x91),
    to: 'leave-tree',
    stem: id.leave,
    woundArea: quantity('60', 'in2'),
    byStem: id.hung,
    group: id.walked,
  });
  put('damage-noted', { damage: uuid(0x92), to: 'soil', what: 'rut' });
}
