// What is learned from which fall, and what the model widens its error by. Widenings are worked by hand from docs/felling-model.md:
// 6°, and 1° for every percent of lean sideways or back, 0.5° per m/s of wind, 1° beyond the band of the lean; times 1.5 with
// decay, 1.25 when dead.
import { describe, expect, it } from 'vitest';
import { adoption, aimsOf, planAsked } from '../../../src/felling/index.ts';
import { readStand } from '../../../src/record/index.ts';
import { emptyWoods, type Woods } from '../../record/woods.ts';

type Fields = Record<string, unknown>;

async function woodsWith(...stems: readonly Fields[]) {
  const woods = await emptyWoods('metric');
  const clock = { now: Date.parse('2026-03-20T10:00:00-04:00') };
  const record: Woods['record'] = (kind, fields, more) => {
    clock.now += 60_000;
    woods.setClock(new Date(clock.now).toISOString());
    return woods.record(kind, fields, more);
  };
  await record('stake-set', { label: 'S', position: '35.7150, -81.6835' });
  await record('group-laid-out', { label: 'G1' });
  for (const [at, fields] of stems.entries())
    await record('stem-marked', {
      mark: 'cut',
      tag: `A${at + 1}`,
      group: 'G1',
      dbh: '30 cm',
      height: '20 m',
      position: `${at * 20} true, ${10 + at} m from stake S`,
      ...fields,
    });
  const people = async () => aimsOf(await readStand(woods.log));
  const only = async () => {
    const [one] = await people();
    if (one === undefined) throw new Error('Nobody felled anything.');
    return one;
  };
  return { ...woods, record, people, only };
}
const withLean = { lean: '0.4 m at 0 true' };
const along = { lean: '0.4 m at 30 true' };
const fell = (stem: string, more: Fields = {}) => ({
  stem,
  came: 'down',
  aimed: '30 true',
  lay: '33 true',
  ...more,
});

describe('a fall is learned from', () => {
  it('with an aim and a measured lay: so many degrees to the right', async () => {
    const { record, only } = await woodsWith(withLean);
    await record('stem-felled', fell('A1'));
    // Side lean 0.4 m · sin 30° = 0.2 m, 1 % of 20 m: 1° more. 3° ÷ 7°.
    expect((await only()).measured).toEqual([
      expect.objectContaining({ label: 'A1', off: 3, times: 1, aimFrom: 'feller' }),
    ]);
    const [fall] = (await only()).measured;
    expect(fall?.added).toBeCloseTo(1, 9);
    expect(fall?.error).toBeCloseTo(7, 9);
    expect(fall?.standardised).toBeCloseTo(3 / 7, 9);
  });

  it('by the aim of the plan in force, where the feller recorded none', async () => {
    const { record, only, log, size } = await woodsWith(
      { lean: '1 m at 0 true' },
      { lean: '1 m at 90 true' },
    );
    const { stand } = await readStand(log);
    const [group] = stand.groups.values();
    if (group === undefined) throw new Error('There is no group.');
    const plan = planAsked(stand, group, { wind: '2 m/s' }, '2026-03-20T15:00:00Z');
    await record('felling-plan-adopted', adoption(plan, await size()));
    const [first] = plan.falls;
    await record('stem-felled', {
      stem: first?.label,
      came: 'down',
      lay: `${((first?.step.aim ?? 0) + 4).toFixed(1)} true`,
    });
    const [fall] = (await only()).measured;
    expect(fall?.aimFrom).toBe('plan');
    expect(fall?.off).toBeCloseTo(4, 6);
    // Nobody noted the wind, and the plan counted on 2 m/s: 1° more, besides what the side lean adds.
    const sideways = (100 * Math.sin(((first?.aim.fromLean ?? 0) / 180) * Math.PI)) / 20;
    expect(fall?.added).toBeCloseTo(1 + Math.abs(sideways), 6);
  });

  it('that hung up, where its direction was measured; the lay that it was pulled to is none', async () => {
    const { record, only } = await woodsWith(withLean, withLean);
    await record('stem-felled', fell('A1', { came: 'hung-up', lay: '20 true' }));
    await record('hang-up-cleared', { stem: 'A1', how: 'winched', lay: '120 true' });
    await record('stem-felled', { stem: 'A2', came: 'hung-up', aimed: '30 true' });
    await record('hang-up-cleared', { stem: 'A2', how: 'winched', lay: '120 true' });
    const { measured, unmeasured } = await only();
    expect(measured).toEqual([expect.objectContaining({ label: 'A1', off: -10, came: 'hung-up' })]);
    expect(unmeasured).toEqual([
      expect.objectContaining({ label: 'A2', why: expect.stringMatching(/hung up/) as unknown }),
    ]);
  });

  it('as it was corrected, and not once it is struck', async () => {
    const { record, only, people } = await woodsWith(withLean);
    const entry = await record('stem-felled', fell('A1'));
    await record('entry-amended', { replaces: entry, lay: '25 true', reason: 'misread' });
    expect((await only()).measured[0]?.off).toBe(-5);
    await record('entry-struck', { strikes: entry, reason: 'another stem' });
    expect(await people()).toEqual([]);
  });

  it('read by the compass both ways without any turning', async () => {
    const { record, only } = await woodsWith(withLean);
    await record('stem-felled', fell('A1', { aimed: '355 mag', lay: '4 mag' }));
    expect((await only()).measured[0]?.off).toBe(9);
  });
});

