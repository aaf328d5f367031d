// Labels that are in use: what a person who types is asked, and what each answer leads to.
import { describe, expect, it } from 'vitest';
import { readStand } from '../../src/record/index.ts';
import { asked } from './asking.ts';
import { entriesOf, questionsOf, stemTagged, woods } from './woods.ts';

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
    expect(stand.tags.get('a12')?.length).toBe(2);
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

describe('a label that is in use', () => {
  it('of a stake: surveyed again is an amendment of its entry, told as a command', async () => {
    const here = await woods();
    const { sentence, answers } = await asked(here, 'label-in-use', 'stake-set', {
      label: 'a',
      position: '35.7131, -81.6850',
    });
    expect(sentence).toContain('a is a stake already.');
    // Logbook, person, block, stake: numbers from 0.
    expect(sentence).toContain('gapledger record entry-amended --replaces 3 --position');
    expect(answers).toEqual(['keep-both']);
    await here.record('entry-amended', {
      replaces: '3',
      position: '35.7131, -81.6850',
      reason: 'surveyed again',
    });
    expect((await readStand(here.log)).stand.stakes.size).toBe(1);
  });

  it('of a group, block, sapling or patch is asked about; both may be kept', async () => {
    const here = await woods();
    await here.record('sapling-protected', { label: 's1', group: 'G1' });
    await here.record('patch-protected', { label: 'p1', group: 'G1' });
    await asked(here, 'label-in-use', 'group-laid-out', { label: 'g1' });
    await asked(here, 'label-in-use', 'block-laid-out', { name: 'NORTH COVE' });
    await asked(here, 'label-in-use', 'sapling-protected', { label: 'S1' });
    await asked(here, 'label-in-use', 'patch-protected', { label: 'P1' });
    await here.record('group-laid-out', { label: 'g1' }, { answers: ['keep-both'] });
    expect((await readStand(here.log)).stand.groups.size).toBe(2);
  });

  it('of a person is asked about, though the entry holds only the hash of a name', async () => {
    const here = await woods();
    const { sentence } = await asked(here, 'label-in-use', 'person-named', { name: 'ann weaver' });
    expect(sentence).toContain('ann weaver is a person already.');
    await here.record('person-named', { name: 'Ann Weaver', part: 'feller' }, { answers: ['keep-both'] });
  });

  it('is asked about in an amendment as well, and not where the label stays', async () => {
    const here = await woods();
    await here.record('group-laid-out', { label: 'G2', block: 'North cove' });
    const fields = { replaces: '8', reason: 'misread' };
    await asked(here, 'label-in-use', 'entry-amended', { ...fields, label: 'G1' });
    await here.record('entry-amended', { ...fields, label: 'G1' }, { answers: ['keep-both'] });
    await here.record('entry-amended', { ...fields, plannedArea: '0.2 ac' });
  });

  it('of a sapling is none where another thing has it', async () => {
    const here = await woods();
    await here.record('sapling-protected', { label: 'A' });
  });
});

describe('a tag in an entry that is recorded late', () => {
  it('is asked about when another stem carried it at that time, though not now', async () => {
    const here = await woods();
    await here.record('tag-replaced', { stem: 'A12', tag: 'B1' });
    here.setClock('2026-03-20T12:00:00-04:00');
    await here.record('stem-marked', { mark: 'cut', tag: 'A12' });
    await here.record('tag-replaced', { stem: 'A12', tag: 'B2' });
    const questions = questionsOf(
      await here.tryIt('stem-marked', { mark: 'cut', tag: 'b1' }, { at: '2026-03-20 11:00' }),
    );
    expect(questions.map(({ code }) => code)).toEqual(['tag-in-use']);
  });

  it('that is on several stems has an answer for each, which names group and entry', async () => {
    const here = await woods();
    await here.record(
      'stem-marked',
      { mark: 'cut', tag: 'A12', species: 'QUAL' },
      { answers: ['keep-both'] },
    );
    const [question] = questionsOf(
      await here.tryIt('stem-marked', { mark: 'cut', tag: 'A12' }, { answers: ['same-stem'] }),
    );
    expect(question?.sentence).toBe('Tag A12 is on 2 stems already.');
    expect(question?.choices.map(({ label }) => label)).toEqual([
      expect.stringMatching(/scarlet oak.*G1.*entry 5/),
      expect.stringMatching(/white oak.*entry 8/),
      expect.stringContaining('keep all'),
    ]);
  });
});
