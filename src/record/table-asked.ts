// Which table of the stand somebody asks for: read the same way for the command line and the server.
import { lengthUnits, readQuantity, readTime } from '../events/index.ts';
import { findThing, instantOf, type Stand, type TableAsked } from '../stand/index.ts';

/** As typed; block and group by label or id. */
export type TableTyped = Readonly<{
  by?: string | undefined;
  block?: string | undefined;
  group?: string | undefined;
  since?: string | undefined;
  floor?: string | undefined;
  units?: string | undefined;
}>;

export type TableReading =
  | Readonly<{ ok: true; asked: TableAsked }>
  | Readonly<{ ok: false; field: keyof TableTyped; value: string; remedy: string }>;

const rows = ['class', 'species', 'group'] as const;

/**
 * Reads what is typed against the stand.
 * @param now RFC 3339; what "today" means
 */
export function readTableAsked(stand: Stand, typed: TableTyped, now: string): TableReading {
  const system = unitsOf(stand, typed.units);
  if (system === undefined) return wrong('units', typed.units, 'write us or metric');
  const by = rows.find((row) => row === (typed.by ?? 'class'));
  if (by === undefined) return wrong('by', typed.by, `write one of ${rows.join(', ')}`);
  const parts = [
    readThing(stand, 'block', typed.block),
    readThing(stand, 'group', typed.group),
    readFloor(typed.floor, system),
    readSince(typed.since, stand.logbook?.body.zone ?? 'UTC', now),
  ];
  let asked: TableAsked = { by, system: system === 'us' ? 'inch' : 'metric' };
  for (const part of parts) {
    if ('ok' in part) return part;
    asked = { ...asked, ...part };
  }
  return { ok: true, asked };
}

type Wrong = Extract<TableReading, { ok: false }>;
type Part = Wrong | Partial<Omit<TableAsked, 'by' | 'system'>>;

function readThing(stand: Stand, noun: 'block' | 'group', text: string | undefined): Part {
  if (text === undefined) return {};
  const found = findThing(stand, noun, text, new Map());
  if (!found.ok) return wrong(noun, text, found.remedy);
  const things: ReadonlyMap<string, unknown> = noun === 'block' ? stand.blocks : stand.groups;
  if (!things.has(found.value)) return wrong(noun, text, `there is no such ${noun} in this logbook`);
  return { [noun]: found.value };
}

function readFloor(text: string | undefined, units: 'us' | 'metric'): Part {
  if (text === undefined) return {};
  const floor = readQuantity(text, lengthUnits, units === 'us' ? 'in' : 'cm');
  if (!floor.ok) return wrong('floor', text, floor.remedy);
  return { floor: { value: Number(floor.value.value), unit: floor.value.unit } };
}

function readSince(text: string | undefined, zone: string, now: string): Part {
  if (text === undefined) return {};
  const since = readTime(text, zone, now);
  if (!since.ok) return wrong('since', text, since.remedy);
  // A day begins when it begins: "at" goes to its end.
  const { at, precision } = since.value;
  return { from: precision === 'day' ? Date.parse(at) : instantOf(since.value) };
}

function unitsOf(stand: Stand, typed: string | undefined): 'us' | 'metric' | undefined {
  if (typed === undefined) return stand.logbook?.body.units ?? 'us';
  return typed === 'us' || typed === 'metric' ? typed : undefined;
}

function wrong(field: keyof TableTyped, value: string | undefined, remedy: string): Wrong {
  return { ok: false, field, value: value ?? '', remedy };
}
