// Species by symbol, inventory number and name, held against the open table of the US forest inventory
// (USDA Forest Service, FIADB table REF_SPECIES, public domain; a copy in fixtures/species).
import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { readSpecies, speciesName } from '../../src/events/index.ts';

type Row = Readonly<Record<'SPCD' | 'COMMON_NAME' | 'SCIENTIFIC_NAME' | 'SPECIES_SYMBOL', string>>;
const file = new URL('../../fixtures/species/fia_ref_species.csv', import.meta.url);
const published = parse<Row>(readFileSync(file), { columns: true });

function code(text: string): string | undefined {
  const reading = readSpecies(text);
  return reading.ok ? `${reading.value.list}:${reading.value.code}` : undefined;
}

function candidates(text: string): string[] {
  const reading = readSpecies(text);
  return reading.ok ? [] : reading.candidates.map(({ symbol }) => symbol);
}

describe('the shipped list', () => {
  it('knows every row of the published table by symbol, inventory number and scientific name', () => {
    expect(published.length).toBeGreaterThan(2600);
    const lost = published.filter((row) =>
      [row.SPECIES_SYMBOL, row.SPCD, row.SCIENTIFIC_NAME].some(
        (text) => code(text) !== `us:${row.SPECIES_SYMBOL}`,
      ),
    );
    expect(lost.map(({ SPECIES_SYMBOL }) => SPECIES_SYMBOL)).toEqual([]);
  });

  it('takes a common name that is one species, and asks back one that several species share', () => {
    const byName = new Map<string, string[]>();
    for (const { COMMON_NAME, SPECIES_SYMBOL } of published) {
      const name = COMMON_NAME.trim().toLowerCase();
      byName.set(name, [...(byName.get(name) ?? []), SPECIES_SYMBOL]);
    }
    const shared = [...byName].filter(([, symbols]) => symbols.length > 1);
    expect(shared.length).toBeGreaterThan(50);
    for (const [name, symbols] of shared) expect(candidates(name).sort(), name).toEqual(symbols.sort());
    const single = [...byName].filter(([, symbols]) => symbols.length === 1);
    const scientific = new Set(published.map((row) => row.SCIENTIFIC_NAME.toLowerCase()));
    const lost = single.filter(([name, [symbol]]) => !scientific.has(name) && code(name) !== `us:${symbol}`);
    expect(lost).toEqual([]);
  });

  it('takes a full scientific name for that species, though a variety has it for its common name', () => {
    expect(code('Prunus serotina')).toBe('us:PRSE2');
    expect(code('black cherry')).toBe('us:PRSE2');
  });

  it('takes a symbol in capitals, though several species have it for their common name', () => {
    expect(code('SENNA')).toBe('us:SENNA');
    expect(candidates('senna').sort()).toEqual(['SENNA', 'SESE13']);
  });

  // Rows of that table.
  it.each([
    ['QUAL', 'white oak'],
    ['802', 'white oak'],
    ['Quercus alba', 'white oak'],
    ['White Oak', 'white oak'],
    [' quco2 ', 'scarlet oak'],
    ['316', 'red maple'],
  ])('%s is %s', (text, name) => {
    const reading = readSpecies(text);
    expect(reading.ok && speciesName(reading.value)).toBe(name);
    expect(reading.ok && reading.value.text).toBe(text.trim());
  });
});

describe('what is no species of the list', () => {
  it('comes back with the species that it could be', () => {
    expect(candidates('hickory')).toEqual(expect.arrayContaining(['CAGL8']));
    expect(candidates('hickory').length).toBeLessThanOrEqual(12);
    expect(candidates('red oak')).toEqual(expect.arrayContaining(['QURU', 'QUFA']));
    expect(candidates('quercus')).toContain('QUAL');
    expect(candidates('wite oak')).toEqual(['QUAL']);
    expect(readSpecies('yellowwood')).toMatchObject({
      ok: false,
      remedy: '"yellowwood" fits several species; give the symbol',
    });
  });

  it.each(['zzzzzzzzzz', '99999', '', 'x'])('is refused with what may be given: "%s"', (text) => {
    expect(readSpecies(text)).toMatchObject({ ok: false, candidates: [] });
  });
});

it('a code of another list is taken as it is, with its list', () => {
  const reading = readSpecies('de-bwi:Ei');
  expect(reading).toEqual({ ok: true, value: { text: 'de-bwi:Ei', list: 'de-bwi', code: 'Ei' } });
  expect(reading.ok && speciesName(reading.value)).toBe('Ei (de-bwi)');
});
