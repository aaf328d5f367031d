// Slips of typing: sizes no tree has, places far from the woods, times that are none.
import { describe, expect, it } from 'vitest';
import { readStand } from '../../src/record/index.ts';
import { asked } from './asking.ts';
import { emptyWoods, lastEntry, problemsOf, questionsOf, stemTagged, woods } from './woods.ts';

describe('sizes, places and times', () => {
  it('a DBH of 900 in is asked about with what was probably meant', async () => {
    const here = await woods();
    const { sentence } = await asked(here, 'size', 'stem-marked', { mark: 'cut', dbh: '900' });
    expect(sentence).toBe('A DBH of 900 in is more than 100 in. Did you mean 900 mm?');
    await here.record('stem-marked', { mark: 'cut', dbh: '900' }, { answers: ['anyway'] });
    expect((await lastEntry(here.log)).body.dbh).toEqual({ text: '900', value: '900', unit: 'in' });
  });

  it('a DBH of 142 in lacks its decimal point', async () => {
    const here = await woods();
    const { sentence } = await asked(here, 'size', 'stem-marked', { mark: 'cut', dbh: '142' });
    expect(sentence).toContain('142 cm');
  });

  it('a DBH of 142 in within a plot is asked about like that of a stem', async () => {
    const here = await woods();
    const fields = {
      plot: '1',
      method: 'angle-gauge',
      factor: '10 ft2/ac',
      trees: 'white oak, 14; white oak, 142',
    };
    const { sentence } = await asked(here, 'size', 'plot-tallied', fields);
    expect(sentence).toBe('A DBH of 142 in is more than 100 in. Did you mean 142 cm?');
  });

  it('an amendment is looked at like the entry that it replaces', async () => {
    const here = await woods();
    const { sentence } = await asked(here, 'size', 'entry-amended', {
      replaces: '5',
      reason: 'tape',
      dbh: '900',
    });
    expect(sentence).toContain('Did you mean 900 mm?');
    await asked(here, 'tag-in-use', 'entry-amended', { replaces: '5', reason: 'misread', tag: 'A13' });
  });

  it('latitude and longitude the wrong way round are far from the block', async () => {
    const here = await woods();
    const { sentence } = await asked(here, 'far-from-block', 'stem-marked', {
      mark: 'cut',
      group: 'G1',
      position: '36.7130, -81.6850',
    });
    expect(sentence).toContain('more than 300 m from North cove');
  });

  it.each([
    ['-81.6850, 35.7130', 'Did you mean "35.7130, -81.6850"? Then latitude and longitude were exchanged.'],
    ['35.7130, 81.6850', 'Did you mean "35.7130, -81.6850"? Then west and east were exchanged.'],
    ['35.42780, -81.41100', 'Did you mean "35.713000, -81.685000"? Then degrees and minutes were written'],
    ['35.6130, -81.6850', 'Check the order of the numbers, their unit and the zone.'],
  ])('%s is asked about with what was probably meant', async (position, expected) => {
    const here = await woods();
    const { sentence } = await asked(here, 'far-from-block', 'stem-marked', {
      mark: 'cut',
      group: 'G1',
      position,
    });
    expect(sentence).toContain(expected);
  });

  it('two distances leave two places: which one is asked, and the answer is written into the position', async () => {
    const here = await woods();
    await here.record('stake-set', { label: 'P', position: '35.7130, -81.6850' });
    await here.record('stake-set', { label: 'Q', position: '35.7130, -81.6848' });
    const marked = { mark: 'cut', tag: 'Z9', position: '12 m from stake P, 14 m from stake Q' };
    const [question] = questionsOf(await here.tryIt('stem-marked', marked));
    expect(question?.sentence).toContain('Two places fit');
    expect(question?.choices.map(({ answer }) => answer)).toEqual(['left', 'right', 'anyway']);
    expect(question?.choices[0]?.label).toMatch(/^to the left, at 35\.7130\d° N, 81\.6849\d° W$/);
    await here.record('stem-marked', marked, { answers: ['left'] });
    expect((await stemTagged(here.log, 'Z9'))?.position?.entered).toMatchObject({
      how: 'distances',
      side: 'left',
    });
    await here.record('stem-marked', { ...marked, tag: 'Z10', position: `${marked.position}, right` });
  });

  it('a place just outside the edge is no question', async () => {
    const here = await woods();
    await here.record('stem-marked', { mark: 'leave', group: 'G1', position: '35.7180, -81.6850' });
  });

  it('a time still to come is asked about', async () => {
    const here = await woods();
    const { sentence } = await asked(
      here,
      'date-in-future',
      'stem-marked',
      { mark: 'cut' },
      '2026-03-21 08:00',
    );
    expect(sentence).toContain('is still to come');
    await here.record('stem-marked', { mark: 'cut' }, { at: '2026-03-21 08:00', answers: ['anyway'] });
    expect((await readStand(here.log)).findings.map(({ code }) => code)).toContain('date-in-future');
  });

  // US summer time begins at 02:00 on the second Sunday of March and ends at 02:00 on the first Sunday of
  // November (15 U.S.C. § 260a): in 2026 on 8 March and 1 November.
  it('an hour that the clocks skipped comes back with the times around it', async () => {
    const here = await woods();
    const [problem] = problemsOf(
      await here.tryIt('stem-marked', { mark: 'cut' }, { at: '2026-03-08 02:30' }),
    );
    expect(problem?.field).toBe('at');
    const texts = problem?.choices?.map(({ text }) => text) ?? [];
    expect(texts.map((text) => Date.parse(text)).sort((a, b) => a - b)).toEqual([
      Date.parse('2026-03-08T01:30:00-05:00'),
      Date.parse('2026-03-08T03:30:00-04:00'),
    ]);
  });

  it('an hour that came twice comes back with both', async () => {
    const here = await woods();
    here.setClock('2026-11-20T10:00:00-05:00');
    const [problem] = problemsOf(
      await here.tryIt('stem-marked', { mark: 'cut' }, { at: '2026-11-01 01:30' }),
    );
    const texts = problem?.choices?.map(({ text }) => text) ?? [];
    expect(texts.map((text) => Date.parse(text))).toEqual([
      Date.parse('2026-11-01T01:30:00-04:00'),
      Date.parse('2026-11-01T01:30:00-05:00'),
    ]);
    await here.record('stem-marked', { mark: 'cut' }, { at: texts[0] ?? '' });
  });

  it('a day alone is kept as a day', async () => {
    const here = await woods();
    await here.record('stem-marked', { mark: 'cut' }, { at: '2026-03-14' });
    expect((await lastEntry(here.log)).happenedAt.precision).toBe('day');
  });
});

