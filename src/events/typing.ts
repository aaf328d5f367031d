// Turns what a person typed (flags, form values, JSON members) into the body of an entry.
// Text is read by the field's form; a value that already has the stored shape is taken as it is.

import { lengthUnits } from './fields.ts';
import type { Field, Fields, Form, Noun } from './form.ts';
import { isRequired } from './form.ts';
import type { Issue, JsonObject, JsonValue, Kind } from './kind.ts';
import { parseBody } from './kinds.ts';
import { nearest } from './nearest.ts';
import { type FindByLabel, readPosition, readRing } from './position.ts';
import { defaultLengthUnit, type Read, readAzimuth, readQuantity, type UnitSystem } from './quantity.ts';
import { cellsOf, partsOf } from './rows.ts';
import { readSpecies } from './species.ts';
import { readTime } from './time.ts';

/** What typing needs to know of the logbook it is typed into. */
export type Typing = Readonly<{
  units: UnitSystem;
  /** IANA zone for times without offset. */
  zone: string;
  /** The moment of typing, RFC 3339. */
  now: string;
  find: FindByLabel;
  findEntry: (text: string) => Read<string>;
  newIdentity: (noun: Noun) => string;
  /** Puts a text or file name away as an erasable row and gives its hash. */
  seal: (field: string, text: string) => Taken;
}>;

/** Something that has to be put right or chosen before there is a body. */
export type TypingProblem = Issue &
  Readonly<{ choices?: readonly { label: string; text: string }[]; missing?: true }>;
export type Typed = { ok: true; body: JsonObject } | { ok: false; problems: readonly TypingProblem[] };

/** A value that was read, or why it was not and what could be chosen instead. */
export type Taken =
  | { ok: true; value: JsonValue }
  | { ok: false; remedy: string; choices?: readonly { label: string; text: string }[] };

/**
 * Reads the typed values of one entry.
 * @param typed field name -> text, list of texts, or a value in stored shape
 * @returns the checked body, or every problem found (not only the first)
 */
export function typeBody(kind: Kind, typed: Readonly<Record<string, unknown>>, typing: Typing): Typed {
  const problems: TypingProblem[] = unknownFields(kind, typed);
  const body: Record<string, JsonValue> = {};
  for (const [name, field] of Object.entries(kind.fields)) {
    const given = typed[name];
    if (given === undefined || given === '') {
      if (field.form.is === 'identity') body[name] = typing.newIdentity(field.form.noun);
      else if (isRequired(field)) problems.push(missing(name, field));
      continue;
    }
    const taken = take(name, field.form, given, typing);
    if (taken.ok) body[name] = taken.value;
    else
      problems.push({
        field: name,
        value: shown(given),
        remedy: taken.remedy,
        ...(taken.choices ? { choices: taken.choices } : {}),
      });
  }
  if (problems.length > 0) return { ok: false, problems };
  const checked = parseBody(kind.type, kind.v, body);
  if (checked.ok) return { ok: true, body };
  return { ok: false, problems: checked.newer ? [] : checked.issues };
}

function unknownFields(kind: Kind, typed: Readonly<Record<string, unknown>>): TypingProblem[] {
  return Object.keys(typed)
    .filter((name) => !Object.hasOwn(kind.fields, name))
    .map((name) => {
      const near = nearest(name, Object.keys(kind.fields));
      const suggestion =
        near === undefined
          ? `its fields are ${Object.keys(kind.fields).join(', ')}`
          : `did you mean ${near}?`;
      return {
        field: name,
        value: shown(typed[name]),
        remedy: `"${kind.title}" has no such field; ${suggestion}`,
      };
    });
}

function missing(name: string, field: Field): TypingProblem {
  const options = field.form.is === 'choice' ? ` One of: ${field.form.options.join(', ')}.` : '';
  return { field: name, value: '', remedy: `is needed. ${field.help}${options}`, missing: true };
}

function take(name: string, form: Form, given: unknown, typing: Typing): Taken {
  if (form.is === 'list') return takeList(name, form.of, given, typing);
  if (form.is === 'row') return takeRow(form.columns, given, typing);
  if (typeof given === 'string') return takeText(name, form, given, typing);
  if (form.is === 'count' && typeof given === 'number') return { ok: true, value: given };
  if (form.is === 'yes-no' && typeof given === 'boolean') return { ok: true, value: given };
  if (typeof given === 'number') return takeText(name, form, String(given), typing);
  if (typeof given === 'object' && given !== null) return { ok: true, value: given as JsonValue };
  return { ok: false, remedy: 'write it as text' };
}

function takeList(name: string, form: Form, given: unknown, typing: Typing): Taken {
  const parts: unknown = typeof given === 'string' ? [given] : given;
  if (!Array.isArray(parts))
    return { ok: false, remedy: 'give one value, or several with semicolons between them' };
  const each = parts.flatMap((part: unknown) => (typeof part === 'string' ? partsOf(form, part) : [part]));
  const values: JsonValue[] = [];
  for (const [index, part] of each.entries()) {
    const taken = take(name, form, part, typing);
    if (!taken.ok)
      return form.is === 'row' ? { ...taken, remedy: `row ${index + 1}, ${taken.remedy}` } : taken;
    values.push(taken.value);
  }
  return { ok: true, value: values };
}

