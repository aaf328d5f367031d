// Words and numbers that the sheets of felling share: chances, lengths, costs, and what to sight on.
import { type PlannedFall, stopsOf } from '../../felling/index.ts';
import { lengthIn, type System } from '../../measure/index.ts';
import { rounded } from './model.ts';

/** Never 0 and never 100: the model knows only what was entered. */
export function percent(share: number): string {
  if (share < 0.005) return 'under 1 %';
  return share > 0.995 ? 'over 99 %' : `${rounded(100 * share, 0)} %`;
}

/** A sum that may be too small to print as a number. */
export function sum(value: number): string {
  return value < 0.005 ? 'under 0.01' : rounded(value, 2);
}

/** A length along the ground: feet or metres. */
export function far(metres: number, system: System): string {
  return system === 'metric' ? `${rounded(metres, 1)} m` : `${rounded(lengthIn(metres, 'm', 'ft'), 0)} ft`;
}

/** A length at the stump: inches or centimetres. */
export function thin(metres: number, system: System): string {
  return system === 'metric'
    ? `${rounded(lengthIn(metres, 'm', 'cm'), 0)} cm`
    : `${rounded(lengthIn(metres, 'm', 'in'), 1)} in`;
}

/** What a change adds to the whole plan. */
export function costWords({ hangUps, loss }: Readonly<{ hangUps: number; loss: number }>): string {
  const part = (value: number, more: string, less: string) =>
    Math.abs(value) < 0.005 ? [] : [`${rounded(Math.abs(value), 2)} ${value > 0 ? more : less}`];
  const parts = [
    ...part(hangUps, 'more hang-ups', 'fewer hang-ups'),
    ...part(loss, 'more loss', 'less loss'),
  ];
  return parts.length === 0 ? 'no difference that counts' : parts.join(', ');
}

const NAMED: Readonly<Record<string, string>> = {
  stem: 'stem ',
  sapling: 'sapling ',
  'leave tree': 'leave tree ',
  stump: 'the stump of ',
  stake: '',
};

/** A thing by its kind and what it is called; a label that begins with its kind is left as it is. */
export function named(kind: string, label: string): string {
  const before = NAMED[kind] ?? '';
  return label.startsWith('the stump') || label.startsWith(before) ? label : `${before}${label}`;
}

/** A thing at risk by what it is and what it is called, without saying it twice. */
export function called(what: string, label: string): string {
  return label.startsWith(what) || label.startsWith('the ') ? label : `${what} ${label}`;
}

/** What to look at along an aim, in words; a dash where nothing was found. */
export function towards(landmark: PlannedFall['explanation']['landmark'], system: System): string {
  if (landmark === undefined) return '–';
  const { kind, label, distance, off } = landmark;
  const beside =
    Math.abs(off) < 1 ? '' : `, ${rounded(Math.abs(off), 0)}° ${off > 0 ? 'right' : 'left'} of it`;
  return `${named(kind, label)}, ${far(distance, system)}${beside}`;
}

/** Metres; a lift below it would be printed as nothing. */
const LIFT = 0.00127;

/** How a stem is brought to fall along its aim, and what is done afterwards. */
export function howWords({ method, wedges, pull, afterwards }: PlannedFall['aim'], system: System): string {
  const how =
    wedges !== undefined
      ? `wedges${wedges.lift < LIFT ? '' : `, lift ${thin(wedges.lift, system)}`}`
      : pull !== undefined
        ? `winch, trained people only`
        : method;
  return [how, ...afterwards].join('; ');
}

/** Falls that are not to be worked as they stand, because there is no way out or no hinge that could be worked out; each with why. */
export function stopsBefore(falls: readonly PlannedFall[]): string[] {
  return falls.flatMap((fall) => stopsOf(fall).map((reason) => `Stop before ${fall.label}: ${reason}`));
}