describe('sizes of every kind of entry', () => {
  it.each([
    [
      'stem-felled',
      { stem: 'A12', came: 'down', layLength: '700' },
      'A lay length of 700 ft is more than 330 ft',
    ],
    [
      'stem-felled',
      { stem: 'A12', came: 'down', stumpHeight: '80 in' },
      'A stump height of 80 in is more than 6 ft',
    ],
    ['decay-measured', { stem: 'A12', found: 'rot', stumpDiameter: '155' }, 'A stump diameter of 155 in'],
    ['decay-measured', { stem: 'A12', found: 'rot', upTheButt: '400' }, 'A decay height of 400 ft'],
    ['stem-measured', { stem: 'A12', merchantableHeight: '400' }, 'A merchantable height of 400 ft'],
    ['stem-measured', { stem: 'A12', lean: '600 at 210 mag' }, 'A lean of 600 ft'],
    ['sapling-protected', { label: 's1', height: '0' }, 'A height of 0 ft is not above zero'],
    ['hazard-noted', { what: 'footing', radius: '-5' }, 'A keep-away distance of -5 ft is below zero'],
  ])('%s with %j is asked about', async (kind, fields, sentence) => {
    const here = await woods();
    expect((await asked(here, 'size', kind, fields)).sentence).toContain(sentence);
  });

  it('a stump cut flush and a shell rotted through are no question', async () => {
    const here = await woods();
    await here.record('stem-felled', { stem: 'A12', came: 'down', stumpHeight: '0 in' });
    await here.record('decay-measured', { stem: 'A12', found: 'hollow', shell: '0 in' });
  });

  it('a merchantable height above the height is asked about, measured together or one after the other', async () => {
    const here = await woods();
    const { sentence } = await asked(here, 'size', 'stem-marked', {
      mark: 'cut',
      height: '60 ft',
      merchantableHeight: '20 m',
    });
    expect(sentence).toBe(
      'A merchantable height of 20 m is more than the height of 60 ft. Did you mean 60 ft (the two figures are in each other’s place)?',
    );
    await here.record('stem-measured', { stem: 'A12', height: '50 ft' });
    await asked(here, 'size', 'stem-measured', { stem: 'A12', merchantableHeight: '55 ft' });
    await here.record('stem-measured', { stem: 'A12', merchantableHeight: '30 ft' });
  });

  it('a stem that shrank, a height under breast height and a decay wider than its stump are asked about', async () => {
    const here = await woods();
    await here.record('stem-measured', { stem: 'A12', dbh: '14 in' });
    const shrank = await asked(here, 'size', 'stem-measured', { stem: 'A12', dbh: '12.5 in' });
    expect(shrank.sentence).toBe('A DBH of 12.5 in after 14 in would be a stem that shrank.');
    const low = await asked(here, 'size', 'stem-measured', { stem: 'A12', height: '4 ft' });
    expect(low.sentence).toContain('under breast height');
    const wide = { stem: 'A12', found: 'rot', diameter: '20 in', stumpDiameter: '16 in' };
    const { sentence } = await asked(here, 'size', 'decay-measured', wide);
    expect(sentence).toContain('A decay of 20 in is wider than the stump of 16 in.');
    await here.record('stem-measured', { stem: 'A12', dbh: '14.3 in' });
  });
});

