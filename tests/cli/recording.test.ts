// gapledger record: flags, questions, files of entries, who records, and what is printed.
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openLogbook } from '../../src/log/store/index.ts';
import { demo, emptyPlace, opening, started } from './gapledger.ts';

type Log = {
  number: number;
  kind: string;
  standing: string;
  entry: { by: string; body: Record<string, unknown> };
}[];

describe('one entry', () => {
  it('a mark needs only cut or leave, and says where it stands', () => {
    const { done, json } = started();
    expect(done(['record', 'stem', 'marked', '--mark', 'cut'])).toContain('Recorded as entry 2: ');
    const log = json<Log>(['log', '--kind', 'stem-marked']);
    expect(log).toHaveLength(1);
    expect(log[0]).toMatchObject({ number: 2, entry: { body: { mark: 'cut' } } });
  });

  it('with --json gives receipts and entries', () => {
    const { json } = started();
    const made = json<{ receipts: { outcome: string; position: number }[] }>([
      'record',
      'stem-marked',
      '--mark',
      'leave',
      '--dbh',
      '14.2',
    ]);
    expect(made.receipts).toMatchObject([{ outcome: 'recorded', position: 2 }]);
  });

  it('a question that nobody can answer ends with 2, the flags that answer, and nothing recorded', () => {
    const { done, run, json } = started();
    done(['record', 'stem-marked', '--mark', 'cut', '--tag', 'A1']);
    const words = ['record', 'stem-marked', '--mark', 'leave', '--tag', 'a1'];
    const { code, error, out } = run(words);
    expect([code, out]).toEqual([2, '']);
    expect(error).toContain('Tag a1 is on a standing stem already.');
    expect(error).toContain('--same-stem: ');
    expect(error).toContain('--keep-both: ');
    expect(error).toContain('Nothing was recorded.');
    const asked = run([...words, '--json']);
    expect(JSON.parse(asked.out)).toMatchObject({
      outcome: 'questions',
      questions: [{ code: 'tag-in-use' }],
    });
    expect(json<Log>(['log'])).toHaveLength(3);
    expect(done([...words, '--same-stem'])).toContain('entry 3');
  });

  it('all that is wrong is named at once, with field, value and remedy', () => {
    const { code, error } = started().run(['record', 'stem-marked', '--dbh', 'thick', '--species', 'xyzzy']);
    expect(code).toBe(2);
    expect(error).toMatch(/--mark: is needed/);
    expect(error).toMatch(/--dbh "thick": /);
    expect(error).toMatch(/--species "xyzzy": /);
  });

  it('a hung-up stem is answered with the caution', () => {
    const { done } = started();
    done(['record', 'stem-marked', '--mark', 'cut', '--tag', 'A1']);
    expect(done(['record', 'stem-felled', '--stem', 'A1', '--came', 'hung-up'])).toMatch(/Stop\..*hung/s);
  });

  it('an amended entry is shown in both versions', () => {
    const { done, json } = started();
    done(['record', 'stem-marked', '--mark', 'cut', '--tag', 'A1', '--dbh', '21.4']);
    expect(
      done(['record', 'entry-amended', '--replaces', '2', '--dbh', '12.4', '--reason', 'misread']),
    ).toContain('entry 2 amended');
    const shown = done(['log', '--entry', '2']);
    expect(shown).toMatch(/recorded in entry 2(.*\n)*.*dbh +21\.4/);
    expect(shown).toMatch(/amended in entry 3.*misread \(in force\)(.*\n)*\* +dbh +12\.4/);
    expect(json<{ versions: unknown[] }>(['log', '--entry', '2']).versions).toHaveLength(2);
  });
});

describe('who records', () => {
  it('the one who started the logbook; others by name; the machine keeps its own person', () => {
    const { done, json } = started();
    done(['record', 'person-named', '--name', 'Dell Pruitt', '--part', 'feller']);
    done(['record', 'note-written', '--text', 'one', '--by', 'Dell Pruitt']);
    done(['record', 'note-written', '--text', 'two']);
    const by = json<Log>(['log', '--kind', 'note-written']).map(({ entry }) => entry.by);
    expect(new Set(by).size).toBe(2);
    done(['record', 'note-written', '--text', 'three', '--by', 'Dell Pruitt', '--remember']);
    done(['record', 'note-written', '--text', 'four']);
    const after = json<Log>(['log', '--kind', 'note-written']).map(({ entry }) => entry.by);
    expect(after.slice(2)).toEqual([by[0], by[0]]);
  });

  it('a machine that is new to a logbook of several lists them, and keeps the first answer', () => {
    const { done, run, path } = demo();
    // A copy of the file elsewhere is a new device.
    done(['backup', 'copy.logbook']);
    const there = ['--logbook', path('copy.logbook')];
    const { code, error } = run(['record', 'note-written', '--text', 'x', ...there]);
    expect(code).toBe(2);
    for (const name of ['Ruth Calloway', 'Dell Pruitt', 'Ines Okafor'])
      expect(error).toContain(`--by "${name}"`);
    done(['record', 'note-written', '--text', 'x', '--by', 'Ines Okafor', ...there]);
    done(['record', 'note-written', '--text', 'y', ...there]);
    const log = JSON.parse(done(['log', '--last', '2', '--json', ...there])) as Log;
    expect(log[0]?.entry.by).toBe(log[1]?.entry.by);
  });

  it('the demo is recorded in as its keeper', () => {
    const { done, json } = demo();
    done(['record', 'note-written', '--text', 'looked round']);
    const log = json<Log>(['log']);
    expect(log.at(-1)?.entry.by).toBe(log[0]?.entry.by);
  });
});

