// Putting entries right: fields merged into the version in force, times, amendments of amendments, strikes.
import { describe, expect, it } from 'vitest';
import { readStand } from '../../src/record/index.ts';
import { lastEntry, problemsOf, stemTagged, woods } from './woods.ts';

/** The entry of the stem A12 has this number in the woods of these tests. */
const marked = '5';

describe('an amendment', () => {
  it('takes over what was not typed, and keeps the time of happening', async () => {
    const here = await woods();
    const before = (await readStand(here.log)).happenings.find(({ entry }) => entry.position === 5);
    await here.record('entry-amended', { replaces: marked, dbh: '12.4 in', reason: 'tape misread' });
    const { body } = await lastEntry(here.log);
    expect(body).toMatchObject({
      type: 'stem-marked',
      reason: 'tape misread',
      happenedAt: before?.happenedAt,
    });
    expect(await stemTagged(here.log, 'A12')).toMatchObject({
      dbh: { text: '12.4 in' },
      species: { code: 'QUCO2' },
      mark: 'cut',
    });
  });

  it('takes a field out that is typed as "none"', async () => {
    const here = await woods();
    await here.record('entry-amended', { replaces: marked, dbh: 'none', reason: 'guessed, not measured' });
    expect((await stemTagged(here.log, 'A12'))?.dbh).toBeUndefined();
  });

  it('leaves "none" alone where it is an answer: no decay found, no notch cut', async () => {
    const here = await woods();
    await here.record('stem-felled', { stem: 'A12', came: 'down', notch: 'none' });
    const felled = String((await here.size()) - 1);
    await here.record('decay-measured', { stem: 'A12', found: 'none' });
    const looked = String((await here.size()) - 1);
    await here.record('entry-amended', { replaces: felled, stumpHeight: '8 in', reason: 'measured' });
    expect((await lastEntry(here.log)).body.body).toMatchObject({
      notch: 'none',
      stumpHeight: { unit: 'in' },
    });
    await here.record('entry-amended', { replaces: felled, notch: 'open-face', reason: 'x' });
    await here.record('entry-amended', { replaces: felled, notch: 'none', reason: 'no notch after all' });
    expect((await lastEntry(here.log)).body.body).toMatchObject({ notch: 'none' });
    await here.record('entry-amended', { replaces: looked, note: 'sound all over', reason: 'more to say' });
    expect((await stemTagged(here.log, 'A12'))?.decay?.body).toMatchObject({ found: 'none' });
  });

  it('takes out the fields that are named for it, written as members or as flags', async () => {
    const here = await woods();
    await here.record('entry-amended', {
      replaces: marked,
      dbh: '12.4 in',
      merchantableHeight: '32 ft',
      reason: 'x',
    });
    await here.record('entry-amended', {
      replaces: marked,
      takeOut: ['dbh', 'merchantable-height'],
      reason: 'guessed',
    });
    const stem = await stemTagged(here.log, 'A12');
    expect([stem?.dbh, stem?.merchantableHeight, stem?.species?.code]).toEqual([
      undefined,
      undefined,
      'QUCO2',
    ]);
  });

  it('takes nothing out that is needed, not there, unknown, or typed anew', async () => {
    const here = await woods();
    const out = async (takeOut: string, more = {}) =>
      problemsOf(await here.tryIt('entry-amended', { replaces: marked, reason: 'x', takeOut, ...more }))[0];
    expect((await out('mark'))?.remedy).toContain('cannot be without it');
    expect((await out('stem'))?.remedy).toContain('cannot be without it');
    expect((await out('height'))?.remedy).toContain('nothing to take out');
    expect((await out('dhb'))?.remedy).toContain('did you mean dbh?');
    expect((await out('dbh', { dbh: '12 in' }))?.remedy).toContain('one of the two');
  });

  it('changes the reason that the entry itself gives, beside the reason for amending it', async () => {
    const here = await woods();
    const amend = (itsReason: string, more = {}) => ({
      replaces: marked,
      reason: 'looked again',
      itsReason,
      ...more,
    });
    await here.record('entry-amended', amend('dead top'));
    expect((await lastEntry(here.log)).body).toMatchObject({
      reason: 'looked again',
      body: { reason: 'dead top', tag: 'A12' },
    });
    await here.record('entry-amended', {
      replaces: marked,
      reason: 'nothing of the kind',
      takeOut: 'reason',
    });
    expect((await stemTagged(here.log, 'A12'))?.reason).toBeUndefined();
    await here.record('stem-felled', { stem: 'A12', came: 'down' });
    const felled = { ...amend('dead top'), replaces: String((await here.size()) - 1) };
    const [none] = problemsOf(await here.tryIt('entry-amended', felled));
    expect(none).toMatchObject({ field: 'itsReason' });
  });

  it('that would change nothing is refused', async () => {
    const here = await woods();
    const size = await here.size();
    for (const fields of [{}, { dbh: '14.2 in' }, { tag: 'A12', mark: 'cut' }]) {
      const [same] = problemsOf(
        await here.tryIt('entry-amended', { replaces: marked, reason: 'x', ...fields }),
      );
      expect(same?.remedy).toContain('nothing would change');
    }
    expect(await here.size()).toBe(size);
  });

  it('of the first entry needs a CRS that is shipped', async () => {
    const here = await woods();
    const [wrong] = problemsOf(
      await here.tryIt('entry-amended', { replaces: '0', crs: 'EPSG:99999', reason: 'x' }),
    );
    expect(wrong).toMatchObject({ field: 'crs', value: 'EPSG:99999' });
    await here.record('entry-amended', { replaces: '0', crs: 'EPSG:32617', reason: 'UTM is wanted' });
    expect((await readStand(here.log)).stand.logbook?.body.crs).toBe('EPSG:32617');
  });

  it('gives the tag that was misread, and the wrong one is free again', async () => {
    const here = await woods();
    await here.record('entry-amended', { replaces: marked, tag: 'A21', reason: 'misread' });
    expect(await stemTagged(here.log, 'A12')).toBeUndefined();
    expect(await stemTagged(here.log, 'A21')).toMatchObject({ mark: 'cut' });
    await here.record('stem-marked', { mark: 'cut', tag: 'A12' });
  });

  it('with --at says when it really happened; the amendment itself happens now', async () => {
    const here = await woods();
    await here.record('stem-felled', { stem: 'A12', came: 'down' });
    const number = String((await here.size()) - 1);
    await here.record(
      'entry-amended',
      { replaces: number, reason: 'the day before' },
      { at: '2026-03-19 16:20' },
    );
    const entry = await lastEntry(here.log);
    expect(Date.parse(entry.happenedAt.at)).toBe(Date.parse('2026-03-20T10:00:00-04:00'));
    const stem = await stemTagged(here.log, 'A12');
    expect(Date.parse(stem?.felling?.at.at ?? '')).toBe(Date.parse('2026-03-19T16:20:00-04:00'));
  });

  it('of an amended entry starts from the newest version, named by whichever number', async () => {
    const here = await woods();
    const first = await here.record('entry-amended', { replaces: marked, dbh: '12.4 in', reason: 'tape' });
    const second = await here.record('entry-amended', {
      replaces: marked,
      height: '70 ft',
      reason: 'measured too',
    });
    expect((await lastEntry(here.log)).body.replaces).toBe(first);
    await here.record('entry-amended', { replaces: first, height: '71 ft', reason: 'again' });
    expect((await lastEntry(here.log)).body.replaces).toBe(second);
    expect(await stemTagged(here.log, 'A12')).toMatchObject({
      dbh: { text: '12.4 in' },
      height: { text: '71 ft' },
    });
    expect((await readStand(here.log)).findings.map(({ code }) => code)).not.toContain('two-corrections');
  });

  it('is refused where its number is missing, unknown or struck, with what to do', async () => {
    const here = await woods();
    const missing = problemsOf(await here.tryIt('entry-amended', { dbh: '12 in' }));
    expect(missing.map(({ field, missing: is }) => [field, is])).toEqual([
      ['replaces', true],
      ['reason', true],
    ]);
    const unknown = problemsOf(await here.tryIt('entry-amended', { replaces: '999', reason: 'x' }));
    expect(unknown[0]?.remedy).toContain('"gapledger log" shows their numbers');
    await here.record('entry-struck', { strikes: marked, reason: 'recorded twice' });
    const struck = problemsOf(
      await here.tryIt('entry-amended', { replaces: marked, dbh: '12 in', reason: 'x' }),
    );
    expect(struck[0]?.remedy).toContain('struck');
  });

  it('reads its fields like the entry does: a wrong one is named, with the nearest', async () => {
    const here = await woods();
    const wrong = problemsOf(await here.tryIt('entry-amended', { replaces: marked, reason: 'x', dhb: '12' }));
    expect(wrong[0]).toMatchObject({ field: 'dhb' });
    expect(wrong[0]?.remedy).toContain('did you mean dbh?');
  });
});

describe('a strike', () => {
  it('takes an entry out of the stand, and striking the strike brings it back', async () => {
    const here = await woods();
    const strike = await here.record('entry-struck', { strikes: marked, reason: 'recorded twice' });
    expect(await stemTagged(here.log, 'A12')).toBeUndefined();
    await here.record('entry-struck', { strikes: strike, reason: 'it was not' });
    expect(await stemTagged(here.log, 'A12')).toMatchObject({ mark: 'cut', dbh: { text: '14.2 in' } });
  });

  it('of an amendment restores what it had replaced', async () => {
    const here = await woods();
    const amended = await here.record('entry-amended', { replaces: marked, dbh: '12 in', reason: 'x' });
    await here.record('entry-struck', { strikes: amended, reason: 'the first was right' });
    expect((await stemTagged(here.log, 'A12'))?.dbh?.text).toBe('14.2 in');
  });
});
