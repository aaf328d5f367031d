// The model of the harvest report, on a small invented log: what it says, what it refuses to say, and that
// every figure names its entries.
import canonicalize from 'canonicalize';
import { describe, expect, test } from 'vitest';
import { type Fact, type HarvestReport, harvestReport } from '../../src/reports/index.ts';
import { fold } from '../../src/stand/index.ts';
import { device, pen, uuid } from '../stand/entries.ts';
import { asked, id, nameHash, positionsOf, root, woods } from './woods.ts';

const { folded, options } = asked();
const report = harvestReport(folded, options);
const g1 = groupOf(report, 'G1');

function groupOf(from: HarvestReport, label: string) {
  const found = from.groups.find((group) => group.label === label);
  if (found === undefined) throw new Error(`no group ${label} in the report`);
  return found;
}
const counted = (rows: readonly { what: string; count: number }[]) =>
  Object.fromEntries(rows.map(({ what, count }) => [what, count]));
const stem = (label: string) => g1.stems.find((row) => row.label === label);
const termOf = (terms: readonly { term: string; fact: Fact }[], name: string) =>
  terms.find(({ term }) => term === name)?.fact;
const unnumbered = { entries: [], known: true };

describe('what was marked, felled, left and found', () => {
  test('a hung-up stem is felled but not down, and a leave tree is no cut tree', () => {
    expect(counted(g1.tally)).toMatchObject({
      'marked to be cut': 3,
      'marked to be cut, still standing': 0,
      'felled and down': 2,
      'felled, still hung up': 1,
      'marked to stay (leave trees)': 1,
      'leave trees standing': 1,
      'found down, felled by nobody': 1,
    });
  });

  test('a diameter is printed as it was entered, and one that nobody took is "not recorded"', () => {
    expect(stem('L1')?.dbh).toEqual({ ...unnumbered, text: '20.5 in' });
    expect(stem('A3')?.dbh).toEqual({ text: 'not recorded', known: false, entries: [] });
  });

  test('a lay that nobody measured is "not measured", never the azimuth aimed at', () => {
    expect(stem('A1')?.lay.text).toBe('40 mag, 68 ft long');
    expect(stem('A2')?.lay).toMatchObject({ text: 'not measured', known: false });
    expect(stem('L1')?.lay.text).toBe('not felled');
  });

  test('what went otherwise than meant stands beside the felling', () => {
    expect(stem('A2')?.happened.text).toBe('felled 2026-03-02 09:20, turned left on the hinge');
  });

  test('a hung-up stem names the tree that holds it and is not called down', () => {
    expect(stem('A3')?.happened.text).toBe('felled 2026-03-02 09:21, hung up in L1, not recorded as down');
    expect(g1.warnings[0]).toMatchObject({ entries: [21] });
  });

  test('a figure that was amended names the entry and its amendment', () => {
    expect(stem('A2')?.dbh.text).toBe('16 in');
    expect(stem('A2')?.entries).toEqual([10, 20, 27]);
  });

  test('a stem of no group is not lost', () => {
    const write = pen('2026-03-02T11:00:00-05:00');
    const lone = write('stem-felled', { stem: uuid(0xe0_0042), came: 'down', tag: 'Z1' }, { id: uuid(900) });
    const more = asked({}, {}, [lone]);
    const withLone = harvestReport(more.folded, more.options);
    const loose = groupOf(withLone, 'Outside any group');
    expect(loose.stems.map(({ label }) => label)).toEqual(['Z1']);
    expect(counted(loose.tally)['felled without a mark']).toBe(1);
    expect(withLone.record.elsewhere.map(({ code }) => code)).toContain('felled-without-mark');
  });
});

describe('decay', () => {
  test('only stumps that were looked at say anything', () => {
    expect(g1.decay.map(({ text }) => text)).toEqual([
      '1 of 3 stumps examined; decay found in 1: rot in A1.',
      '2 stumps were not examined and say nothing about decay.',
    ]);
    expect(stem('A1')?.decay.text).toBe('rot, 3.5 ft up the butt, 6 in across, shell 4 in');
    expect(stem('A2')?.decay).toMatchObject({ text: 'not examined', known: false });
  });

  test('with no stump examined there is not enough data for any figure', () => {
    const before = harvestReport(folded, { ...options, group: id.second });
    expect(before.groups[0]?.decay[0]?.text).toMatch(/^not enough data/);
  });
});

