// Reads quantities and azimuths as people write them. What was written is kept; the decimal value and
// the unit are only split off. A bare number takes the logbook's default unit, and that unit is stored.
import type { AzimuthEntered, QuantityEntered } from './fields.ts';
import type { LengthRole } from './form.ts';

export type UnitSystem = 'us' | 'metric';
/** `choices` are what may have been meant: words for each, and the text to type instead. */
export type Read<T> =
  | { ok: true; value: T }
  | { ok: false; remedy: string; choices?: readonly { label: string; text: string }[] };

const aliases: Readonly<Record<string, string>> = {
  in: 'in',
  '"': 'in',
  '″': 'in',
  inch: 'in',
  inches: 'in',
  ft: 'ft',
  "'": 'ft',
  '′': 'ft',
  foot: 'ft',
  feet: 'ft',
  'us-ft': 'us-ft',
  ftus: 'us-ft',
  'us-survey-ft': 'us-ft',
  yd: 'yd',
  yards: 'yd',
  ch: 'ch',
  chain: 'ch',
  chains: 'ch',
  mm: 'mm',
  cm: 'cm',
  m: 'm',
  metre: 'm',
  metres: 'm',
  meter: 'm',
  meters: 'm',
  ac: 'ac',
  acre: 'ac',
  acres: 'ac',
  ha: 'ha',
  ft2: 'ft2',
  'ft²': 'ft2',
  'sq ft': 'ft2',
  m2: 'm2',
  'm²': 'm2',
  in2: 'in2',
  'in²': 'in2',
  'sq in': 'in2',
  cm2: 'cm2',
  'cm²': 'cm2',
  mph: 'mph',
  'm/s': 'm/s',
  'km/h': 'km/h',
  kmh: 'km/h',
  kn: 'kn',
  knots: 'kn',
  '%': '%',
  percent: '%',
  deg: 'deg',
  '°': 'deg',
  degrees: 'deg',
  s: 's',
  sec: 's',
  min: 'min',
  h: 'h',
  'ft2/ac': 'ft2/ac',
  'ft²/ac': 'ft2/ac',
  'm2/ha': 'm2/ha',
  'm²/ha': 'm2/ha',
  '/ac': '/ac',
  'per ac': '/ac',
  '/ha': '/ha',
  'per ha': '/ha',
};

const byRole: Readonly<Record<UnitSystem, Readonly<Record<LengthRole, string>>>> = {
  us: { diameter: 'in', height: 'ft', distance: 'ft', small: 'in' },
  metric: { diameter: 'cm', height: 'm', distance: 'm', small: 'cm' },
};

/** The unit that a bare length takes in this logbook. */
export function defaultLengthUnit(system: UnitSystem, role: LengthRole): string {
  return byRole[system][role];
}

const number = String.raw`[-+]?(?:\d+(?:\.\d+)?|\.\d+)`;
const simple = new RegExp(`^(${number})\\s*(.*)$`);
const feetAndInches = /^(\d+)\s*(?:ft|feet|foot|'|′)\s*(\d+(?:\.\d+)?)\s*(?:in|inches|inch|"|″)$/i;

/**
 * Reads `14.2 in`, `36cm`, `6 ft 3 in`, `14` (with the default unit).
 * Only the units given are taken; anything else comes back as a sentence that lists them.
 */
export function readQuantity(
  text: string,
  units: readonly string[],
  defaultUnit: string | undefined,
): Read<QuantityEntered> {
  const written = text.trim();
  const pair = feetAndInches.exec(written);
  if (pair && units.includes('in')) return quantity(written, addInches(pair[1] ?? '0', pair[2] ?? '0'), 'in');

  const parts = simple.exec(written);
  if (!parts)
    return { ok: false, remedy: `write a number with a unit, such as 14.2 ${defaultUnit ?? units[0]}` };
  const unitText = (parts[2] ?? '').trim().toLowerCase();
  const unit = unitText === '' ? defaultUnit : aliases[unitText];
  if (unit === undefined || !units.includes(unit)) {
    return {
      ok: false,
      remedy: `${unitText === '' ? 'add a unit' : `"${unitText}" is no unit here`}; use one of ${units.join(', ')}`,
    };
  }
  return quantity(written, plain(parts[1] ?? ''), unit);
}

/** Reads `135 mag`, `135 true`, `135 grid EPSG:2264`; a bare number is refused, for the difference can be 20 degrees. */
export function readAzimuth(text: string): Read<AzimuthEntered> {
  const written = text.trim();
  const parts = /^(\d+(?:\.\d+)?)\s*(?:°|deg)?\s*(mag(?:netic)?|true|grid)?\s*(EPSG:\d{4,6})?$/i.exec(
    written,
  );
  if (!parts) return { ok: false, remedy: 'write degrees and what they are counted from, such as 135 mag' };
  const value = parts[1] ?? '';
  const word = parts[2]?.toLowerCase();
  if (word === undefined)
    return {
      ok: false,
      remedy: `say what it is counted from: ${value} mag, ${value} true or ${value} grid EPSG:…`,
    };
  if (Number(value) > 360) return { ok: false, remedy: 'an azimuth is from 0 to 360 degrees' };
  if (word === 'grid') {
    const crs = parts[3]?.toUpperCase();
    if (crs === undefined) return { ok: false, remedy: `name the grid, such as ${value} grid EPSG:2264` };
    return { ok: true, value: { text: written, value, reference: 'grid', crs } };
  }
  if (parts[3] !== undefined) return { ok: false, remedy: 'only a grid azimuth names a CRS' };
  return { ok: true, value: { text: written, value, reference: word === 'true' ? 'true' : 'mag' } };
}

function quantity(text: string, value: string, unit: string): Read<QuantityEntered> {
  if (!/^-?\d{1,12}(\.\d{1,12})?$/.test(value)) return { ok: false, remedy: 'write a plain decimal number' };
  return { ok: true, value: { text, value, unit: unit as QuantityEntered['unit'] } };
}

function plain(numberText: string): string {
  const unsigned = numberText.replace(/^\+/, '');
  return unsigned.replace(/^(-?)\./, '$10.');
}

/** Feet and inches as inches, exactly: whole feet times twelve, the inches' decimals kept. */
function addInches(feet: string, inches: string): string {
  const [whole = '0', decimals] = inches.split('.');
  const total = BigInt(feet) * 12n + BigInt(whole);
  return decimals === undefined ? String(total) : `${total}.${decimals}`;
}
