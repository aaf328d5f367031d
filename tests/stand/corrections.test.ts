// Corrections, written out by hand: what applies when entries are amended and struck, and struck again.
import { describe, expect, it, test } from 'vitest';
import type { JsonObject } from '../../src/events/index.ts';
import { type FindingCode, fold, type LogEntry } from '../../src/stand/index.ts';
import { pen, uuid } from './entries.ts';
import { type Line, written } from './group-story.ts';

const stem = uuid(0x51_0001);
const start = '2026-03-02T09:00:00-05:00';

function mark(write: ReturnType<typeof pen>, tag: string): LogEntry {
  return write('stem-marked', { stem, mark: 'cut', tag });
}

function amend(
  write: ReturnType<typeof pen>,
  replaces: string,
  body: JsonObject,
  type = 'stem-marked',
): LogEntry {
  return write('entry-amended', {
    replaces,
    type,
    v: 1,
    body,
    happenedAt: { at: start, precision: 'minute' },
    reason: 'misread',
  });
}

function strike(write: ReturnType<typeof pen>, strikes: string): LogEntry {
  return write('entry-struck', { strikes, reason: 'a mistake' });
}

function tagIn(entries: LogEntry[]): string | undefined {
  return fold(entries).stand.stems.get(stem)?.tag;
}

function codes(entries: LogEntry[]): FindingCode[] {
  return fold(entries).findings.map(({ code }) => code);
}

test('an amendment puts the body and the time right; both versions stay in the log', () => {
  const write = pen();
  const first = mark(write, 'A21');
  const amendment = amend(write, first.id, { stem, mark: 'leave', tag: 'A12' });
  const folded = fold([first, amendment]);
  expect(folded.stand.stems.get(stem)).toMatchObject({ tag: 'A12', mark: 'leave' });
  expect(folded.happenings).toMatchObject([
    { entry: { id: first.id }, version: amendment.id, happenedAt: { at: start, precision: 'minute' } },
  ]);
  expect(folded.standings).toEqual(new Map([[first.id, 'amended']]));
  expect([...folded.entries.keys()]).toEqual([first.id, amendment.id]);
});

test('what an amended version said and the new one leaves out is gone', () => {
  const write = pen();
  const first = write('stem-marked', { stem, mark: 'leave', purpose: 'seed', tag: 'A12' });
  const folded = fold([first, amend(write, first.id, { stem, mark: 'cut' })]);
  expect(folded.stand.stems.get(stem)).toMatchObject({ mark: 'cut', tag: undefined, purpose: undefined });
});

test('an amendment of an amendment applies to the entry at the end of the chain', () => {
  const write = pen();
  const first = mark(write, 'A1');
  const second = amend(write, first.id, { stem, mark: 'cut', tag: 'A2' });
  const third = amend(write, second.id, { stem, mark: 'cut', tag: 'A3' });
  expect(tagIn([first, second, third])).toBe('A3');
  expect(codes([first, second, third])).not.toContain('two-corrections');
});

test('striking the last amendment of a chain brings back the version before it', () => {
  const write = pen();
  const first = mark(write, 'A1');
  const second = amend(write, first.id, { stem, mark: 'cut', tag: 'A2' });
  const third = amend(write, second.id, { stem, mark: 'cut', tag: 'A3' });
  const struck = strike(write, third.id);
  const folded = fold([first, second, third, struck]);
  expect(folded.stand.stems.get(stem)?.tag).toBe('A2');
  expect(folded.standings.get(third.id)).toBe('struck');
});

test('striking an entry that was amended takes it out, amendment and all', () => {
  const write = pen();
  const first = mark(write, 'A1');
  const second = amend(write, first.id, { stem, mark: 'cut', tag: 'A2' });
  // Of the two corrections of the first version the later id applies: the strike.
  expect(fold([first, second, strike(write, first.id)]).stand.stems.size).toBe(0);
  expect(fold([first, second, strike(write, second.id)]).stand.stems.get(stem)?.tag).toBe('A1');
});