describe('saplings and patches', () => {
  test('not checked is neither unharmed nor harmed', () => {
    expect(counted(g1.kept.summary)).toEqual({
      'saplings protected': 3,
      'patches protected': 1,
      'checked after felling': 2,
      'unharmed when last checked': 1,
      'harmed when last checked (bent, broken or crushed)': 1,
      'not found when last checked (not the same as dead)': 0,
      'not checked': 2,
    });
  });

  test('a broken sapling names the stem that did it', () => {
    const row = g1.kept.rows.find(({ label }) => label === 's2');
    expect(row?.checks).toEqual([{ text: 'broken, by A2, 2026-03-02 09:26', known: true, entries: [26] }]);
  });
});

describe('hazards and damage', () => {
  test('open hazards come first; a cleared one says how', () => {
    expect(g1.hazards.map(({ state, what }) => [state, what])).toEqual([
      ['open', 'hung-up stem'],
      ['cleared', 'hanging limb'],
    ]);
    expect(g1.hazards[1]?.cleared.text).toBe('2026-03-02 09:19, limb came down with the stem');
  });

  test('a wound is printed with its size and the stem that made it; its height was not measured', () => {
    expect(g1.damage.rows[0]).toMatchObject({
      to: 'leave tree L1',
      woundArea: { text: '60 in2' },
      woundHeight: { text: 'not measured', known: false },
      by: { text: 'A2' },
      entries: [24],
    });
  });
});

describe('block, prescription and scope', () => {
  const block = report.blocks[0];

  test('the later prescription is in force, and its entry is named', () => {
    expect(block?.prescription.inForce).toMatchObject({ entries: [6] });
    expect(block?.prescription.inForce.text).toMatch(/^plan of 2026, version 2/);
    expect(termOf(block?.prescription.facts ?? [], 'Largest opening')?.text).toBe('not recorded');
  });

  test('without a tally scope a group is no census of its block', () => {
    expect(block?.scope).toMatchObject({ known: false });
    expect(block?.scope.text).toMatch(/no census of the block/);
  });

  test('a complete tally names its floor and its entry', () => {
    const write = pen('2026-03-02T11:00:00-05:00');
    const scope = write(
      'tally-scope-set',
      { block: id.block, coverage: 'complete', floor: { text: '5 in', value: '5', unit: 'in' } },
      { id: uuid(901) },
    );
    const more = asked({}, {}, [scope]);
    const said = harvestReport(more.folded, more.options).blocks[0]?.scope;
    expect(said).toMatchObject({ known: true, entries: [35] });
    expect(said?.text).toMatch(/complete \(DBH from 5 in, area not recorded\)/);
  });

  test('an opening whose edge was not walked is measured by the hull of its stumps, and says so', () => {
    expect(termOf(g1.opening, 'Area as cut')?.text).toMatch(
      /by the hull of stumps, give or take \d+ % \(two standard errors\)$/,
    );
    expect(termOf(groupOf(report, 'G2').opening, 'Area as cut so far')?.text).toMatch(/^not enough data/);
  });

  // Three stumps at 40 ft/10°, 45 ft/130° and 50 ft/250° of one stake: plane trigonometry,
  // half the sum of a·b·sin 120° = 2620 ft² = 0.0601 ac = 243.4 m².
  test('the hull of three stumps has the area of their triangle', () => {
    const text = termOf(g1.opening, 'Area as cut')?.text ?? '';
    const squareMetres = Number(/\((\d+) m²\)/.exec(text)?.[1]);
    const feet = 0.5 * Math.sin((120 * Math.PI) / 180) * (40 * 45 + 45 * 50 + 50 * 40);
    expect(Math.abs(squareMetres / (feet * 0.3048 ** 2) - 1)).toBeLessThan(0.005);
  });
});