describe('a file of entries', () => {
  const drafts = ['A1', 'A2']
    .map((tag) => JSON.stringify({ kind: 'stem-marked', fields: { mark: 'cut', tag } }))
    .join('\n');

  it('comes from standard input with "-", or from a file; a dry run appends nothing', () => {
    const { done, json, path } = started();
    writeFileSync(path('drafts.jsonl'), drafts);
    done(['record', '--from', 'drafts.jsonl', '--dry-run']);
    expect(json<Log>(['log'])).toHaveLength(2);
    expect(done(['record', '--from', '-'], drafts)).toContain('Recorded 2 entries');
    expect(json<Log>(['log'])).toHaveLength(4);
  });

  it('of drafts goes in whole or not at all', () => {
    const { run, json } = started();
    const { code, error } = run(
      ['record', '--from', '-'],
      `${drafts}\n${JSON.stringify({ kind: 'stem-marked', fields: { mark: 'ct' } })}`,
    );
    expect(code).toBe(2);
    expect(error).toContain('line 3');
    expect(json<Log>(['log'])).toHaveLength(2);
  });

  it('of finished entries: recorded, already recorded, and 4 for a conflict, 2 for an unreadable line', () => {
    const first = started();
    first.done(['record', 'note-written', '--text', 'one']);
    const entries = first.json<{ entry: Record<string, unknown> }[]>(['log', '--last', '1']);
    const { position: _position, receivedAt: _receivedAt, ...entry } = entries[0]?.entry ?? {};
    const second = started();
    const line = JSON.stringify(sorted(entry));
    expect(second.done(['record', '--from', '-'], line)).toContain('1 recorded, 0 already');
    expect(second.done(['record', '--from', '-'], line)).toContain('0 recorded, 1 already');
    const other = second.run(['record', '--from', '-'], line.replace('"one"', '"two"'));
    expect([other.code, other.error]).toEqual([4, expect.stringContaining('Both are kept')]);
    expect(second.run(['record', '--from', '-'], 'not json').code).toBe(2);
    expect(second.done(['status'])).toContain('Kept aside');
    expect(second.run(['verify']).code).toBe(0);
  });
});

describe('a file of entries, byte by byte', () => {
  it('keeps aside the very bytes that it cannot read, also those that are no UTF-8', async () => {
    const { run, path } = started();
    // 0xff and 0xfe are in no UTF-8 text (RFC 3629, section 1).
    writeFileSync(path('phone.jsonl'), Buffer.from([0x7b, 0xff, 0xfe, 0x7d, 0x0d, 0x0a, 0x20, 0x0a]));
    expect(run(['record', '--from', 'phone.jsonl']).code).toBe(2);
    const log = await openLogbook(path('woods.logbook'), { readOnly: true });
    const aside = (await log.aside()).map(({ bytes }) => [...bytes]);
    await log.close();
    expect(aside).toEqual([[0x7b, 0xff, 0xfe, 0x7d]]);
  });

  it('with --json prints JSON for a dry run and for an empty file as well', () => {
    const { json, path, run } = started();
    writeFileSync(path('empty.jsonl'), '\n');
    expect(json(['record', '--from', 'empty.jsonl'])).toMatchObject({ receipts: [], recorded: 0 });
    writeFileSync(path('drafts.jsonl'), '{"kind": "note-written", "fields": {"text": "one"}}');
    const dry = ['record', '--from', 'drafts.jsonl', '--dry-run'];
    expect(json(dry)).toEqual({ dryRun: true, wouldRecord: 1 });
    writeFileSync(path('phone.jsonl'), '{"no": "draft"}');
    const foreseen = run(['record', '--from', 'phone.jsonl', '--dry-run', '--json']);
    expect(foreseen.code).toBe(2);
    expect(JSON.parse(foreseen.out)).toMatchObject({
      dryRun: true,
      unreadable: 1,
      lines: [{ line: 1, outcome: 'unreadable', issue: { field: 'no' } }],
    });
    expect(json<Log>(['log'])).toHaveLength(2);
  });
});