describe('nothing is learned', () => {
  it.each([
    ['as aimed by eye', { stem: 'A1', came: 'down', aimed: '30 true', asAimed: 'yes' }, /by eye/],
    ['a lay that nobody measured', { stem: 'A1', came: 'down', aimed: '30 true' }, /not measured/],
    ['a lay without an aim', { stem: 'A1', came: 'down', lay: '30 true' }, /no aim/],
  ])('from %s, and it is counted', async (_, fields, why) => {
    const { record, only } = await woodsWith(withLean);
    await record('stem-felled', fields);
    const { measured, unmeasured } = await only();
    expect(measured).toEqual([]);
    expect(unmeasured).toEqual([
      expect.objectContaining({ label: 'A1', why: expect.stringMatching(why) as unknown }),
    ]);
  });
});

describe('the model widens its error', () => {
  it.each([
    // Nobody looked at the lean: 2 % of the height back, and beyond any band: 2° and 1°.
    ['for a lean that nobody noted', {}, [], 3, 1],
    // Straight with the lean nothing is added.
    ['not at all along the lean', along, [], 0, 1],
    ['for rot that a sign told of', { ...along, decaySigns: 'conks' }, [], 0, 1.5],
    ['for a dead top', { ...along, decaySigns: 'dead-top' }, [], 0, 1.25],
    ['for a decayed stem that is dead', { ...along, decaySigns: 'conks', vigor: 'dead' }, [], 0, 1.875],
    // 30° off its lean is beyond the 25° of a decayed stem: 1° for the side lean, 1° for going against it.
    ['for a decayed stem beyond its narrow band', { ...withLean, decaySigns: 'conks' }, [], 2, 1.5],
    ['for wind that was noted that day', withLean, [['wind-noted', { wind: '4 m/s' }]], 3, 1],
  ] as const)('%s', async (_, stem, before, added, times) => {
    const { record, only } = await woodsWith(stem);
    for (const [kind, fields] of before) await record(kind, fields);
    await record('stem-felled', fell('A1'));
    const [fall] = (await only()).measured;
    expect(fall?.added).toBeCloseTo(added, 9);
    expect(fall?.times).toBeCloseTo(times, 9);
  });

  it('not for rot that only the stump showed', async () => {
    const { record, only } = await woodsWith(withLean);
    await record('stem-felled', fell('A1'));
    await record('decay-measured', { stem: 'A1', found: 'rot', diameter: '10 cm' });
    expect((await only()).measured[0]?.times).toBe(1);
  });

  it('for the lean of a stem whose height nobody measured by its length on the ground; without that nothing is learned', async () => {
    const { record, only } = await woodsWith(
      { ...withLean, height: undefined },
      { ...withLean, height: undefined },
    );
    await record('stem-felled', fell('A1', { layLength: '20 m' }));
    await record('stem-felled', fell('A2'));
    const { measured, unmeasured } = await only();
    expect(measured[0]?.added).toBeCloseTo(1, 9);
    expect(unmeasured[0]?.why).toContain('height is not known');
  });
});

describe('what is offered', () => {
  const stems = Array.from({ length: 16 }, () => ({ lean: '0.4 m at 30 true' }));

  it('is nothing before 15 falls were measured, whoever felled the others', async () => {
    const { record, people } = await woodsWith(...stems);
    await record('person-named', { name: 'Joan Weaver' });
    for (const [at] of stems.slice(0, 14).entries())
      await record('stem-felled', fell(`A${at + 1}`, { lay: `${at % 2 === 0 ? 36 : 24} true` }));
    await record('stem-felled', fell('A15'), { by: 'Joan Weaver' });
    const [ann, joan] = await people();
    expect(ann).toMatchObject({ estimate: undefined, offer: undefined, needed: 15 });
    expect([ann?.measured.length, joan?.measured.length]).toEqual([14, 1]);
    await record('stem-felled', fell('A16', { lay: '36 true' }));
    const [more] = await people();
    // Fifteen falls of 6°: σ 6°. Upper end with 80 %: 6 √(15 / 10.307), quantile by R's qchisq(0.2, 15) (from memory).
    expect(more?.estimate?.sigma).toBeCloseTo(6, 9);
    expect(more?.estimate?.upper).toBeCloseTo(6 * Math.sqrt(15 / 10.307), 2);
    expect(more?.offer).toMatchObject({ value: 7.3, atFloor: false });
    expect(more?.offer?.restsOn).toHaveLength(15);
  });

  it('is never below the floor, and the farthest off are named', async () => {
    const { record, only } = await woodsWith(...stems);
    for (const [at] of stems.entries())
      await record(
        'stem-felled',
        fell(`A${at + 1}`, { lay: `${at === 3 ? 35 : at % 2 === 0 ? 31 : 29} true` }),
      );
    const { offer, farthest, estimate } = await only();
    expect(estimate?.upper).toBeLessThan(4);
    expect(offer).toMatchObject({ value: 4, atFloor: true });
    expect(farthest[0]?.label).toBe('A4');
  });
});
