// Columns that several layers share.
//
// Units are one fixed set, whatever units a logbook is kept in: centimetres for diameters, metres for heights
// and distances, square metres and hectares for areas (acres beside them for openings). So layers of two
// logbooks can be merged, and a style or an expression made for one fits the other. What the person wrote
// stands beside each number as text.
import type { AzimuthEntered, QuantityEntered, SpeciesEntered } from '../events/index.ts';
import { speciesName } from '../events/index.ts';
import {
  type AreaUnit,
  areaIn,
  isAreaUnit,
  isLengthUnit,
  type LengthUnit,
  lengthIn,
} from '../measure/index.ts';
import { decimal, isUnresolved, type LonLat, toTrueAzimuth } from '../place/index.ts';
import { stemLabel, withUnit } from '../stand/index.ts';
import { rounded, type Told, type Value, type View } from './layer.ts';
import { utc } from './view.ts';

type Of<Subject, T> = (subject: Subject, view: View) => T | undefined;

export function text<Subject>(name: string, help: string, of: Of<Subject, string>): Told<Subject> {
  return { name, type: 'text', help, of: orNull(of) };
}

export function yesNo<Subject>(name: string, help: string, of: Of<Subject, boolean>): Told<Subject> {
  return { name, type: 'yes-no', help, of: orNull(of) };
}

export function count<Subject>(name: string, help: string, of: Of<Subject, number>): Told<Subject> {
  return { name, type: 'integer', help, of: orNull(of) };
}

/** A number that was computed; `name` ends with the unit. */
export function figure<Subject>(
  name: string,
  unit: string,
  decimals: number,
  help: string,
  of: Of<Subject, number>,
): Told<Subject> {
  return { name, type: 'number', unit, help, of: (subject, view) => rounded(of(subject, view), decimals) };
}

/** The time of one entry, given by its id. */
export function timeOf<Subject>(name: string, help: string, of: Of<Subject, string>): Told<Subject> {
  const value = (subject: Subject, view: View) => {
    const entry = of(subject, view);
    return entry === undefined ? null : utc(view.happening(entry));
  };
  return { name, type: 'time', help: `${help} ${inUtc}`, of: value };
}

/** A length as entered, and as a number in `unit`. */
export function lengthColumns<Subject>(
  name: string,
  unit: Extract<LengthUnit, 'cm' | 'm'>,
  help: string,
  of: Of<Subject, QuantityEntered>,
): Told<Subject>[] {
  const convert = (value: number, from: string) =>
    isLengthUnit(from) ? lengthIn(value, from, unit) : undefined;
  return quantityColumns(name, unit, 3, help, of, convert);
}

/** An area as entered, and as a number in `unit`. */
export function areaColumns<Subject>(
  name: string,
  unit: Extract<AreaUnit, 'm2' | 'ha'>,
  help: string,
  of: Of<Subject, QuantityEntered>,
): Told<Subject>[] {
  const convert = (value: number, from: string) => (isAreaUnit(from) ? areaIn(value, from, unit) : undefined);
  return quantityColumns(name, unit, unit === 'ha' ? 4 : 1, help, of, convert);
}

/** A quantity as entered, and as a number by `convert`. */
export function quantityColumns<Subject>(
  name: string,
  unit: string,
  decimals: number,
  help: string,
  of: Of<Subject, QuantityEntered>,
  convert: (value: number, from: string) => number | undefined,
): Told<Subject>[] {
  const inUnit: Of<Subject, number> = (subject, view) => {
    const quantity = of(subject, view);
    const value = quantity === undefined ? undefined : decimal(quantity.value);
    return quantity === undefined || value === undefined ? undefined : convert(value, quantity.unit);
  };
  const asEntered: Of<Subject, string> = (subject, view) => {
    const quantity = of(subject, view);
    return quantity === undefined ? undefined : withUnit(quantity);
  };
  return [
    text(name, `${help} As entered.`, asEntered),
    figure(`${name}_${unit}`, unit, decimals, `${help} In ${unit}.`, inUnit),
  ];
}

/** An azimuth as entered, and in degrees from true north where it can be turned to it. */
export function azimuthColumns<Subject>(
  name: string,
  help: string,
  of: Of<Subject, Readonly<{ azimuth: AzimuthEntered; at: LonLat; when: string }>>,
): Told<Subject>[] {
  const fromTrueNorth: Of<Subject, number> = (subject, view) => {
    const read = of(subject, view);
    if (read === undefined) return undefined;
    const turned = toTrueAzimuth(read.azimuth, read.at, read.when, view.locator.declination);
    return isUnresolved(turned) ? undefined : turned.value;
  };
  return [
    text(name, `${help} As entered.`, (subject, view) => of(subject, view)?.azimuth.text),
    figure(`${name}_true_deg`, 'deg', 1, `${help} Clockwise from true north.`, fromTrueNorth),
  ];
}

export function speciesColumns<Subject>(of: Of<Subject, SpeciesEntered>): Told<Subject>[] {
  return [
    text('species', 'Common name of the species.', (subject, view) => {
      const species = of(subject, view);
      return species === undefined ? undefined : speciesName(species);
    }),
    text(
      'species_code',
      'Code of the species, in the list beside it.',
      (subject, view) => of(subject, view)?.code,
    ),
    text(
      'species_list',
      'Which code list; "us" is the list of US national symbols.',
      (subject, view) => of(subject, view)?.list,
    ),
  ];
}

/** The group's label and identity. */
export function groupColumns<Subject extends { group?: string | undefined }>(): Told<Subject>[] {
  return [
    text('group', 'Label of its group.', ({ group }, { stand }) =>
      group === undefined ? undefined : stand.groups.get(group)?.label,
    ),
    text('group_uid', 'Identity of its group.', ({ group }) => group),
  ];
}

/** The block's name. */
export function blockName({ stand }: View, block: string | undefined): string | undefined {
  return block === undefined ? undefined : stand.blocks.get(block)?.name;
}

/** What a stem is called, by its identity. */
export function stemName({ stand }: View, stem: string | undefined): string | undefined {
  return stem === undefined ? undefined : stemLabel(stand.stems.get(stem));
}

/** When the first and the last entry about a thing happened, and how well that is known. */
export function entryTimes<Subject extends { entries: readonly string[] }>(): Told<Subject>[] {
  const told = (name: string, which: string, index: number): Told<Subject>[] => [
    timeOf(`${name}_at`, `When the ${which} entry about it happened.`, ({ entries }) => entries.at(index)),
    text(
      `${name}_known_to`,
      'Whether that time is known to the instant, the minute or the day.',
      ({ entries }, view) => view.happening(entries.at(index) ?? '')?.happenedAt.precision,
    ),
  ];
  return [
    ...told('first_entry', 'first', 0),
    ...told('last_entry', 'last', -1),
    count('entries', 'How many entries it rests on.', ({ entries }) => new Set(entries).size),
  ];
}

const inUtc = 'UTC, RFC 3339.';

function orNull<Subject>(of: Of<Subject, Exclude<Value, null>>): Told<Subject>['of'] {
  return (subject, view) => of(subject, view) ?? null;
}
