// A small invented logbook for the tests of the report: two groups, a hang-up, an open hazard, damage, decay
// found, looked for and not looked for, saplings in every condition, a correction, a strike, a late entry.
import { readSpecies } from '../../src/events/index.ts';
import type { HarvestOptions } from '../../src/reports/index.ts';
import { fold, type LogEntry } from '../../src/stand/index.ts';
import { device, pen, uuid } from '../stand/entries.ts';

export const id = {
  owner: uuid(0xc0_0001),
  helper: uuid(0xc0_0002),
  block: uuid(0xd0_0001),
  stake: uuid(0xd0_0002),
  group: uuid(0xd0_0003),
  second: uuid(0xd0_0004),
  stem: (number: number) => uuid(0xe0_0000 + number),
  sapling: (number: number) => uuid(0xe1_0000 + number),
  patch: uuid(0xe2_0001),
  hazard: (number: number) => uuid(0xe3_0000 + number),
  damage: uuid(0xe4_0001),
};
export const nameHash = { owner: 'a'.repeat(64), helper: 'b'.repeat(64) };
export const root = '0f1e2d3c4b5a69788796a5b4c3d2e1f00112233445566778899aabbccddeeff0';

const quantity = (text: string, unit: string) => ({ text, value: text.replace(/[^-\d.].*$/, ''), unit });
const inches = (text: string) => quantity(text, 'in');
const feet = (text: string) => quantity(text, 'ft');
const species = (text: string) => ok(readSpecies(text));
const magnetic = (text: string) => ({ text, value: text.replace(/ .*$/, ''), reference: 'mag' });
const fromStake = (azimuth: string, distance: string) => ({
  how: 'offset',
  from: { stake: id.stake },
  azimuth: magnetic(azimuth),
  distance: feet(distance),
});

function ok<T>(reading: { ok: true; value: T } | { ok: false }): T {
  if (!reading.ok) throw new Error('a test reads something that events does not');
  return reading.value;
}

/** What the tests write in place of the invented names and texts, to see that it is escaped. */
export type Words = Partial<Readonly<{ property: string; note: string; tag: string; owner: string }>>;

