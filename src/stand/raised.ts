// A finding as an apply function raises it. It names things by their ids, and gets its words only when the
// fold is done: a stem that was tagged afterwards is called by its tag.
import type { Finding } from './findings.ts';
import { groupLabel, hazardLabel, saplingLabel, stemLabel } from './labels.ts';
import type { Stand } from './state.ts';

/** A part of a sentence: words, or a thing by its id. */
export type Part =
  | string
  | Readonly<{ stem: string }>
  | Readonly<{ sapling: string }>
  | Readonly<{ patch: string }>
  | Readonly<{ group: string }>
  | Readonly<{ hazard: string }>;

/** Two things that carried one label: their ids and the label in lower case. */
export type Twice = Readonly<{ one: string; other: string; label: string }>;

export type RaisedFinding = Omit<Finding, 'sentence' | 'settled'> &
  Readonly<{
    says: readonly Part[];
    /** When the last of its entries was recorded, RFC 3339; notes recorded later can settle it. */
    recordedAt: string;
    /** When it happened, in milliseconds since 1970, as the order of happening has it. */
    instant: number;
    twice?: Twice;
  }>;

/** Writes a sentence: said`${{ stem: id }} was felled without a mark.` */
export function said(words: TemplateStringsArray, ...things: readonly Part[]): readonly Part[] {
  return words.flatMap((text, index) => {
    const thing = things[index];
    return thing === undefined ? [text] : [text, thing];
  });
}

/** The sentence, with the labels that things carry in `stand`. */
export function sentenceOf(stand: Stand, parts: readonly Part[]): string {
  return parts.map((part) => (typeof part === 'string' ? part : called(stand, part))).join('');
}

function called(stand: Stand, thing: Exclude<Part, string>): string {
  if ('stem' in thing) return stemLabel(stand.stems.get(thing.stem));
  if ('sapling' in thing) return saplingLabel(stand.saplings.get(thing.sapling));
  if ('patch' in thing) return saplingLabel(stand.patches.get(thing.patch));
  if ('group' in thing) return groupLabel(stand.groups.get(thing.group));
  const hazard = stand.hazards.get(thing.hazard);
  return hazard === undefined ? 'unknown hazard' : hazardLabel(stand, hazard);
}