describe('places in every field that holds one', () => {
  const ring = (lat: string) => `${lat}30, -81.6850; ${lat}30, -81.6840; ${lat}40, -81.6840`;

  it('a stake may stand outside the block, and not far away from it', async () => {
    const here = await woods();
    await here.record('stake-set', { label: 'B', position: '35.7300, -81.6850' });
    const far = { label: 'C', position: '36.7130, -81.6850' };
    const { sentence } = await asked(here, 'far-from-block', 'stake-set', far);
    expect(sentence).toContain('more than 20 km from North cove');
  });

  it('help may be met at a gate outside the block, and not far away from it', async () => {
    const here = await woods();
    await here.record('emergency-card-set', { accessPoint: '35.7300, -81.6850' });
    const far = { accessPoint: '36.7130, -81.6850' };
    const { sentence } = await asked(here, 'far-from-block', 'emergency-card-set', far);
    expect(sentence).toContain('more than 20 km from North cove');
  });

  it('without a block a place is held against the stakes', async () => {
    const here = await emptyWoods();
    await here.record('stake-set', { label: 'A', position: '35.7130, -81.6850' });
    const { sentence } = await asked(here, 'far-from-block', 'stake-set', {
      label: 'B',
      position: '35.7130, -80.6850',
    });
    expect(sentence).toContain('more than 20 km from stake A');
    await asked(here, 'far-from-block', 'stem-marked', { mark: 'cut', position: '35.7130, -80.6850' });
  });

  it.each([
    ['group-laid-out', { label: 'G2', block: 'North cove', center: '36.7130, -81.6850' }],
    ['group-laid-out', { label: 'G2', block: 'North cove', plannedEdge: ring('36.71') }],
    ['opening-closed', { group: 'G1', edge: ring('36.71') }],
    ['patch-protected', { label: 'p1', group: 'G1', edge: ring('36.71') }],
    ['block-laid-out', { name: 'South cove', boundary: ring('36.71') }],
    ['block-laid-out', { name: 'South cove', axesOrigin: '36.7130, -81.6850' }],
  ])('%s with %j is asked about once', async (kind, fields) => {
    const here = await woods();
    const codes = questionsOf(await here.tryIt(kind, fields)).map(({ code }) => code);
    expect(codes.filter((code) => code === 'far-from-block')).toHaveLength(1);
  });

  it('a first boundary with one corner elsewhere is asked about', async () => {
    const here = await emptyWoods();
    await asked(here, 'far-from-block', 'block-laid-out', {
      name: 'North cove',
      boundary: '35.7100, -81.6900; 35.7100, -81.6810; 35.7170, -18.6810',
    });
    await here.record('block-laid-out', { name: 'North cove', boundary: ring('35.71') });
  });
});