/** What could be typed instead stands in the words: a choice for one cell is none for the whole field. */
function withChoices({ remedy, choices = [] }: Extract<Taken, { ok: false }>): string {
  return choices.length === 0 ? remedy : `${remedy} ${choices.map(({ label }) => label).join(', ')}`;
}

/** Every column by its own reader; what is wrong names the column. */
function takeRow(columns: Fields, given: unknown, typing: Typing): Taken {
  const read = cellsOf(columns, given);
  if (!read.ok) return read;
  const values: Record<string, JsonValue> = {};
  for (const [name, column] of Object.entries(columns)) {
    const cell = read.cells[name];
    if (cell === undefined || cell === '') {
      if (isRequired(column)) return { ok: false, remedy: `${name}: is needed. ${column.help}` };
      continue;
    }
    const taken = take(name, column.form, cell, typing);
    if (!taken.ok) return { ok: false, remedy: `${name} "${shown(cell)}": ${withChoices(taken)}` };
    values[name] = taken.value;
  }
  return { ok: true, value: values };
}

/** One reader per form. */
function takeText(name: string, form: Form, text: string, typing: Typing): Taken {
  switch (form.is) {
    case 'text':
      return { ok: true, value: text };
    case 'identity':
    case 'data':
      return { ok: true, value: text };
    case 'reference':
      return typing.find(form.noun, text);
    case 'entry':
      return typing.findEntry(text);
    case 'sealed':
      return typing.seal(name, text);
    case 'choice':
      return takeChoice(form.options, text);
    case 'yes-no':
      return takeYesNo(text);
    case 'count':
      return /^\d{1,7}$/.test(text)
        ? { ok: true, value: Number(text) }
        : { ok: false, remedy: 'write a whole number' };
    case 'length':
      return readQuantity(text, lengthUnits, defaultLengthUnit(typing.units, form.role));
    case 'area':
    case 'number-with-unit':
      return readQuantity(text, form.units, form.units.length === 1 ? form.units[0] : undefined);
    case 'azimuth':
      return readAzimuth(text);
    case 'lean':
      return takeLean(text, typing);
    case 'position':
      return readPosition(text, typing.units, typing.find) as Taken;
    case 'ring':
      return readRing(text, typing.units, typing.find, form.fewest) as Taken;
    case 'species':
      return takeSpecies(text);
    case 'time':
      return takeTime(text, typing);
    case 'row':
      return takeRow(form.columns, text, typing);
    case 'list':
      return takeList(name, form.of, text, typing);
  }
}

function takeChoice(options: readonly string[], text: string): Taken {
  const written = text.trim().toLowerCase().replaceAll(' ', '-');
  const option = options.find((one) => one.toLowerCase() === written);
  if (option !== undefined) return { ok: true, value: option };
  const near = nearest(written, options);
  return {
    ok: false,
    remedy: `${near === undefined ? '' : `did you mean ${near}? `}One of: ${options.join(', ')}`,
  };
}

function takeYesNo(text: string): Taken {
  if (/^(yes|y|true|1)$/i.test(text)) return { ok: true, value: true };
  if (/^(no|n|false|0)$/i.test(text)) return { ok: true, value: false };
  return { ok: false, remedy: 'answer yes or no' };
}

function takeLean(text: string, typing: Typing): Taken {
  const parts = /^(.+?)\s+(?:at|toward)\s+(.+)$/i.exec(text.trim());
  if (!parts) return { ok: false, remedy: 'write the offset and its azimuth, such as 6 ft at 210 mag' };
  const offset = readQuantity(parts[1] ?? '', lengthUnits, defaultLengthUnit(typing.units, 'distance'));
  if (!offset.ok) return { ok: false, remedy: `offset: ${offset.remedy}` };
  const azimuth = readAzimuth(parts[2] ?? '');
  if (!azimuth.ok) return { ok: false, remedy: `azimuth: ${azimuth.remedy}` };
  return { ok: true, value: { offset: offset.value, azimuth: azimuth.value } };
}

function takeSpecies(text: string): Taken {
  const reading = readSpecies(text);
  if (reading.ok) return reading;
  const choices = reading.candidates.map((row) => ({
    label: `${row.symbol} ${row.common} (${row.scientific})`,
    text: row.symbol,
  }));
  return { ok: false, remedy: reading.remedy, ...(choices.length > 0 ? { choices } : {}) };
}

function takeTime(text: string, typing: Typing): Taken {
  const reading = readTime(text, typing.zone, typing.now);
  if (reading.ok) return reading;
  const choices = reading.choices?.map((choice) => ({ label: choice.label, text: choice.value.at }));
  return { ok: false, remedy: reading.remedy, ...(choices ? { choices } : {}) };
}

function shown(value: unknown): string {
  return (typeof value === 'string' ? value : (JSON.stringify(value) ?? '')).slice(0, 200);
}
