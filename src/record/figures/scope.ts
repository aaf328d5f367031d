// What every kind of figure is asked with: block or group, period, floor, units. Read the same way for the command line
// and the server.
import { lengthUnits, readQuantity, readTime } from '../../events/index.ts';
import type { System } from '../../measure/index.ts';
import { type CountAsked, type Folded, findThing, instantOf, type Stand } from '../../stand/index.ts';
import { type FiguresTyped, type Read, wrong } from './typed.ts';
import { readZone } from './zone.ts';

/** Which stems are counted, and in which units figures are wanted. */
export type Scope = CountAsked & Readonly<{ system: System }>;

/**
 * Reads what is typed against the stand.
 * @param now RFC 3339; what "today" means
 */
export function readScope(stand: Stand, typed: FiguresTyped, now: string): Read<Scope> {
  const units = unitsOf(stand, typed.units);
  if (units === undefined) return wrong('units', typed.units, 'write us or metric');
  const parts = [
    readThing(stand, 'block', typed.block),
    readThing(stand, 'group', typed.group),
    readFloor(typed.floor, units),
    readSince(typed.since, stand.logbook?.body.zone ?? 'UTC', now),
    readZone(stand, typed, units),
  ];
  let scope: Scope = { system: units === 'us' ? 'inch' : 'metric' };
  for (const part of parts) {
    if (!part.ok) return part;
    scope = { ...scope, ...part.value };
  }
  return { ok: true, value: scope };
}

type Part = Read<Partial<CountAsked>>;

function readThing(stand: Stand, noun: 'block' | 'group', text: string | undefined): Part {
  if (text === undefined) return { ok: true, value: {} };
  const found = readId(stand, noun, text);
  return found.ok ? { ok: true, value: { [noun]: found.value } } : found;
}

/** The id of a block, group or stem by what it is called. */
export function readId(
  stand: Stand,
  noun: 'block' | 'group' | 'stem',
  text: string,
  entries?: Folded['entries'],
): Read<string> {
  const found = findThing(stand, noun, text, new Map(), entries);
  if (!found.ok) return wrong(noun, text, found.remedy);
  const things: ReadonlyMap<string, unknown> = stand[`${noun}s`];
  if (!things.has(found.value)) return wrong(noun, text, `there is no such ${noun} in this logbook`);
  return { ok: true, value: found.value };
}

function readFloor(text: string | undefined, units: 'us' | 'metric'): Part {
  if (text === undefined) return { ok: true, value: {} };
  const floor = readQuantity(text, lengthUnits, units === 'us' ? 'in' : 'cm');
  if (!floor.ok) return wrong('floor', text, floor.remedy);
  return { ok: true, value: { floor: { value: Number(floor.value.value), unit: floor.value.unit } } };
}

function readSince(text: string | undefined, zone: string, now: string): Part {
  if (text === undefined) return { ok: true, value: {} };
  const since = readTime(text, zone, now);
  if (!since.ok) return wrong('since', text, since.remedy);
  // A day begins when it begins: "at" goes to its end.
  const { at, precision } = since.value;
  return { ok: true, value: { from: precision === 'day' ? Date.parse(at) : instantOf(since.value) } };
}

function unitsOf(stand: Stand, typed: string | undefined): 'us' | 'metric' | undefined {
  if (typed === undefined) return stand.logbook?.body.units ?? 'us';
  return typed === 'us' || typed === 'metric' ? typed : undefined;
}