test('a strike takes an entry out of the stand and a strike of the strike restores it, and so on', () => {
  const write = pen();
  const log = [mark(write, 'A1')];
  for (const present of [false, true, false, true]) {
    log.push(strike(write, log.at(-1)?.id ?? ''));
    expect(fold(log).stand.stems.has(stem)).toBe(present);
  }
});

test('of two amendments of one version the later id applies, whichever came first, and it is a finding', () => {
  const write = pen();
  const first = mark(write, 'A1');
  const earlier = amend(write, first.id, { stem, mark: 'cut', tag: 'A2' });
  const later = amend(write, first.id, { stem, mark: 'cut', tag: 'A3' });
  for (const log of [
    [first, earlier, later],
    [later, first, earlier],
  ]) {
    const folded = fold(log);
    expect(folded.stand.stems.get(stem)?.tag).toBe('A3');
    expect(folded.standings.get(earlier.id)).toBe('replaced');
    expect(folded.findings.find(({ code }) => code === 'two-corrections')?.entries).toEqual([
      earlier.id,
      later.id,
    ]);
  }
  expect(tagIn([first, earlier, later, strike(write, later.id)])).toBe('A2');
});

test('an amendment for another kind does not apply, and is a finding', () => {
  const write = pen();
  const first = mark(write, 'A1');
  const misfit = amend(write, first.id, { text: 'not a mark' }, 'note-written');
  const folded = fold([first, misfit]);
  expect(folded.stand.stems.get(stem)?.tag).toBe('A1');
  expect(folded.stand.notes).toEqual([]);
  expect(folded.standings).toEqual(new Map([[misfit.id, 'waiting']]));
  expect(folded.findings.map(({ code }) => code)).toEqual(['missing-target']);
});

test('a later amendment for another kind does not push aside the one that fits', () => {
  const write = pen();
  const first = mark(write, 'A1');
  const fitting = amend(write, first.id, { stem, mark: 'cut', tag: 'A2' });
  const misfit = amend(write, first.id, { text: 'not a mark' }, 'note-written');
  const folded = fold([first, fitting, misfit]);
  expect(folded.stand.stems.get(stem)?.tag).toBe('A2');
  expect(folded.standings.get(fitting.id)).toBeUndefined();
  expect(folded.findings.map(({ code }) => code)).not.toContain('two-corrections');
});

test('a strike cannot be amended: what tries to does not shield it from being struck', () => {
  const write = pen();
  const first = mark(write, 'A1');
  const struck = strike(write, first.id);
  const restored = strike(write, struck.id);
  const misfit = amend(write, struck.id, { strikes: first.id, reason: 'again' }, 'entry-struck');
  expect(tagIn([first, struck, restored, misfit])).toBe('A1');
});

test('an amendment of an amendment is for the same kind too', () => {
  const write = pen();
  const first = mark(write, 'A1');
  const second = amend(write, first.id, { stem, mark: 'cut', tag: 'A2' });
  const misfit = amend(write, second.id, { text: 'not a mark' }, 'note-written');
  const folded = fold([first, second, misfit]);
  expect(folded.stand.stems.get(stem)?.tag).toBe('A2');
  expect(folded.stand.notes).toEqual([]);
  expect(folded.standings.get(misfit.id)).toBe('waiting');
});

test('strikes that lead round in a circle do not apply, and are findings', () => {
  const write = pen();
  const first = mark(write, 'A1');
  const [one, two] = [strike(write, uuid(3)), strike(write, uuid(2))];
  expect([one.id, two.id]).toEqual([uuid(2), uuid(3)]);
  const folded = fold([first, one, two]);
  expect(folded.stand.stems.has(stem)).toBe(true);
  expect(folded.findings.map(({ code }) => code)).toEqual(['missing-target', 'missing-target']);
  expect(folded.standings).toEqual(
    new Map([
      [one.id, 'waiting'],
      [two.id, 'waiting'],
    ]),
  );
});

test('a strike of itself applies to nothing', () => {
  const write = pen();
  const first = mark(write, 'A1');
  const itself = strike(write, uuid(2));
  expect(itself.id).toBe(uuid(2));
  expect(fold([first, itself]).stand.stems.has(stem)).toBe(true);
});

