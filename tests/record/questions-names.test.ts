// Names that nothing or several things have: what comes back, and that nothing is guessed.
import { describe, expect, it } from 'vitest';
import { readStand } from '../../src/record/index.ts';
import { emptyWoods, entriesOf, problemsOf, stemTagged, woods } from './woods.ts';

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

  it('a tag that was replaced comes back with the one that the stem carries now, and no near one', async () => {
    const here = await woods();
    await here.record('tag-replaced', { stem: 'A12', tag: 'B7' });
    const [problem] = problemsOf(await here.tryIt('stem-felled', { stem: 'a12', came: 'down' }));
    expect(problem?.remedy).toBe('a12 is B7 now');
    expect(problem?.choices?.map(({ text }) => text)).toEqual(['B7']);
    expect(problem?.choices?.[0]?.label).toMatch(/B7.*scarlet oak.*in G1/);
  });

  it('a tag that was replaced is given within a position with the place around it', async () => {
    const here = await woods();
    await here.record('tag-replaced', { stem: 'A12', tag: 'B7' });
    const [problem] = problemsOf(
      await here.tryIt('stem-marked', { mark: 'cut', position: '40 mag, 12 ft, slope 20 % from stem A12' }),
    );
    expect(problem?.choices?.map(({ text }) => text)).toEqual(['40 mag, 12 ft, slope 20 % from stem B7']);
  });

  it('a tag that was replaced and is on another stem since is that stem', async () => {
    const here = await woods();
    await here.record('tag-replaced', { stem: 'A12', tag: 'B7' });
    await here.record('stem-marked', { mark: 'cut', tag: 'A12', species: 'QUAL' });
    await here.record('stem-felled', { stem: 'A12', came: 'down' });
    expect((await stemTagged(here.log, 'A12'))?.status).toBe('felled');
    expect((await stemTagged(here.log, 'B7'))?.status).toBe('standing');
  });

  it('what several things are called comes back with what tells them apart, to be chosen by id', async () => {
    const here = await woods();
    const noted = { what: 'hanging-limb', stem: 'A13' };
    const hazards = [
      await here.record('hazard-noted', { ...noted, note: 'red ribbon' }),
      await here.record('hazard-noted', { ...noted, radius: '150 ft' }),
    ];
    expect(hazards).toHaveLength(2);
    const [problem] = problemsOf(await here.tryIt('hazard-cleared', { hazard: 'A13' }));
    expect(problem?.choices?.map(({ label }) => label)).toEqual([
      expect.stringMatching(/red ribbon.*entry 8/),
      expect.stringMatching(/150 ft.*entry 9/),
    ]);
    const chosen = problem?.choices?.[1]?.text ?? '';
    await here.record('hazard-cleared', { hazard: chosen });
    expect([...(await readStand(here.log)).stand.openHazards]).not.toContain(chosen);
  });

  it('a hazard at no stem is named by the number of its entry', async () => {
    const here = await woods();
    for (const note of ['by the spring', 'on the trail'])
      await here.record('hazard-noted', { what: 'footing', group: 'G1', note });
    await here.record('hazard-cleared', { hazard: '9' });
    await here.record('hazard-cleared', { hazard: 'entry 8' });
    expect((await readStand(here.log)).stand.openHazards.size).toBe(0);
    const [problem] = problemsOf(await here.tryIt('hazard-cleared', { hazard: '5' }));
    expect(problem?.remedy).toContain('there is no hazard "5"');
  });

  it('a bare number is a tag and never the number of an entry where things carry tags', async () => {
    const here = await woods();
    const [problem] = problemsOf(await here.tryIt('stem-felled', { stem: '5', came: 'down' }));
    expect(problem?.remedy).toContain('there is no stem "5"');
    await here.record('stem-felled', { stem: 'entry 5', came: 'down' });
    expect((await stemTagged(here.log, 'A12'))?.status).toBe('felled');
  });
});
