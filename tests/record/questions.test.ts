// What a person who types is asked, and what each answer leads to.
import { describe, expect, it } from 'vitest';
import { readStand } from '../../src/record/index.ts';
import {
  emptyWoods,
  entriesOf,
  lastEntry,
  problemsOf,
  questionsOf,
  stemTagged,
  type Woods,
  woods,
} from './woods.ts';

/** Asks once, expects this question alone, and that nothing was recorded by asking. */
async function asked(here: Woods, code: string, kind: string, fields: Record<string, unknown>, at?: string) {
  const before = await here.size();
  const questions = questionsOf(await here.tryIt(kind, fields, at === undefined ? {} : { at }));
  expect(questions.map((question) => question.code)).toEqual([code]);
  expect(await here.size()).toBe(before);
  const [question] = questions;
  if (question === undefined) throw new Error('no question');
  return { sentence: question.sentence, answers: question.choices.map(({ answer }) => answer) };
}

describe('a tag that is in use', () => {
  const again = { mark: 'leave', tag: 'a12', dbh: '15 in', purpose: 'cavity' };

  it('is asked about, whatever the case of its letters', async () => {
    const here = await woods();
    const { sentence, answers } = await asked(here, 'tag-in-use', 'stem-marked', again);
    expect(sentence).toBe('Tag a12 is on a standing stem of G1 already.');
    expect(answers).toEqual(['same-stem', 'keep-both']);
  });

  it('may be on that very stem: its mark changes, and it is measured again', async () => {
    const here = await woods();
    const stem = await stemTagged(here.log, 'A12');
    const made = entriesOf(await here.tryIt('stem-marked', again, { answers: ['same-stem'] }));
    expect(made.map(({ type }) => type)).toEqual(['mark-changed', 'stem-measured']);
    expect(made.map(({ body }) => body.stem)).toEqual([stem?.id, stem?.id]);
    const after = await stemTagged(here.log, 'A12');
    expect(after).toMatchObject({ mark: 'leave', purpose: 'cavity', dbh: { text: '15 in' } });
    expect((await readStand(here.log)).stand.stems.size).toBe(3);
  });

  it('may be on two stems: both are kept, and it is a finding', async () => {
    const here = await woods();
    await here.record('stem-marked', again, { answers: ['keep-both'] });
    const { stand, findings } = await readStand(here.log);
    expect(stand.tags.get('a12')?.size).toBe(2);
    expect(findings.map(({ code }) => code)).toContain('tag-used-twice');
  });

  it('is asked about where a stem gets another tag; there it cannot be that stem', async () => {
    const here = await woods();
    const { answers } = await asked(here, 'tag-in-use', 'tag-replaced', { stem: 'A13', tag: 'A12' });
    expect(answers).toEqual(['keep-both']);
  });

  it('is no question once its stem has lost it', async () => {
    const here = await woods();
    await here.record('tag-replaced', { stem: 'A12', tag: 'B1' });
    await here.record('stem-marked', { mark: 'cut', tag: 'A12' });
  });

  it('an answer that was not asked for changes nothing', async () => {
    const here = await woods();
    const made = entriesOf(
      await here.tryIt('stem-marked', { mark: 'cut', tag: 'Z1' }, { answers: ['same-stem', 'correct'] }),
    );
    expect(made.map(({ type }) => type)).toEqual(['stem-marked']);
  });
});

describe('a stem that is down already', () => {
  const fall = { stem: 'A12', came: 'down', lay: '40 mag' };

  it('is asked about with the time of its fall', async () => {
    const here = await woods();
    await here.record('stem-felled', fall, { at: '2026-03-20 09:15' });
    const { sentence, answers } = await asked(here, 'already-down', 'stem-felled', fall);
    expect(sentence).toContain('A12 is already down (2026-03-20 09:15)');
    expect(answers).toEqual(['correct', 'keep-both']);
  });

  it('the earlier entry may be wrong: it is amended by this one', async () => {
    const here = await woods();
    const first = await here.record('stem-felled', fall, { at: '2026-03-20 09:15' });
    const made = entriesOf(
      await here.tryIt('stem-felled', { ...fall, lay: '75 mag' }, { answers: ['correct'] }),
    );
    expect(made.map(({ type, body }) => [type, body.replaces])).toEqual([['entry-amended', first]]);
    const { stand, findings, standings } = await readStand(here.log);
    const stem = [...stand.stems.values()].find(({ tag }) => tag === 'A12');
    expect(stem?.felling?.lay?.text).toBe('75 mag');
    expect(standings.get(first)).toBe('amended');
    expect(findings.map(({ code }) => code)).not.toContain('felled-twice');
  });

  it('both may be kept: felled twice is a finding', async () => {
    const here = await woods();
    await here.record('stem-felled', fall);
    await here.record('stem-felled', fall, { answers: ['keep-both'] });
    expect((await readStand(here.log)).findings.map(({ code }) => code)).toContain('felled-twice');
  });

  it('is asked about when it was found down before', async () => {
    const here = await woods();
    await here.record('stem-found-down', { stem: 'A12', cause: 'uprooted' });
    const { answers } = await asked(here, 'already-down', 'stem-felled', fall);
    expect(answers).toEqual(['keep-both']);
  });
});