describe('findings and corrections', () => {
  test('a stem left hung up at closing is an open finding with what to do', () => {
    const finding = g1.findings.find(({ code }) => code === 'hung-up-stem-left');
    expect(finding).toMatchObject({ state: 'open', entries: [21, 31] });
    expect(finding?.remedy).toMatch(/Keep everybody away/);
  });

  test('both versions of an amended entry are named, with what changed, why, who and when', () => {
    expect(report.record.corrections[0]).toEqual({
      kind: 'amended',
      corrects: 10,
      correction: 27,
      before: 'A2 marked to be cut, scarlet oak, DBH 18 in',
      after: 'A2 marked to be cut, scarlet oak, DBH 16 in',
      changes: ['DBH: 18 in → 16 in'],
      reason: 'tape read at the wrong hook',
      who: 'Ida Fenn',
      when: '2026-03-02 09:27',
      holds: 'holds',
    });
  });

  test('a struck entry stays readable in the report and its note is not shown as one in force', () => {
    expect(report.record.corrections[1]).toMatchObject({
      kind: 'struck',
      corrects: 28,
      correction: 29,
      before: 'recorded by mistake',
    });
    expect(report.record.notes.map(({ text }) => text).join()).not.toContain('recorded by mistake');
  });

  test('many findings of one code about the record are counted together with the first five', () => {
    const write = pen('2026-03-02T11:00:00-05:00');
    const lateNotes = Array.from({ length: 8 }, (_, index) =>
      write(
        'note-written',
        { text: `from the paper, line ${index}` },
        {
          id: uuid(0x1000 + index),
          happenedAt: { at: '2026-02-20T00:00:00-05:00', precision: 'day' },
          seq: 100 + index,
        },
      ),
    );
    const more = asked({}, {}, lateNotes);
    const late = harvestReport(more.folded, more.options).record.findings.find(
      ({ code }) => code === 'late-entry',
    );
    expect(late).toMatchObject({ count: 9 });
    expect(late?.first).toHaveLength(5);
  });

  test('what was written down on a later day is listed as late', () => {
    expect(report.record.late).toEqual([
      {
        entry: 30,
        what: 'U1 found down, uprooted',
        happened: '2026-02-27',
        recorded: '2026-03-02 09:30',
        who: 'Ida Fenn',
      },
    ]);
  });
});

describe('people', () => {
  test('who recorded how much', () => {
    expect(report.record.people[0]).toMatchObject({
      name: { text: 'Ida Fenn' },
      part: { text: 'owner' },
      recorded: 34,
    });
  });

  test('an erased name is "name erased", everywhere', () => {
    const write = pen('2026-03-02T11:00:00-05:00');
    const erasure = write(
      'personal-data-erased',
      { person: id.owner, reason: 'asked for by the person' },
      { id: uuid(902) },
    );
    const more = asked({}, { names: new Map([[nameHash.helper, 'Sam Rowe']]) }, [erasure]);
    const erased = harvestReport(more.folded, more.options);
    expect(erased.record.people.map(({ name }) => name.text)).toContain('name erased');
    expect(erased.record.corrections[0]?.who).toBe('name erased');
    expect(JSON.stringify(erased)).not.toContain('Ida Fenn');
  });
});

describe('the report as evidence', () => {
  test('the root is printed in sixteen groups of four digits, and the check takes the head as it is', () => {
    expect(report.evidence.rootInFours.split(' ')).toHaveLength(16);
    expect(report.evidence.rootInFours.replaceAll(' ', '')).toBe(root);
    expect(report.evidence.command).toBe(`gapledger verify --since 34:${root}`);
  });

  test('a head that is none is refused', () => {
    expect(() => harvestReport(folded, { ...options, head: { size: 3, root: 'x"} body{' } })).toThrow(
      RangeError,
    );
  });

  test('the same log gives the same canonical JSON, whatever order it came in', () => {
    const backwards = fold([...folded.entries.values()].reverse());
    expect(canonicalize(harvestReport(backwards, options))).toBe(canonicalize(report));
  });

  test('the model is plain JSON: nothing is lost by writing it', () => {
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
  });

  test('a report on one group shows that group alone, and the whole record', () => {
    const one = harvestReport(folded, { ...options, group: id.group });
    expect(one.groups.map(({ label }) => label)).toEqual(['G1']);
    expect(one.record.corrections).toHaveLength(2);
    expect(one.title).toBe('Harvest report: Laurel Run woods, G1');
  });

  test('a group that is not there is an error that says what to give', () => {
    expect(() => harvestReport(folded, { ...options, group: 'G1' })).toThrow(/give the id of a group/);
  });

  test('an entry that has no number yet is named by its id', () => {
    const write = pen('2026-03-02T11:00:00-05:00');
    const outbox = write(
      'hazard-noted',
      { hazard: id.hazard(7), what: 'dead-top', group: id.group },
      { id: uuid(903), device: device.b, seq: 2 },
    );
    const more = asked({}, { positions: positionsOf(woods()) }, [outbox]);
    const hazard = groupOf(harvestReport(more.folded, more.options), 'G1').hazards.find(
      ({ what }) => what === 'dead top',
    );
    expect(hazard?.entries).toEqual([uuid(903)]);
  });
});
