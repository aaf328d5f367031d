// Answers that mean another entry than the one typed: nothing that was typed is lost on the way.
import { describe, expect, it } from 'vitest';
import { readStand } from '../../src/record/index.ts';
import { entriesOf, problemsOf, questionsOf, stemTagged, woods } from './woods.ts';

describe('the same stem after all', () => {
  it('keeps how and where it is marked, not only what was measured', async () => {
    const here = await woods();
    const typed = { mark: 'cut', tag: 'A12', block: 'North cove', markAtEye: 'yes', markOnStump: 'no' };
    const made = entriesOf(await here.tryIt('stem-marked', typed, { answers: ['same-stem'] }));
    expect(made.map(({ type }) => type)).toEqual(['mark-changed']);
    const stem = await stemTagged(here.log, 'A12');
    expect(stem).toMatchObject({ markAtEye: true, markOnStump: false, mark: 'cut' });
    expect(stem?.block).toBe([...(await readStand(here.log)).stand.blocks.keys()][0]);
  });

  it('is named by its id where several carry the tag', async () => {
    const here = await woods();
    await here.record('stem-marked', { mark: 'leave', tag: 'A12' }, { answers: ['keep-both'] });
    const carriers = [...((await readStand(here.log)).stand.tags.get('a12') ?? [])];
    expect(carriers).toHaveLength(2);
    const typed = { mark: 'leave', tag: 'A12', dbh: '15 in' };
    const [question] = questionsOf(await here.tryIt('stem-marked', typed, { answers: ['same-stem'] }));
    const offered = question?.choices.map(({ answer }) => answer) ?? [];
    expect(offered).toEqual(expect.arrayContaining(carriers.map((id) => `same-stem:${id}`)));
    const answers = [`same-stem:${carriers[1]}`];
    const made = entriesOf(await here.tryIt('stem-marked', typed, { answers }));
    expect(made.map(({ body }) => body.stem)).toEqual([carriers[1], carriers[1]]);
  });

  it('is not taken for granted when it is down', async () => {
    const here = await woods();
    await here.record('stem-felled', { stem: 'A12', came: 'down' });
    const typed = { mark: 'cut', tag: 'A12' };
    const [question] = questionsOf(await here.tryIt('stem-marked', typed, { answers: ['same-stem'] }));
    const [named] = question?.choices ?? [];
    expect(named?.label).toContain('felled');
    await here.record('stem-marked', typed, { answers: [named?.answer ?? ''] });
  });
});

describe('a hung-up stem that has come down', () => {
  it('is recorded as cleared, with the lay that was typed', async () => {
    const here = await woods();
    await here.record('stem-felled', { stem: 'A12', came: 'hung-up', hungOn: 'A13' });
    const typed = { stem: 'A12', came: 'down', lay: '40 mag' };
    const made = entriesOf(await here.tryIt('stem-felled', typed, { answers: ['cleared'] }));
    expect(made.map(({ type }) => type)).toEqual(['hang-up-cleared']);
    expect(made[0]?.body).toMatchObject({ lay: { text: '40 mag' } });
    expect(await stemTagged(here.log, 'A12')).toMatchObject({ status: 'felled' });
  });

  it('keeps what else was typed with its felling, whose time stays', async () => {
    const here = await woods();
    await here.record('stem-felled', { stem: 'A12', came: 'hung-up' }, { at: '2026-03-20 08:00' });
    const typed = { stem: 'A12', came: 'down', stumpHeight: '8 in', wedges: '2' };
    const made = entriesOf(await here.tryIt('stem-felled', typed, { answers: ['cleared'] }));
    expect(made.map(({ type }) => type)).toEqual(['hang-up-cleared', 'entry-amended']);
    expect(made[1]?.body.body).toMatchObject({ came: 'hung-up', stumpHeight: { unit: 'in' }, wedges: 2 });
    const stem = await stemTagged(here.log, 'A12');
    expect(stem).toMatchObject({ status: 'felled' });
    expect(Date.parse(stem?.felling?.at.at ?? '')).toBe(Date.parse('2026-03-20T08:00:00-04:00'));
  });
});

it('a tag cannot be "new": that word stands for a stem that was never marked', async () => {
  const here = await woods();
  for (const [kind, fields] of [
    ['stem-marked', { mark: 'cut', tag: 'New' }],
    ['tag-replaced', { stem: 'A12', tag: 'new' }],
    ['entry-amended', { replaces: '5', tag: 'new', reason: 'misread' }],
  ] as const) {
    const [problem] = problemsOf(await here.tryIt(kind, fields));
    expect(problem?.field).toBe('tag');
    expect(problem?.remedy).toContain('never marked');
  }
});