describe('other things that do not fit the stand', () => {
  it('a leave tree that was felled is asked about, and becomes a finding', async () => {
    const here = await woods();
    const { sentence } = await asked(here, 'leave-tree', 'stem-felled', { stem: 'L3', came: 'down' });
    expect(sentence).toBe('L3 is marked to stay (seed).');
    await here.record('stem-felled', { stem: 'L3', came: 'down' }, { answers: ['anyway'] });
    expect((await readStand(here.log)).findings.map(({ code }) => code)).toContain('leave-tree-felled');
  });

  it('closing asks what is still open, what can hurt first', async () => {
    const here = await woods();
    await here.record('sapling-protected', { label: 's1', group: 'G1' });
    await here.record('hazard-noted', { what: 'hanging-limb', group: 'G1', stem: 'A13' });
    await here.record('stem-felled', { stem: 'A12', came: 'hung-up', hungOn: 'L3' });
    const { sentence } = await asked(here, 'still-open', 'opening-closed', { group: 'G1' });
    const at = [
      'A12 is hung up',
      'hazard not cleared',
      'A13 is marked to be cut and stands',
      's1 is not checked',
    ].map((part) => sentence.indexOf(part));
    expect(at.every((place) => place > 0)).toBe(true);
    expect([...at].sort((a, b) => a - b)).toEqual(at);
    await here.record('opening-closed', { group: 'G1' }, { answers: ['anyway'] });
  });

  it('a closed opening is asked about before more is marked or felled in it', async () => {
    const here = await woods();
    for (const stem of ['A12', 'A13']) await here.record('stem-felled', { stem, came: 'down' });
    await here.record('opening-closed', { group: 'G1' });
    const { sentence } = await asked(here, 'closed-opening', 'stem-marked', {
      mark: 'cut',
      tag: 'A14',
      group: 'G1',
    });
    expect(sentence).toContain('record "opening reopened" first');
    await here.record('opening-reopened', { group: 'G1', reason: 'one more' });
    await here.record('stem-marked', { mark: 'cut', tag: 'A14', group: 'G1' });
  });

  it('taking down a stem that does not hang is asked about', async () => {
    const here = await woods();
    const { answers } = await asked(here, 'not-hung-up', 'hang-up-cleared', { stem: 'A12' });
    expect(answers).toEqual(['anyway']);
  });
});

describe('sizes, places and times', () => {
  it('a DBH of 900 in is asked about with what was probably meant', async () => {
    const here = await woods();
    const { sentence } = await asked(here, 'size', 'stem-marked', { mark: 'cut', dbh: '900' });
    expect(sentence).toBe('A DBH of 900 (in) is more than 100 in. Did you mean 900 mm?');
    await here.record('stem-marked', { mark: 'cut', dbh: '900' }, { answers: ['anyway'] });
    expect((await lastEntry(here.log)).body.dbh).toEqual({ text: '900', value: '900', unit: 'in' });
  });

  it('a DBH of 142 in lacks its decimal point', async () => {
    const here = await woods();
    const { sentence } = await asked(here, 'size', 'stem-marked', { mark: 'cut', dbh: '142' });
    expect(sentence).toContain('142 cm');
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

describe('names that are not known', () => {
  it('an unknown species comes back with near ones, an ambiguous one with all candidates', async () => {
    const here = await emptyWoods();
    const unknown = problemsOf(await here.tryIt('stem-marked', { mark: 'cut', species: 'scarlt oak' }));
    expect(unknown[0]?.choices?.map(({ text }) => text)).toContain('QUCO2');
    // USDA PLANTS symbols: QUCO2 is Quercus coccinea, scarlet oak.
    const ambiguous = problemsOf(await here.tryIt('stem-marked', { mark: 'cut', species: 'oak' }));
    expect((ambiguous[0]?.choices ?? []).length).toBeGreaterThan(5);
    await here.record('stem-marked', { mark: 'cut', species: 'QUCO2' });
  });

  it('an unknown tag suggests the nearest of the whole logbook, and is not put in its place', async () => {
    const here = await woods();
    const before = await here.size();
    const [problem] = problemsOf(await here.tryIt('stem-felled', { stem: 'A1Z', came: 'down' }));
    expect(problem).toMatchObject({ field: 'stem', value: 'A1Z' });
    expect(problem?.remedy).toMatch(/did you mean A1[23]\?/);
    expect(await here.size()).toBe(before);
  });

  it('an unknown kind and an unknown field suggest the nearest', async () => {
    const here = await woods();
    expect(problemsOf(await here.tryIt('stem-markd'))[0]?.remedy).toContain('did you mean stem-marked?');
    const [field] = problemsOf(await here.tryIt('stem-marked', { mark: 'cut', speces: 'oak' }));
    expect(field?.remedy).toContain('did you mean species?');
  });

  it('all that is wrong is said at once', async () => {
    const here = await woods();
    const problems = problemsOf(
      await here.tryIt('stem-felled', { stem: 'Z', lay: 'north-ish', stumpHeight: 'low' }),
    );
    expect(problems.map(({ field }) => field).sort()).toEqual(['came', 'lay', 'stem', 'stumpHeight']);
  });

  it('who did it: the one there is; with several the people are the choices, and nobody is guessed', async () => {
    const here = await woods();
    const desk = { ...here.desk };
    delete (desk as { person?: string }).person;
    const { recordDraft } = await import('../../src/record/index.ts');
    const draft = { kind: 'note-written', fields: { text: 'wind from the west' } };
    expect((await recordDraft(desk, draft)).outcome).toBe('recorded');
    await here.record('person-named', { name: 'Dell Pruitt', part: 'feller' });
    const [problem] = problemsOf(await recordDraft(desk, draft));
    expect(problem?.choices?.map(({ text }) => text)).toEqual(['Ann Weaver', 'Dell Pruitt']);
    const [unknown] = problemsOf(await recordDraft(desk, { ...draft, by: 'Dell Pruit' }));
    expect(unknown?.remedy).toContain('did you mean Dell Pruitt?');
    const [entry] = entriesOf(await recordDraft(desk, { ...draft, by: 'dell pruitt' }));
    const people = [...(await readStand(here.log)).stand.people.values()];
    expect(entry?.by).toBe(people.find(({ part }) => part === 'feller')?.id);
  });
});