describe('answers as flags', () => {
  it('the refusal names a flag for each stem that may be meant, and that flag is understood', () => {
    const { done, run, json } = started();
    done(['record', 'stem-marked', '--mark', 'cut', '--tag', 'A1']);
    done(['record', 'stem-marked', '--mark', 'cut', '--tag', 'A1', '--keep-both']);
    const mark = ['record', 'stem-marked', '--mark', 'leave', '--tag', 'A1'];
    const asked = run([...mark, '--same-stem']);
    expect(asked.code).toBe(2);
    const flags = [...asked.error.matchAll(/--same-stem ([0-9a-f-]{36})/g)].map(([, id]) => id ?? '');
    expect(flags).toHaveLength(2);
    done([...mark, '--same-stem', flags[1] ?? '']);
    expect(json<Log>(['log', '--last', '1'])[0]?.entry.body.stem).toBe(flags[1]);
  });

  it('a hung-up stem that has come down is recorded as cleared', () => {
    const { done, json } = started();
    done(['record', 'stem-marked', '--mark', 'cut', '--tag', 'A1']);
    done(['record', 'stem-felled', '--stem', 'A1', '--came', 'hung-up']);
    done(['record', 'stem-felled', '--stem', 'A1', '--came', 'down', '--lay', '40 mag', '--cleared']);
    expect(json<Log>(['log', '--last', '1'])[0]?.kind).toBe('hang-up-cleared');
  });
});

describe('an amendment', () => {
  it('changes the reason of the entry by a flag of its own', () => {
    const { done, json } = started();
    done(['record', 'stem-marked', '--mark', 'cut', '--tag', 'A1', '--reason', 'leaning']);
    const amend = ['record', 'entry-amended', '--replaces', '2', '--reason', 'looked again'];
    done([...amend, '--its-reason', 'dead top']);
    const [last] = json<{ entry: { body: object } }[]>(['log', '--last', '1']);
    expect(last?.entry.body).toMatchObject({ reason: 'looked again', body: { reason: 'dead top' } });
  });

  it('takes several fields out by name', () => {
    const { done, json } = started();
    done(['record', 'stem-marked', '--mark', 'cut', '--dbh', '14', '--merchantable-height', '32']);
    const amend = ['record', 'entry-amended', '--replaces', '2', '--reason', 'guessed'];
    done([...amend, '--take-out', 'dbh', '--take-out', 'merchantable-height']);
    const [last] = json<{ entry: { body: { body: object } } }[]>(['log', '--last', '1']);
    expect(Object.keys(last?.entry.body.body ?? {}).sort()).toEqual(['mark', 'stem']);
  });
});

/** RFC 8785 wants the members of objects in the order of their names. */
function sorted(value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, member]) => [name, sorted(member)]),
  );
}

describe('starting a logbook', () => {
  it.each([
    ['zone', 'Mars/Olympus'],
    ['units', 'miles'],
    ['crs', 'EPSG:1'],
    ['declination', 'west'],
  ])('a wrong --%s leaves nothing behind', (flag, value) => {
    const { run, path } = emptyPlace();
    const { code, error } = run(opening('woods.logbook', { [flag]: value }));
    expect(code).toBe(2);
    expect(error).toContain(value);
    for (const ending of ['', '-wal', '-shm']) expect(existsSync(path(`woods.logbook${ending}`))).toBe(false);
  });

  it('where nobody can be asked, says all that is missing and wrong at once, by flag', () => {
    const { run, path } = emptyPlace();
    const bare = run(['init', 'woods.logbook']);
    expect(bare.code).toBe(2);
    for (const flag of ['name', 'zone', 'units', 'crs', 'by'])
      expect(bare.error).toContain(`--${flag}: is needed.`);
    const words = ['--zone', 'Mars/Olympus', '--crs', 'EPSG:1', '--breast-height', 'chest'];
    const wrong = run(['init', 'woods.logbook', ...words]).error;
    for (const flag of ['name', 'zone', 'crs', 'breast-height']) expect(wrong).toContain(`--${flag}`);
    expect(existsSync(path('woods.logbook'))).toBe(false);
  });

  it('never over a file that is there, a demo neither', () => {
    const { run, path } = started();
    const before = readFileSync(path('woods.logbook'));
    expect(run(opening('woods.logbook')).code).toBe(2);
    expect(run(['demo', 'woods.logbook']).code).toBe(2);
    expect(readFileSync(path('woods.logbook'))).toEqual(before);
  });

  it('proposes reference systems for a place', () => {
    // EPSG:2264 is NAD83 / North Carolina (ftUS) in the EPSG register; 35.71° N, 81.68° W is in its area of use.
    const place = emptyPlace();
    const near = ['init', 'woods.logbook', '--near', '35.7121,-81.6834'];
    expect(place.done(near)).toContain('EPSG:2264');
    expect(place.json<{ code: string }[]>(near).map(({ code }) => code)).toContain('EPSG:2264');
    expect(existsSync(place.path('woods.logbook'))).toBe(false);
  });
});