test('a correction whose entry is not here yet waits, and applies when it comes', () => {
  const write = pen();
  const first = mark(write, 'A21');
  const amendment = amend(write, first.id, { stem, mark: 'cut', tag: 'A12' });
  expect(codes([amendment])).toEqual(['missing-target']);
  expect(fold([amendment]).standings.get(amendment.id)).toBe('waiting');
  expect(tagIn([amendment, first])).toBe('A12');
  expect(codes([amendment, first])).not.toContain('missing-target');
});

test('an entry amended to a version that a newer program made is kept and not guessed at', () => {
  const write = pen();
  const first = mark(write, 'A1');
  const newer = write('entry-amended', {
    replaces: first.id,
    type: 'stem-marked',
    v: 99,
    body: { stem, mark: 'cut', tag: 'A2' },
    happenedAt: { at: start, precision: 'minute' },
    reason: 'misread',
  });
  const folded = fold([first, newer]);
  expect(folded.stand.stems.size).toBe(0);
  expect(folded.standings.get(first.id)).toBe('not readable here');
});

describe('the entry that opened the logbook', () => {
  const opening: Line = [
    'logbook-opened',
    { name: 'Cold Spring woods', zone: 'America/New_York', units: 'us', crs: 'EPSG:2264' },
  ];
  const strike: Line = ['entry-struck', { strikes: uuid(1), reason: 'a try' }];
  const amendment: Line = [
    'entry-amended',
    {
      replaces: uuid(1),
      type: 'logbook-opened',
      v: 1,
      body: { name: 'Warm Spring woods', zone: 'Europe/Stockholm', units: 'metric', crs: 'EPSG:3006' },
      happenedAt: { at: '2026-03-02T09:01:00-05:00', precision: 'minute' },
      reason: 'misheard',
    },
  ];

  it('stays in force when somebody strikes it, and that is a finding', () => {
    const folded = fold(written(opening, strike));
    expect(folded.stand.logbook?.body.name).toBe('Cold Spring woods');
    expect(folded.standings.get(uuid(1))).toBeUndefined();
    expect(folded.standings.get(uuid(2))).toBe('waiting');
    expect(folded.findings).toMatchObject([{ code: 'missing-target', entries: [uuid(1), uuid(2)] }]);
  });

  it('takes its amendments whatever strikes came after them', () => {
    const folded = fold(written(opening, amendment, strike));
    expect(folded.stand.logbook?.body.name).toBe('Warm Spring woods');
    expect(folded.standings.get(uuid(1))).toBe('amended');
    const restored = fold(written(opening, amendment, ['entry-struck', { strikes: uuid(2), reason: 'no' }]));
    expect(restored.stand.logbook?.body.name).toBe('Cold Spring woods');
  });

  it('is read in its last version that this program can read', () => {
    const [type, body] = amendment;
    const folded = fold(written(opening, amendment, [type, { ...body, replaces: uuid(2), v: 99 }]));
    expect(folded.stand.logbook?.body.name).toBe('Warm Spring woods');
  });

  it('is the first one in the log, though another one claims to be older', () => {
    const [first, second] = written(opening, [
      'logbook-opened',
      { ...opening[1], name: "somebody else's woods" },
      { happenedAt: { at: '2020-01-01T00:00:00-05:00', precision: 'day' } },
    ]);
    if (!first || !second) throw new Error('two entries were written');
    const folded = fold([second, { ...first, position: 0 }]);
    expect(folded.stand.logbook?.body.name).toBe('Cold Spring woods');
  });

  it('frames the log at every moment, as do the people who were named', () => {
    const naming: Line = ['person-named', { person: uuid(77), name: 'a'.repeat(64) }];
    const log = written(opening, naming, ['note-written', { text: 'rain' }]);
    const { stand, happenings } = fold(log, { until: Date.parse('2026-01-01T00:00:00Z') });
    expect(stand.logbook?.body.zone).toBe('America/New_York');
    expect([...stand.people.keys()]).toEqual([uuid(77)]);
    expect(happenings.map(({ event }) => event.type)).toEqual(['logbook-opened', 'person-named']);
  });
});
