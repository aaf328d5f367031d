// What the log, the replay and the report say of an entry, in words.
import { expect, describe as group, it, test } from 'vitest';
import { describe, fold, hazardLabel, saplingLabel, stemLabel, withUnit } from '../../src/stand/index.ts';
import { device, pen, uuid } from './entries.ts';
import { closing, other, patch, sapling, stem, work, written } from './group-story.ts';

/** One sentence per entry, with the labels that things carry at the end. */
function told(...lines: Parameters<typeof written>): string[] {
  const { happenings, stand } = fold(written(...lines));
  return happenings.map(({ event }) => describe(event, stand));
}

test('the story of a group can be read from its entries', () => {
  expect(told(...work, closing)).toEqual([
    'group G1',
    'A12 marked to be cut',
    'L3 marked to stay, seed',
    's1 protected',
    'patch p1 protected',
    'hazard: hanging limb, at A12, in G1',
    'A12 felled, hung up in L3, lay not measured',
    'A12 brought down',
    'hazard cleared: hanging limb at A12',
    's1 unharmed',
    'p1 unharmed',
    'opening of G1 closed',
  ]);
});

test('measures are told with the unit that they have', () => {
  const species = { text: 'QUCO2', list: 'us', code: 'QUCO2' };
  expect(
    told(
      [
        'stem-marked',
        { stem, mark: 'cut', tag: 'A12', species, dbh: { text: '14.2', value: '14.2', unit: 'in' } },
      ],
      ['stem-measured', { stem, height: { text: '74 ft', value: '74', unit: 'ft' } }],
      ['decay-measured', { stem, found: 'none' }],
      ['decay-measured', { stem, found: 'rot', shell: { text: '4 in', value: '4', unit: 'in' } }],
    ),
  ).toEqual([
    'A12 marked to be cut, scarlet oak, DBH 14.2 in',
    'A12 measured again, height 74 ft',
    'stump of A12: looked, no decay',
    'stump of A12: rot, shell 4 in',
  ]);
  expect(withUnit({ text: '14', value: '14', unit: 'cm' })).toBe('14 cm');
  expect(withUnit({ text: '6 ft 3 in', value: '75', unit: 'in' })).toBe('6 ft 3 in');
});

test('a stem that did harm is named', () => {
  expect(
    told(
      ['stem-marked', { stem, mark: 'cut', tag: 'A12' }],
      ['sapling-protected', { sapling, label: 's1' }],
      ['sapling-checked', { sapling, condition: 'not-found', byStem: stem, note: 'under the top' }],
      ['damage-noted', { damage: patch, to: 'soil', byStem: stem, what: 'rut' }],
    ).slice(2),
  ).toEqual(['s1 not found, by A12, under the top', 'damage to soil, by A12, rut']);
});

test('a tag is told as it was then, and with the one that the stem has now', () => {
  expect(
    told(
      ['stem-marked', { stem, mark: 'cut', tag: 'P2' }],
      ['tag-replaced', { stem, tag: 'Q2' }],
      ['tag-lost', { stem, note: 'nail only' }],
      ['stem-marked', { stem: other, mark: 'leave' }],
      ['tag-replaced', { stem: other, tag: 'L9' }],
    ),
  ).toEqual([
    'P2 (now Q2) marked to be cut',
    'tag of P2 replaced by Q2',
    'tag of Q2 lost, nail only',
    'L9 marked to stay',
    'tag L9 put on',
  ]);
});

test('a hazard is told with its group and how far to keep away, and damage with the sapling', () => {
  const radius = { text: '150 ft', value: '150', unit: 'ft' };
  expect(
    told(
      ['group-laid-out', { group: uuid(0x53_0001), label: 'G1' }],
      ['hazard-noted', { hazard: uuid(9), what: 'insects', group: uuid(0x53_0001), radius, note: 'wasps' }],
      ['hazard-cleared', { hazard: uuid(9) }],
      ['sapling-protected', { sapling, label: 's1' }],
      ['damage-noted', { damage: uuid(8), to: 'sapling', sapling }],
    ).filter((sentence) => /hazard|damage/.test(sentence)),
  ).toEqual([
    'hazard: insects, in G1, keep away 150 ft, wasps',
    'hazard cleared: insects, keep away 150 ft, in G1, wasps',
    'damage to s1',
  ]);
});

test.each([
  ['-300 s', '-300', 'clock of a device found 300 s behind'],
  ['5 min', '5', 'clock of a device found 5 min ahead'],
])('a clock that is %s ahead', (text, value, sentence) => {
  const unit = text.split(' ')[1] ?? '';
  expect(told(['clock-offset-noted', { device: device.a, ahead: { text, value, unit } }])).toEqual([
    sentence,
  ]);
});

test('a correction names what it corrects by its number in the log', () => {
  const { stand } = fold([]);
  const struck = { type: 'entry-struck', body: { strikes: uuid(17), reason: 'twice' } } as const;
  const amended = {
    type: 'entry-amended',
    body: {
      replaces: uuid(18),
      type: 'note-written',
      v: 1,
      body: { text: 'rain' },
      happenedAt: { at: '2026-03-02T09:00:00Z', precision: 'minute' },
      reason: 'misheard',
    },
  } as const;
  const numbers = (id: string) => (id === uuid(17) ? 17 : undefined);
  expect(describe(struck, stand, new Map(), numbers)).toBe('entry 17 struck, twice');
  expect(describe(amended, stand, new Map(), numbers)).toBe(
    'an entry that is not here yet amended, misheard',
  );
  expect(describe(struck, stand)).toBe('an entry struck, twice');
});

group('a person', () => {
  const name = 'a'.repeat(64);
  const write = pen();
  const naming = write('person-named', { person: other, name, part: 'feller' });
  const { happenings, stand } = fold([naming]);
  const event = happenings[0]?.event;

  it('is named while the name is there', () => {
    expect(event && describe(event, stand, new Map([[name, 'Ann Weaver']]))).toBe('named Ann Weaver, feller');
  });

  it('is somebody where the name is not here', () => {
    expect(event && describe(event, stand)).toBe('named somebody (name not here), feller');
  });

  it('is said to be erased only once that was recorded', () => {
    const after = fold([naming, write('personal-data-erased', { person: other, reason: 'asked for' })]);
    expect(event && describe(event, after.stand)).toBe('named somebody (name erased), feller');
  });
});

test('what has no label is told apart by the end of its id, and what is unknown is called so', () => {
  const { stand } = fold(written(['stem-marked', { stem, mark: 'cut' }], ['sapling-protected', { sapling }]));
  expect(stemLabel(stand.stems.get(stem))).toBe(`an untagged stem (${stem.slice(-6)})`);
  expect(saplingLabel(stand.saplings.get(sapling))).toBe(`an unlabelled sapling (${sapling.slice(-6)})`);
  expect(stemLabel(undefined)).toBe('an unknown stem');
  const lost = fold(written(['stem-marked', { stem, mark: 'cut', tag: 'A12' }], ['tag-lost', { stem }]));
  expect(stemLabel(lost.stand.stems.get(stem))).toBe('A12 (tag lost)');
  const hazards = fold(written(['hazard-cleared', { hazard: uuid(9) }])).stand;
  const unknown = hazards.hazards.get(uuid(9));
  expect(unknown && hazardLabel(hazards, unknown)).toBe('other');
});
