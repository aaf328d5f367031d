// Reads positions as people write them: a fix, projected coordinates, azimuth and distance from a stake
// or stem, distances from several, an average of fixes, x and y on a block's axes, or unknown. Nothing is computed:
// the position is kept as entered.
import type { OneFix, PositionEntered, Taped } from '../place/index.ts';
import type { QuantityEntered } from './fields.ts';
import { lengthUnits, slopeUnits } from './fields.ts';
import type { Noun } from './form.ts';
import { defaultLengthUnit, type Read, readAzimuth, readQuantity, type UnitSystem } from './quantity.ts';

export type FindByLabel = (noun: Noun, text: string) => Read<string>;

const decimalText = String.raw`-?\d+(?:\.\d+)?`;
const fix = new RegExp(
  `^(?:fix\\s+)?(${decimalText})\\s*,\\s*(${decimalText})(?:\\s*(?:\\+-|±)\\s*(.+))?$`,
  'i',
);
const grid = new RegExp(
  `^(EPSG:\\d{4,6})\\s+(${decimalText})\\s*[, ]\\s*(${decimalText})(?:\\s*(?:\\+-|±)\\s*(.+))?$`,
  'i',
);
const offset = /^(.+?),\s*(.+?)\s+from\s+(stake|stem)\s+(.+)$/i;
// When and with what a fix was taken: ", fixed 09:05, source handheld".
const fixClause = /,\s*(fixed|source)\s+([^,]+?)\s*(?=,|$)/gi;
// The slope may stand before or after the point that was measured from.
const slopeClause = /,\s*slope\s+(.+?)(?=\s+from\s|\s*$)/i;
/** One of several distances: `31.2 ft from stake A`, `31.2 ft, slope 12 % from stake A`. */
const distance = /^(.+?)(?:,?\s*\bslope\s+(.+?))?\s+from\s+(stake|stem)\s+(.+)$/i;
/** A comma after which the next distance begins. */
const nextDistance = /,\s*(?!slope\b)(?=[^,]*(?:,\s*slope\b[^,]*)?\sfrom\s+(?:stake|stem)\s)/i;
const sideClause = /,\s*(left|right)\s*$/i;
const average = /^average\s+(.+)$/i;
const local = /^x\s+(.+?),\s*y\s+(.+?)\s+in\s+(?:block\s+)?(.+)$/i;
const shapes =
  'write "35.7121, -81.6834 +-4 m", "EPSG:2264 1209000, 741000", "135 mag, 42 ft from stake A", "31.2 ft from stake A, 44 ft from stem 12, left", "x 12 m, y 30 m in block North" or "unknown"';

/** Reads one position. Errors name the part that could not be read. */
export function readPosition(text: string, units: UnitSystem, find: FindByLabel): Read<PositionEntered> {
  const written = text.trim();
  if (/^(unknown|later)$/i.test(written)) return { ok: true, value: { how: 'unknown' } };
  return (
    readAverage(written, units) ??
    readGrid(written, units) ??
    readFix(written, units) ??
    readDistances(written, units, find) ??
    readOffset(written, units, find) ??
    readLocal(written, units, find) ?? { ok: false, remedy: shapes }
  );
}

/** Reads a ring: positions with semicolons between them. */
export function readRing(
  text: string,
  units: UnitSystem,
  find: FindByLabel,
  fewest = 3,
): Read<PositionEntered[]> {
  const ring: PositionEntered[] = [];
  for (const [index, part] of text
    .split(';')
    .map((corner) => corner.trim())
    .filter(Boolean)
    .entries()) {
    const corner = readPosition(part, units, find);
    if (!corner.ok) return { ok: false, remedy: `corner ${index + 1} ("${part}"): ${corner.remedy}` };
    ring.push(corner.value);
  }
  return ring.length < fewest
    ? {
        ok: false,
        remedy:
          fewest < 3
            ? 'a line has at least two points, with semicolons between them'
            : 'an edge has at least three corners, with semicolons between them',
      }
    : { ok: true, value: ring };
}

