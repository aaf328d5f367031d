// Species: the shipped list of US national symbols, inventory numbers and names; other lists as `list:code`.
import type { SpeciesEntered } from './fields.ts';
import { nearest } from './nearest.ts';
import table from './species.gen.json' with { type: 'json' };

export type SpeciesRow = Readonly<{ symbol: string; number: string; common: string; scientific: string }>;
export type SpeciesReading =
  | { ok: true; value: SpeciesEntered }
  | { ok: false; remedy: string; candidates: readonly SpeciesRow[] };

/** Symbols, numbers and scientific names are each one species; common names may be several. Keys in lower case. */
type Index = {
  byCode: Map<string, SpeciesRow>;
  byScientific: Map<string, SpeciesRow>;
  byCommon: Map<string, SpeciesRow[]>;
  rows: readonly SpeciesRow[];
};
let built: Index | undefined;

/**
 * Reads a symbol (QUAL), an inventory number (802), a common or scientific name, or `list:code` of another
 * list, which is taken as it is. What is unknown or fits several species comes back with the candidates.
 */
export function readSpecies(text: string): SpeciesReading {
  const written = text.trim();
  const foreign = /^([a-z0-9-]{1,40}):(\S{1,40})$/i.exec(written);
  if (foreign) {
    return {
      ok: true,
      value: { text: written, list: (foreign[1] ?? '').toLowerCase(), code: foreign[2] ?? '' },
    };
  }
  const found = lookUp(written);
  const only = found[0];
  if (only && found.length === 1)
    return { ok: true, value: { text: written, list: 'us', code: only.symbol } };
  if (found.length > 1)
    return { ok: false, remedy: `"${written}" fits several species; give the symbol`, candidates: found };
  const candidates = resembling(written.toLowerCase());
  const hint =
    candidates.length > 0
      ? 'did you mean one of these?'
      : 'give a symbol, an inventory number, a full name, or list:code of your own list';
  return { ok: false, remedy: `"${written}" is no species of the shipped list; ${hint}`, candidates };
}

/** The common name where the list is the shipped one, else the code with its list. */
export function speciesName(entered: SpeciesEntered): string {
  if (entered.list !== 'us') return `${entered.code} (${entered.list})`;
  return index().byCode.get(entered.code.toLowerCase())?.common ?? entered.code;
}

/** The species of exactly that code or name. A few symbols are common names too: in capitals they are symbols. */
function lookUp(written: string): readonly SpeciesRow[] {
  const { byCode, byScientific, byCommon } = index();
  const key = written.toLowerCase();
  const coded = byCode.get(key);
  if (coded?.symbol === written || coded?.number === written) return [coded];
  const scientific = byScientific.get(key);
  if (scientific) return [scientific];
  return [...new Set([...(coded ? [coded] : []), ...(byCommon.get(key) ?? [])])];
}

/** Species whose common name has all these words, or whose genus this is; else the nearest name. */
function resembling(key: string): readonly SpeciesRow[] {
  const { rows, byCommon, byScientific } = index();
  if (key.length < 2 || /^\d+$/.test(key)) return [];
  const wanted = key.split(/\s+/);
  const containing = rows.filter(({ common, scientific }) => {
    const words = common.toLowerCase().split(' ');
    return wanted.every((word) => words.includes(word)) || scientific.toLowerCase().startsWith(`${key} `);
  });
  if (containing.length > 0) return containing.slice(0, 12);
  const near = nearest(key, [...byCommon.keys(), ...byScientific.keys()]);
  if (near === undefined) return [];
  const scientific = byScientific.get(near);
  return byCommon.get(near) ?? (scientific ? [scientific] : []);
}

function index(): Index {
  if (built) return built;
  const rows = (table.rows as string[][]).map(([symbol = '', number = '', common = '', scientific = '']) => ({
    symbol,
    number,
    common,
    scientific,
  }));
  const made: Index = { byCode: new Map(), byScientific: new Map(), byCommon: new Map(), rows };
  for (const row of rows) {
    made.byCode.set(row.symbol.toLowerCase(), row).set(row.number, row);
    made.byScientific.set(row.scientific.toLowerCase(), row);
    const same = made.byCommon.get(row.common.toLowerCase());
    if (same) same.push(row);
    else made.byCommon.set(row.common.toLowerCase(), [row]);
  }
  built = made;
  return made;
}
