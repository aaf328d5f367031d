// Species: the shipped list of US national symbols, inventory numbers and names; other lists as `list:code`.
import type { SpeciesEntered } from './fields.ts';
import { nearest } from './nearest.ts';
import table from './species.gen.json' with { type: 'json' };

export type SpeciesRow = Readonly<{ symbol: string; number: string; common: string; scientific: string }>;
export type SpeciesReading =
  | { ok: true; value: SpeciesEntered }
  | { ok: false; remedy: string; candidates: readonly SpeciesRow[] };

/** Symbol, inventory number, common and scientific name; all but the common name are each one species. */
type Row = readonly string[];
const symbolAt = 0;
const numberAt = 1;
const commonAt = 2;
const scientificAt = 3;

const commonNames = new Map<string, string>();

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
  const known = commonNames.get(entered.code);
  if (known !== undefined) return known;
  const name = ofCode(entered.code.toLowerCase())?.[commonAt] ?? entered.code;
  commonNames.set(entered.code, name);
  return name;
}

/** The species of exactly that code or name. A few symbols are common names too: in capitals they are symbols. */
function lookUp(written: string): readonly SpeciesRow[] {
  const key = written.toLowerCase();
  const coded = ofCode(key);
  if (coded && (coded[symbolAt] === written || coded[numberAt] === written)) return [toSpecies(coded)];
  const scientific = rows().find((row) => reads(row, scientificAt, key));
  if (scientific) return [toSpecies(scientific)];
  const common = rows().filter((row) => row !== coded && reads(row, commonAt, key));
  return [...(coded ? [coded] : []), ...common].map(toSpecies);
}

function ofCode(key: string): Row | undefined {
  return rows().find((row) => reads(row, symbolAt, key) || row[numberAt] === key);
}

/** Species whose common name has all these words, or whose genus this is; else the nearest name. */
function resembling(key: string): readonly SpeciesRow[] {
  if (key.length < 2 || /^\d+$/.test(key)) return [];
  const wanted = key.split(/\s+/);
  const all = rows().map(toSpecies);
  const containing = all.filter(({ common, scientific }) => {
    const words = common.toLowerCase().split(' ');
    return wanted.every((word) => words.includes(word)) || scientific.toLowerCase().startsWith(`${key} `);
  });
  if (containing.length > 0) return containing.slice(0, 12);
  const names = [commonAt, scientificAt].flatMap((at) => rows().map((row) => (row[at] ?? '').toLowerCase()));
  const near = nearest(key, names);
  return near === undefined
    ? []
    : rows()
        .filter((row) => isNamed(row, near))
        .map(toSpecies);
}

function isNamed(row: Row, key: string): boolean {
  return reads(row, commonAt, key) || reads(row, scientificAt, key);
}

/** A list of so few is looked through in less time than it takes to index it, and most commands look up one. */
function rows(): readonly Row[] {
  return table.rows;
}

/** Whether the row has that there, whatever its capitals; `key` is in lower case. */
function reads(row: Row, at: number, key: string): boolean {
  const text = row[at] ?? '';
  return text.length === key.length && text.toLowerCase() === key;
}

function toSpecies([symbol = '', number = '', common = '', scientific = '']: Row): SpeciesRow {
  return { symbol, number, common, scientific };
}