export function woods(words: Words = {}): LogEntry[] {
  const write = pen();
  const day = (at: string) => ({ happenedAt: { at: `${at}T00:00:00-05:00`, precision: 'day' as const } });
  const { property = 'Laurel Run woods', note = 'wind rising, stopped at noon', tag = 'A1' } = words;
  return [
    write('logbook-opened', {
      name: property,
      zone: 'America/New_York',
      units: 'us',
      crs: 'EPSG:2264',
      breastHeight: feet('4.5 ft'),
      declination: quantity('-7.9 deg', 'deg'),
    }), // 1
    write('person-named', { person: id.owner, name: nameHash.owner, part: 'owner' }),
    write('person-named', { person: id.helper, name: nameHash.helper, part: 'helper' }),
    write('block-laid-out', { block: id.block, name: 'Lower bench', area: quantity('9.5 ac', 'ac') }),
    write('prescription-set', {
      block: id.block,
      objective: 'Release white oak saplings',
      largestOpening: quantity('0.5 ac', 'ac'),
      favour: [species('white oak')],
      source: 'plan of 2026, version 1',
    }), // 5
    write('prescription-set', {
      block: id.block,
      objective: 'Release white oak and hickory saplings',
      residualBasalArea: quantity('70 ft2/ac', 'ft2/ac'),
      source: 'plan of 2026, version 2',
    }),
    write('stake-set', {
      stake: id.stake,
      label: 'A',
      position: { how: 'fix', lat: '35.71210', lon: '-81.68340' },
    }),
    write('group-laid-out', {
      group: id.group,
      label: 'G1',
      block: id.block,
      reason: 'declining scarlet oak over white oak saplings',
      plannedArea: quantity('0.25 ac', 'ac'),
    }),
    write('stem-marked', {
      stem: id.stem(1),
      mark: 'cut',
      tag,
      species: species('scarlet oak'),
      dbh: inches('14.2 in'),
      group: id.group,
      markAtEye: true,
      markOnStump: true,
      position: fromStake('10 mag', '40 ft'),
    }),
    write('stem-marked', {
      stem: id.stem(2),
      mark: 'cut',
      tag: 'A2',
      species: species('scarlet oak'),
      dbh: inches('18 in'),
      group: id.group,
      position: fromStake('130 mag', '45 ft'),
    }), // 10
    write('stem-marked', {
      stem: id.stem(3),
      mark: 'cut',
      tag: 'A3',
      species: species('red maple'),
      group: id.group,
      position: fromStake('250 mag', '50 ft'),
    }),
    write('stem-marked', {
      stem: id.stem(4),
      mark: 'leave',
      tag: 'L1',
      species: species('white oak'),
      dbh: inches('20.5 in'),
      purpose: 'seed',
      group: id.group,
    }),
    write('sapling-protected', {
      sapling: id.sapling(1),
      label: 's1',
      species: species('white oak'),
      height: feet('6 ft'),
      group: id.group,
    }),
    write('sapling-protected', { sapling: id.sapling(2), label: 's2', group: id.group }),
    write('sapling-protected', { sapling: id.sapling(3), label: 's3', group: id.group }), // 15
    write('patch-protected', {
      patch: id.patch,
      label: 'p1',
      group: id.group,
      area: quantity('300 ft2', 'ft2'),
    }),
    write('hazard-noted', {
      hazard: id.hazard(1),
      what: 'hanging-limb',
      stem: id.stem(1),
      group: id.group,
      radius: feet('150 ft'),
    }),
    write('stem-felled', {
      stem: id.stem(1),
      came: 'down',
      lay: magnetic('40 mag'),
      layLength: feet('68 ft'),
    }),
    write('hazard-cleared', { hazard: id.hazard(1), how: 'limb came down with the stem' }),
    write('stem-felled', { stem: id.stem(2), came: 'down', differed: 'turned left on the hinge' }), // 20
    write('stem-felled', { stem: id.stem(3), came: 'hung-up', hungOn: id.stem(4) }),
    write('hazard-noted', { hazard: id.hazard(2), what: 'hung-up-stem', stem: id.stem(3), group: id.group }),
    write('decay-measured', {
      stem: id.stem(1),
      found: 'rot',
      upTheButt: feet('3.5 ft'),
      diameter: inches('6 in'),
      shell: inches('4 in'),
    }),
    write('damage-noted', {
      damage: id.damage,
      to: 'leave-tree',
      stem: id.stem(4),
      part: 'bole',
      woundArea: quantity('60 in2', 'in2'),
      byStem: id.stem(2),
    }),
    write('sapling-checked', { sapling: id.sapling(1), condition: 'unharmed' }), // 25
    write('sapling-checked', { sapling: id.sapling(2), condition: 'broken', byStem: id.stem(2) }),
    write('entry-amended', {
      replaces: uuid(10),
      type: 'stem-marked',
      v: 1,
      body: {
        stem: id.stem(2),
        mark: 'cut',
        tag: 'A2',
        species: species('scarlet oak'),
        dbh: inches('16 in'),
        group: id.group,
        position: fromStake('130 mag', '45 ft'),
      },
      happenedAt: { at: '2026-03-02T14:10:00Z', precision: 'minute' },
      reason: 'tape read at the wrong hook',
    }),
    write('note-written', { text: 'recorded by mistake' }),
    write('entry-struck', { strikes: uuid(28), reason: 'belongs to another property' }),
    write(
      'stem-found-down',
      { stem: id.stem(9), cause: 'uprooted', tag: 'U1', group: id.group },
      day('2026-02-27'),
    ), // 30
    write('opening-closed', { group: id.group, slash: 'lopped' }),
    write('note-written', { text: note, group: id.group }),
    write('group-laid-out', { group: id.second, label: 'G2', block: id.block }, { device: device.b, seq: 1 }),
    write('photo-taken', {
      photo: 'c'.repeat(64),
      mediaType: 'image/jpeg',
      of: 'stump of A1',
      stem: id.stem(1),
    }),
  ];
}

export function positionsOf(entries: readonly LogEntry[]): Map<string, number> {
  return new Map(entries.map((entry, index) => [entry.id, index + 1]));
}

/** The folded log and what the report asks for besides. */
export function asked(
  words: Words = {},
  options: Partial<HarvestOptions> = {},
  more: readonly LogEntry[] = [],
) {
  const entries = [...woods(words), ...more];
  const { owner = 'Ida Fenn' } = words;
  return {
    folded: fold(entries),
    options: {
      head: { size: entries.length, root },
      madeAt: '2026-03-03T12:00:00Z',
      program: 'gapledger 0.1.0',
      names: new Map([
        [nameHash.owner, owner],
        [nameHash.helper, 'Sam Rowe'],
      ]),
      positions: positionsOf(entries),
      ...options,
    } satisfies HarvestOptions,
  };
}
