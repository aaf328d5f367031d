// Species: the shipped list of US national symbols, inventory numbers and names; other lists as `list:code`.
import type { SpeciesEntered } from './fields.ts';
import { nearest } from './nearest.ts';
import table from './species.gen.json' with { type: 'json' };

export type SpeciesRow = Readonly<{ symbol: string; number: string; common: string; scientific: string }>;
export type SpeciesReading =
  | { ok: true; value: SpeciesEntered }
  | { ok: false; remedy: string; candidates: readonly SpeciesRow[] };

type Index = {
  bySymbol: Map<string, SpeciesRow>;
  byName: Map<string, SpeciesRow[]>;
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
  const { bySymbol, byName } = index();
  const key = written.toLowerCase();
  const exact = bySymbol.get(key);
  const found = exact ? [exact] : (byName.get(key) ?? []);
  const only = found[0];
  if (only && found.length === 1)
    return { ok: true, value: { text: written, list: 'us', code: only.symbol } };
  if (found.length > 1)
    return { ok: false, remedy: `"${written}" fits several species; give the symbol`, candidates: found };
  const candidates = resembling(key);
  const hint =
    candidates.length > 0
      ? 'did you mean one of these?'
      : 'give a symbol, an inventory number, a full name, or list:code of your own list';
  return { ok: false, remedy: `"${written}" is no species of the shipped list; ${hint}`, candidates };
}

/** The common name where the list is the shipped one, else the code with its list. */
export function speciesName(entered: SpeciesEntered): string {
  if (entered.list !== 'us') return `${entered.code} (${entered.list})`;
  return index().bySymbol.get(entered.code.toLowerCase())?.common ?? entered.code;
}

function resembling(key: string): SpeciesRow[] {
  const { rows, byName } = index();
  if (key.length < 2) return [];
  const containing = rows.filter(
    (row) =>
      row.common.toLowerCase().split(' ').includes(key) || row.scientific.toLowerCase().startsWith(`${key} `),
  );
  if (containing.length > 0) return containing.slice(0, 12);
  const near = nearest(key, byName.keys());
  return near === undefined ? [] : (byName.get(near) ?? []);
}

function index(): Index {
  if (built) return built;
  const rows = (table.rows as string[][]).map(([symbol = '', number = '', common = '', scientific = '']) => ({
    symbol,
    number,
    common,
    scientific,
  }));
  const bySymbol = new Map<string, SpeciesRow>();
  const byName = new Map<string, SpeciesRow[]>();
  for (const row of rows) {
    if (!bySymbol.has(row.symbol.toLowerCase())) bySymbol.set(row.symbol.toLowerCase(), row);
    for (const name of new Set([row.number, row.common.toLowerCase(), row.scientific.toLowerCase()])) {
      const same = byName.get(name);
      if (same) same.push(row);
      else byName.set(name, [row]);
    }
  }
  built = { bySymbol, byName, rows };
  return built;
}
