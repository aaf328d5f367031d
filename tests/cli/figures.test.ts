// Figures on the terminal, on the invented demo woodlot. Values are held against published ones elsewhere; here it is
// that they are printed with what must be read beside them, and that nothing is printed for a question half asked.
import { describe, expect, it } from 'vitest';
import { demoToRead, started } from './gapledger.ts';

describe('gapledger stand --by', () => {
  it.each(['class', 'species', 'group'])('%s adds up: before = removed + lost otherwise + left', (by) => {
    const lines = demoToRead().done(['stand', '--by', by]).split('\n');
    const all = lines.find((line) => line.startsWith('All ')) ?? '';
    const [before, , removed, , lost, , left] = (all.match(/[\d.,]+/g) ?? []).map(Number);
    expect(before).toBeGreaterThan(0);
    expect(before).toBe((removed ?? 0) + (lost ?? 0) + (left ?? 0));
    expect(lines.join(' ')).toContain('no census');
  });

  it('is needed by the flags that belong to it', () => {
    const { code, error } = demoToRead().run(['stand', '--floor', '5 in']);
    expect(code).toBe(2);
    expect(error).toContain('--floor "5 in": it belongs to the table of the stand; add --by');
  });
});

describe('gapledger figures', () => {
  it('prints what could not be computed, for how many, and why', () => {
    const out = demoToRead().done(['figures', 'volume', '--rule', 'doyle', '--form-class', '78']);
    expect(out).toContain('Volume of standing trees by Doyle');
    expect(out).toContain('no merchantable height (');
    expect(out).toContain('Gross: decay and other defects are not taken off.');
  });

  it('gives no verdict on a group, and says that groups were not chosen at random', () => {
    const out = demoToRead().done(['figures', 'decay', '--group', 'G1']);
    expect(out).toContain('The groups were not chosen at random');
    expect(out).toContain('Stumps that nobody examined say nothing');
  });

  it('scales a log as it is taped, part by part, and says what each defect takes and by which source', () => {
    const log = ['--small-end', '12 in', '--large-end', '16 in', '--length', '32 ft 4 in'];
    const out = demoToRead().done([
      'figures',
      'log',
      '--rule',
      'doyle',
      ...log,
      '--defects',
      'length 4 ft; sweep 5 in',
    ]);
    // Doyle table (tinytimbers.com): 12 in × 16 ft 64, 14 in × 16 ft 100. From memory: 4/32, and (5 − 2)/12.
    expect(out).toContain('A log by Doyle');
    expect(out).toContain('164 bf gross.');
    expect(out).toMatch(/Scaled as 2 logs, 32 ft in all/);
    expect(out).toMatch(/length 4 ft +21\n/);
    expect(out).toMatch(/sweep 5 in +41\n/);
    expect(out).toContain('Defects take 62 bf, 103 bf are left.');
    expect(out).toContain('Where two overlap, measure them as one.');
    expect(out).toContain('from memory: Grosenbaugh 1952');
  });

  it('scales solid wood in metres, and has no scale of a log that is too short', () => {
    const place = demoToRead();
    const metric = ['--small-end', '25', '--large-end', '29', '--length', '5', '--units', 'metric'];
    // Larsen, University of Missouri: Smalian 0.287848 m³.
    expect(place.done(['figures', 'log', '--rule', 'smalian', ...metric])).toContain('0.288 m³ gross.');
    const short = ['--small-end', '14 in', '--length', '7 ft'];
    expect(place.done(['figures', 'log', '--rule', 'doyle', ...short])).toContain(
      'Not enough data: a log of 7 ft is too short for 8 ft and 4 in of trim.',
    );
  });

  it('says what standing trees hold in cubic metres by the species of each, and for which there is nothing', () => {
    const out = demoToRead().done(['figures', 'volume', '--rule', 'cubic-metres', '--equation', 'honer']);
    expect(out).toContain('Volume of standing trees in cubic metres');
    expect(out).toContain("no coefficients of Honer's equation for scarlet oak");
  });

  it('gives the same to programs, with the entries behind each figure', () => {
    const json = demoToRead().json<{ figures: { total: { cells: { left: { stems: object } } } } }>([
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
    [['figures', 'log'], '--rule: write one of doyle, scribner, scribner-decimal-c'],
    [['figures', 'log', '--rule', 'dyle'], '--rule "dyle": write one of doyle'],
    [
      ['figures', 'log', '--rule', 'doyle', '--small-end', '0', '--length', '16'],
      '--small-end "0": write a diameter',
    ],
    [
      [
        'figures',
        'log',
        '--rule',
        'doyle',
        '--small-end',
        '14',
        '--length',
        '16',
        '--defects',
        'length 20 ft',
      ],
      '--defects "length 20 ft": it is longer than the log',
    ],
    [['figures', 'log', 'A1', '--rule', 'doyle'], 'only butt is about one stem'],
  ])('%j is refused and says what to write', (words, sentence) => {
    const { code, error } = started().run(words);
    expect(code).toBe(2);
    expect(error).toContain(sentence);
  });
});
