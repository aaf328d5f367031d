// Figures on the terminal, on the invented demo woodlot. Values are held against published ones elsewhere; here it is
// that they are printed with what must be read beside them, and that nothing is printed for a question half asked.
import { describe, expect, it } from 'vitest';
import { demo } from './gapledger.ts';

describe('gapledger stand --by', () => {
  it.each(['class', 'species', 'group'])('%s adds up: before = removed + lost otherwise + left', (by) => {
    const lines = demo().done(['stand', '--by', by]).split('\n');
    const all = lines.find((line) => line.startsWith('All ')) ?? '';
    const [before, , removed, , lost, , left] = (all.match(/[\d.,]+/g) ?? []).map(Number);
    expect(before).toBeGreaterThan(0);
    expect(before).toBe((removed ?? 0) + (lost ?? 0) + (left ?? 0));
    expect(lines.join(' ')).toContain('no census');
  });

  it('is needed by the flags that belong to it', () => {
    const { code, error } = demo().run(['stand', '--floor', '5 in']);
    expect(code).toBe(2);
    expect(error).toContain('--floor "5 in": it belongs to the table of the stand; add --by');
  });
});

describe('gapledger figures', () => {
  it('prints what could not be computed, for how many, and why', () => {
    const out = demo().done(['figures', 'volume', '--rule', 'doyle', '--form-class', '78']);
    expect(out).toContain('Volume of standing trees by Doyle');
    expect(out).toContain('no merchantable height (');
    expect(out).toContain('Gross: decay and other defects are not taken off.');
  });

  it('gives no verdict on a group, and says that groups were not chosen at random', () => {
    const out = demo().done(['figures', 'decay', '--group', 'G1']);
    expect(out).toContain('The groups were not chosen at random');
    expect(out).toContain('Stumps that nobody examined say nothing');
  });

  it('gives the same to programs, with the entries behind each figure', () => {
    const json = demo().json<{ figures: { total: { cells: { left: { stems: object } } } } }>([
      'figures',
      'stand',
      '--units',
      'metric',
    ]);
    expect(json.figures.total.cells.left.stems).toMatchObject({ unit: 'stems', method: 'count' });
  });

  it.each([
    [['figures', 'biomass'], 'there are stand, volume, value, decay'],
    [['figures', 'volume'], '--rule: write one of doyle'],
    [['figures', 'volume', 'A1', '--rule', 'doyle'], 'only butt is about one stem'],
    [['figures', 'butt', 'A99', '--rule', 'doyle'], '--stem "A99"'],
    [['figures', 'decay', '--group', 'G9'], '--group "G9"'],
  ])('%j is refused and says what to write', (words, sentence) => {
    const { code, error } = demo().run(words);
    expect(code).toBe(2);
    expect(error).toContain(sentence);
  });
});
