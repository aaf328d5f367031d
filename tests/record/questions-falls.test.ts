// Stems that come down and openings that are closed: what is asked, and what each answer leads to.
import { describe, expect, it } from 'vitest';
import { readStand } from '../../src/record/index.ts';
import { asked } from './asking.ts';
import { entriesOf, problemsOf, woods } from './woods.ts';

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

describe('a stem that hangs', () => {
  const hangs = { stem: 'A12', came: 'hung-up', hungOn: 'L3' };

  it('and is recorded as down may be that stem cleared, an earlier error, or both', async () => {
    const here = await woods();
    await here.record('stem-felled', hangs, { at: '2026-03-20 09:15' });
    const { sentence, answers } = await asked(here, 'already-down', 'stem-felled', {
      stem: 'A12',
      came: 'down',
    });
    expect(sentence).toContain('A12 is recorded as hung up (2026-03-20 09:15)');
    expect(sentence).toContain('hang-up-cleared');
    expect(answers).toEqual(['cleared', 'correct', 'keep-both']);
  });

  it('and hangs again by another entry is not cleared', async () => {
    const here = await woods();
    await here.record('stem-felled', hangs);
    const { answers } = await asked(here, 'already-down', 'stem-felled', hangs);
    expect(answers).toEqual(['correct', 'keep-both']);
  });

  it('makes felling the tree that holds it a question, with what to do instead', async () => {
    const here = await woods();
    await here.record('stem-felled', { ...hangs, hungOn: 'A13' });
    const fall = { stem: 'A13', came: 'down' };
    const { sentence, answers } = await asked(here, 'holds-hung-up', 'stem-felled', fall);
    expect(sentence).toContain('A13 holds A12');
    expect(sentence).toContain('two tree lengths');
    expect(sentence).toContain('trained help');
    expect(answers).toEqual(['anyway']);
    await here.record('hang-up-cleared', { stem: 'A12' });
    await here.record('stem-felled', fall);
  });

  it('is not held by itself', async () => {
    const here = await woods();
    const [problem] = problemsOf(await here.tryIt('stem-felled', { ...hangs, hungOn: 'A12' }));
    expect(problem?.field).toBe('hungOn');
    expect(problem?.remedy).toContain('in itself');
  });
});

describe('an entry that is recorded late', () => {
  it('is held against the opening as it was then', async () => {
    const here = await woods();
    for (const stem of ['A12', 'A13']) await here.record('stem-felled', { stem, came: 'down' });
    await here.record('opening-closed', { group: 'G1' });
    here.setClock('2026-03-20T15:00:00-04:00');
    const late = { mark: 'cut', tag: 'A14', group: 'G1' };
    await asked(here, 'closed-opening', 'stem-marked', late, '2026-03-20 14:00');
    await here.record('stem-marked', late, { at: '2026-03-20 09:00' });
  });

  it('of a fall is asked about when the stem came down after it too', async () => {
    const here = await woods();
    await here.record('stem-felled', { stem: 'A12', came: 'down' }, { at: '2026-03-20 09:30' });
    const { sentence } = await asked(
      here,
      'already-down',
      'stem-felled',
      { stem: 'A12', came: 'down' },
      '2026-03-20 08:00',
    );
    expect(sentence).toContain('(2026-03-20 09:30)');
  });

  it('of a stem that hung then may clear it, though it is down now', async () => {
    const here = await woods();
    await here.record('stem-felled', { stem: 'A12', came: 'hung-up' }, { at: '2026-03-19 09:00' });
    await here.record('hang-up-cleared', { stem: 'A12' }, { at: '2026-03-20 09:00' });
    await here.record('hang-up-cleared', { stem: 'A12' }, { at: '2026-03-19 15:00' });
    await asked(here, 'not-hung-up', 'hang-up-cleared', { stem: 'A12' }, '2026-03-19 08:00');
  });

  it('a fall known only to the day is named by its day', async () => {
    const here = await woods();
    await here.record('stem-felled', { stem: 'A12', came: 'down' }, { at: '2026-03-19' });
    const { sentence } = await asked(here, 'already-down', 'stem-felled', { stem: 'A12', came: 'down' });
    expect(sentence).toContain('(2026-03-19)');
  });
});
