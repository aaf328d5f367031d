/** The mix of species, by number of stems and by basal area: two answers that often differ widely. */
import { isNotEnough, type NotEnough } from '../figure.ts';
import {
  countOf,
  type System,
  stemCount,
  sumOfBasalAreas,
  type Tallied,
  type Tally,
  totalBasalArea,
} from './tally.ts';

/** A species with its stems and basal area (ft² or m²), and its share of each (0 to 1). Null: species not recorded. */
export type SpeciesShare = Readonly<{
  species: string | null;
  stems: number;
  shareOfStems: number;
  basalArea: number;
  shareOfBasalArea: number;
}>;

/** The species of a list, the one with most basal area first. Shares of an empty list are 0. */
export function speciesMix(tally: Tally, system: System): readonly SpeciesShare[] | NotEnough {
  const all = totalBasalArea(tally, system);
  if (isNotEnough(all)) return all;
  const count = stemCount(tally);
  const bySpecies = new Map<string | null, Tallied[]>();
  for (const stem of tally.stems) {
    const species = stem.species ?? null;
    const alike = bySpecies.get(species);
    if (alike === undefined) bySpecies.set(species, [stem]);
    else alike.push(stem);
  }
  const rows = [...bySpecies].map(([species, stems]) => {
    const number = stems.reduce((sum, stem) => sum + countOf(stem), 0);
    const area = sumOfBasalAreas({ stems, unit: tally.unit }, system);
    return {
      species,
      stems: number,
      shareOfStems: count === 0 ? 0 : number / count,
      basalArea: area,
      shareOfBasalArea: all.value === 0 ? 0 : area / all.value,
    };
  });
  return rows.sort((one, other) => other.basalArea - one.basalArea);
}
