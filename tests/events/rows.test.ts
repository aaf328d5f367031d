// Small tables within an entry, such as the trees of a plot: typed as text, as JSON or as objects, they are the same.
import { describe, expect, it } from 'vitest';
import { type EventType, kinds, typeBody } from '../../src/events/index.ts';
import { made, typingIn } from './typing.ts';

const typing = typingIn('us', { find: () => ({ ok: true, value: made }) });
const oak = { text: 'white oak', list: 'us', code: 'QUAL' };
const inches = (text: string) => ({ text, value: text.replace(' in', ''), unit: 'in' });

function typed(type: EventType, change: Readonly<Record<string, unknown>>) {
  return typeBody(kinds[type], { ...kinds[type].example, ...change }, typing);
}

function treesOf(trees: unknown): unknown {
  const answer = typed('plot-tallied', { trees });
  if (!answer.ok) throw new Error(JSON.stringify(answer.problems));
  return answer.body.trees;
}

function remedyOf(type: EventType, change: Readonly<Record<string, unknown>>): string | undefined {
  const answer = typed(type, change);
  return answer.ok ? undefined : answer.problems.map(({ field, remedy }) => `${field}: ${remedy}`).join('\n');
}

describe('rows of a table', () => {
  const two = [
    { species: oak, dbh: inches('14.2 in') },
    { dbh: inches('12'), is: 'borderline', distance: { text: '33.4 ft', value: '33.4', unit: 'ft' } },
  ];

  it('are read in the order of the columns, with empty places left out', () => {
    expect(treesOf('white oak, 14.2 in; , 12, borderline, 33.4 ft')).toEqual(two);
  });

  it('are read by the names of columns, as stored or as flags have them', () => {
    expect(treesOf('dbh=14.2 in, species=white oak; dbh=12, is=borderline, distance=33.4 ft')).toEqual(two);
    expect(treesOf('white oak, 14 in, distance-to=face')).toEqual(treesOf('white oak,14 in,distanceTo=face'));
  });

  it('are read from JSON, from objects of texts, and from what is stored already', () => {
    const texts = [
      { species: 'white oak', dbh: '14.2 in' },
      { dbh: '12', is: 'borderline', distance: '33.4 ft' },
    ];
    expect(treesOf(JSON.stringify(texts))).toEqual(two);
    expect(treesOf(texts)).toEqual(two);
    expect(treesOf(two)).toEqual(two);
    expect(treesOf(JSON.stringify(texts[0]))).toEqual(two.slice(0, 1));
  });

  it('are read from a flag given several times, each with one row or several', () => {
    expect(treesOf(['white oak, 14.2 in', ', 12, borderline, 33.4 ft'])).toEqual(two);
    expect(treesOf(['white oak, 14.2 in; , 12, borderline, 33.4 ft'])).toEqual(two);
  });

  it('keep numbers, yes and no, and plain text as their columns have them', () => {
    const counts = [{ species: 'white oak', heightClass: 'under 1 ft', count: 6 }];
    expect(typed('regeneration-counted', { counts })).toMatchObject({
      body: { counts: [{ species: oak, heightClass: 'under 1 ft', count: 6 }] },
    });
    expect(treesOf([{ dbh: '9 in', dead: true }])).toEqual([{ dbh: inches('9 in'), dead: true }]);
    expect(typed('prices-set', { rows: 'white oak, sawlog, , -12.50' })).toMatchObject({
      body: { rows: [{ species: oak, product: 'sawlog', price: '-12.50' }] },
    });
  });

  it('that cannot be read name the row, the column, the value and the remedy', () => {
    expect(remedyOf('plot-tallied', { trees: 'white oak, 14 in; red maple, 12 hands' })).toBe(
      'trees: row 2, dbh "12 hands": "hands" is no unit here; use one of in, ft, us-ft, yd, ch, mm, cm, m',
    );
    expect(remedyOf('regeneration-counted', { counts: 'white oak, under 1 ft' })).toBe(
      'counts: row 1, count: is needed. How many.',
    );
    expect(remedyOf('regeneration-counted', { counts: 'white oak, under 1 ft, 6, 7' })).toBe(
      'counts: row 1, "7" is one value too many; give species (needed), heightClass (needed), count (needed)',
    );
    expect(remedyOf('plot-tallied', { trees: 'hight=60 ft' })).toBe(
      'trees: row 1, there is no "hight"; did you mean height?',
    );
    expect(remedyOf('plot-tallied', { trees: [{ girth: '60 in' }] })).toMatch(
      /^trees: row 1, there is no "girth"/,
    );
    expect(remedyOf('plot-tallied', { trees: '14 in, dbh=15 in, dbh=16 in' })).toContain('given twice');
    expect(remedyOf('plot-tallied', { trees: [7] })).toMatch(/^trees: row 1, give species, dbh/);
  });

  it('with a species that is not certain have the candidates in the words', () => {
    expect(remedyOf('prices-set', { rows: 'red oak, sawlog, F1, 450' })).toMatch(
      /row 1, species "red oak": .*QURU northern red oak/,
    );
  });

  it('that are broken JSON are refused, not taken in part', () => {
    expect(typed('plot-tallied', { trees: '[{"dbh":"14 in"}' }).ok).toBe(false);
  });

  it('with a price that is no decimal number are refused with the place', () => {
    expect(remedyOf('prices-set', { rows: 'white oak, sawlog, F1, 450 USD' })).toBe(
      'rows.0.price: a decimal number such as 14.0',
    );
  });
});

describe('several values of a field', () => {
  it('may stand in one text after a flag that takes several', () => {
    const marked = (seams: unknown) => typed('stem-marked', { seams });
    const one = marked(['10 mag; 190 mag']);
    expect(one.ok).toBe(true);
    expect(one).toEqual(marked('10 mag; 190 mag'));
    expect(one).toEqual(marked(['10 mag', '190 mag']));
  });
});