function readFix(written: string, units: UnitSystem): Read<PositionEntered> | undefined {
  const parts = fix.exec(written.replaceAll(fixClause, ''));
  if (!parts) return undefined;
  const [, lat = '', lon = '', accuracy] = parts;
  if (Math.abs(Number(lat)) > 90) return { ok: false, remedy: `${lat} is no latitude${likely(lat, lon)}` };
  if (Math.abs(Number(lon)) > 180) return { ok: false, remedy: `${lon} is no longitude` };
  const clauses = new Map(
    [...written.matchAll(fixClause)].map(([, name = '', said = '']) => [name.toLowerCase(), said]),
  );
  const fixedAt = clauses.get('fixed');
  const source = clauses.get('source');
  const taken = {
    ...(fixedAt === undefined ? {} : { fixedAt }),
    ...(source === undefined ? {} : { source }),
  };
  return withAccuracy({ how: 'fix', lat, lon, ...taken }, accuracy, units);
}

/** What was probably meant by two numbers of which the first is no latitude. */
function likely(lat: string, lon: string): string {
  const [first, second] = [unpacked(lat, 90), unpacked(lon, 180)];
  if (first !== undefined && second !== undefined)
    return `; if these are degrees and minutes written together, write ${first}, ${second}`;
  return Math.abs(Number(lon)) <= 90 && Math.abs(Number(lat)) <= 180
    ? '; are latitude and longitude swapped?'
    : '; projected coordinates need their EPSG code';
}

/** `3542.726` as 35 degrees and 42.726 minutes, the way receivers hand it out (NMEA 0183, from memory). */
function unpacked(text: string, limit: number): string | undefined {
  const value = Math.abs(Number(text));
  const degrees = Math.floor(value / 100);
  const minutes = value - degrees * 100;
  if (value < 100 || degrees > limit || minutes >= 60) return undefined;
  return `${text.startsWith('-') ? '-' : ''}${(degrees + minutes / 60).toFixed(6)}`;
}

/** Several fixes of one place: `average 35.71210, -81.68340 +-4 m | 35.71212, -81.68338 +-5 m`. */
function readAverage(written: string, units: UnitSystem): Read<PositionEntered> | undefined {
  const list = average.exec(written)?.[1];
  if (list === undefined) return undefined;
  const fixes: OneFix[] = [];
  for (const [index, part] of list.split('|').entries()) {
    const read = readFix(part.trim(), units) ?? { ok: false, remedy: 'write "35.71210, -81.68340 +-4 m"' };
    if (!read.ok) return { ok: false, remedy: `fix ${index + 1} ("${part.trim()}"): ${read.remedy}` };
    if (read.value.how !== 'fix') return { ok: false, remedy: shapes };
    const { lat, lon, accuracy } = read.value;
    fixes.push({ lat, lon, ...(accuracy === undefined ? {} : { accuracy }) });
  }
  return fixes.length < 2
    ? { ok: false, remedy: 'an average has at least two fixes, with | between them' }
    : { ok: true, value: { how: 'average', fixes } };
}

function readGrid(written: string, units: UnitSystem): Read<PositionEntered> | undefined {
  const parts = grid.exec(written);
  if (!parts) return undefined;
  const [, crs = '', easting = '', northing = '', accuracy] = parts;
  return withAccuracy({ how: 'grid', crs: crs.toUpperCase(), easting, northing }, accuracy, units);
}

function withAccuracy<P extends PositionEntered>(
  position: P,
  text: string | undefined,
  units: UnitSystem,
): Read<P> {
  if (text === undefined) return { ok: true, value: position };
  const accuracy = readLength(text, units);
  return accuracy.ok
    ? { ok: true, value: { ...position, accuracy: accuracy.value } }
    : { ok: false, remedy: `accuracy: ${accuracy.remedy}` };
}

