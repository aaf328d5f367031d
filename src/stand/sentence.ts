// The sentence of a finding: it names things by their ids, and gets its words only when the fold is done, so
// that a stem that was tagged afterwards is called by its tag.
import type { Part } from './findings.ts';
import { groupLabel, hazardLabel, saplingLabel, stemLabel } from './labels.ts';
import type { Stand } from './state.ts';

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