function readOffset(
  written: string,
  units: UnitSystem,
  find: FindByLabel,
): Read<PositionEntered> | undefined {
  const slopeText = slopeClause.exec(written)?.[1];
  const parts = offset.exec(written.replace(slopeClause, ''));
  if (!parts) return undefined;
  const [, azimuthText = '', distanceText = '', noun = '', label = ''] = parts;
  const azimuth = readAzimuth(azimuthText);
  if (!azimuth.ok) return { ok: false, remedy: `azimuth: ${azimuth.remedy}` };
  const distance = readLength(distanceText, units);
  if (!distance.ok) return { ok: false, remedy: `distance: ${distance.remedy}` };
  const slope = slopeText === undefined ? undefined : readQuantity(slopeText, slopeUnits, undefined);
  if (slope && !slope.ok) return { ok: false, remedy: `slope: ${slope.remedy}` };
  const from = readAnchor(noun, label, written, find);
  if (!from.ok) return from;
  return {
    ok: true,
    value: {
      how: 'offset',
      from: from.value,
      azimuth: azimuth.value,
      distance: distance.value,
      ...(slope ? { slope: slope.value } : {}),
    },
  };
}

/** Two distances and more, each from a stake or a stem, and at the end the side if it was said. */
function readDistances(
  written: string,
  units: UnitSystem,
  find: FindByLabel,
): Read<PositionEntered> | undefined {
  const side = sideClause.exec(written)?.[1]?.toLowerCase();
  const parts = written.replace(sideClause, '').split(nextDistance);
  // What stands before the first comma is a distance by itself, or an azimuth: then it is an offset.
  if (parts.length < 2 || !distance.test(parts[0]?.trim() ?? '')) return undefined;
  const taped: Taped[] = [];
  for (const part of parts) {
    const read = readTaped(part.trim(), written, units, find);
    if (!read.ok) return read;
    taped.push(read.value);
  }
  const chosen = side === undefined ? {} : { side: side === 'left' ? ('left' as const) : ('right' as const) };
  return { ok: true, value: { how: 'distances', taped, ...chosen } };
}

function readTaped(part: string, written: string, units: UnitSystem, find: FindByLabel): Read<Taped> {
  const [, length = '', slopeText, noun = '', label = ''] = distance.exec(part) ?? [];
  const taped = readLength(length, units);
  if (!taped.ok) return { ok: false, remedy: `distance "${part}": ${taped.remedy}` };
  const slope = slopeText === undefined ? undefined : readQuantity(slopeText, slopeUnits, undefined);
  if (slope && !slope.ok) return { ok: false, remedy: `slope: ${slope.remedy}` };
  const from = readAnchor(noun, label, written, find);
  if (!from.ok) return from;
  return {
    ok: true,
    value: { from: from.value, distance: taped.value, ...(slope ? { slope: slope.value } : {}) },
  };
}

function readAnchor(
  noun: string,
  label: string,
  written: string,
  find: FindByLabel,
): Extract<Read<never>, { ok: false }> | { ok: true; value: Taped['from'] } {
  const onStake = noun.toLowerCase() === 'stake';
  const anchor = find(onStake ? 'stake' : 'stem', label);
  if (!anchor.ok) return withinText(anchor, written, `${noun} ${label}`, noun);
  return { ok: true, value: onStake ? { stake: anchor.value } : { stem: anchor.value } };
}

/** What may be chosen instead of a point's label, put into the whole text of the position. */
function withinText(
  { remedy, choices = [] }: Extract<Read<string>, { ok: false }>,
  written: string,
  named: string,
  noun: string,
): Extract<Read<never>, { ok: false }> {
  if (choices.length === 0 || !written.includes(named)) return { ok: false, remedy };
  const texts = choices.map((choice) => ({
    label: choice.label,
    text: written.replace(named, () => `${noun} ${choice.text}`),
  }));
  return { ok: false, remedy, choices: texts };
}

function readLocal(written: string, units: UnitSystem, find: FindByLabel): Read<PositionEntered> | undefined {
  const parts = local.exec(written);
  if (!parts) return undefined;
  const [, xText = '', yText = '', label = ''] = parts;
  const x = readLength(xText, units);
  const y = readLength(yText, units);
  if (!x.ok) return { ok: false, remedy: `x: ${x.remedy}` };
  if (!y.ok) return { ok: false, remedy: `y: ${y.remedy}` };
  const block = find('block', label);
  if (!block.ok) return { ok: false, remedy: block.remedy };
  return { ok: true, value: { how: 'local', block: block.value, x: x.value, y: y.value } };
}

function readLength(text: string, units: UnitSystem): Read<QuantityEntered> {
  return readQuantity(text, lengthUnits, defaultLengthUnit(units, 'distance'));
}
