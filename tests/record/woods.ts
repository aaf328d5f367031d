// A small invented logbook in a real file, and a desk at it whose clock stands still until it is moved.
import { randomBytes } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { v7 as newUuid } from 'uuid';
import { onTestFinished } from 'vitest';
import { readEnvelope } from '../../src/log/entry/index.ts';
import { createLogbook, type Log } from '../../src/log/store/index.ts';
import {
  type Desk,
  type Draft,
  openBook,
  type Question,
  type Recorded,
  readStand,
  recordDraft,
  sitDown,
} from '../../src/record/index.ts';

export type Woods = Readonly<{
  log: Log;
  desk: Desk;
  folder: string;
  /** Moves the desk's clock to a time. */
  setClock: (time: string) => void;
  /** Records a draft, whatever comes of it. */
  tryIt: (kind: string, fields?: Draft['fields'], more?: Partial<Draft>) => Promise<Recorded>;
  /** Records a draft that must go through; gives the id of its first entry. */
  record: (kind: string, fields?: Draft['fields'], more?: Partial<Draft>) => Promise<string>;
  size: () => Promise<number>;
}>;

/** 20 March 2026, ten in the morning where the woods are. */
const now = '2026-03-20T10:00:00-04:00';

/** A square of half a mile in the foothills of North Carolina. */
const boundary = '35.7100,-81.6900; 35.7100,-81.6810; 35.7170,-81.6810; 35.7170,-81.6900';

/** A logbook with a keeper and nothing else; `units` of bare numbers as asked. */
export async function emptyWoods(units: 'us' | 'metric' = 'us'): Promise<Woods> {
  const folder = mkdtempSync(join(tmpdir(), 'gapledger-record-'));
  const log = await createLogbook(join(folder, 'woods.logbook'));
  onTestFinished(async () => {
    await log.close();
    rmSync(folder, { recursive: true, force: true });
  });
  const clock = { now: Date.parse(now) };
  const outside = {
    now: () => clock.now,
    newId: () => newUuid(),
    newSalt: () => new Uint8Array(randomBytes(16)),
    readFile: (path: string) => new Uint8Array(readFileSync(path)),
  };
  const seat = { device: newUuid(), counter: { last: 0 } };
  const opened = await openBook(sitDown(log, seat, outside), {
    logbook: { name: 'Cold Spring woods', zone: 'America/New_York', units, crs: 'EPSG:2264' },
    person: { name: 'Ann Weaver', part: 'owner' },
  });
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const desk = sitDown(log, { ...seat, person: opened.person }, outside);
  const tryIt: Woods['tryIt'] = (kind, fields = {}, more = {}) =>
    recordDraft(desk, { kind, fields, ...more });
  return {
    log,
    desk,
    folder,
    setClock: (time) => {
      clock.now = Date.parse(time);
    },
    tryIt,
    record: async (kind, fields, more) => {
      const made = await tryIt(kind, fields, more);
      if (made.outcome !== 'recorded') throw new Error(`${kind}: ${JSON.stringify(made)}`);
      return made.envelopes[0]?.id ?? '';
    },
    size: async () => (await log.head()).size,
  };
}

/** The same with a block, a stake, a group, and in it two stems to cut and one to stay. */
export async function woods(): Promise<Woods> {
  const made = await emptyWoods();
  const { record } = made;
  await record('block-laid-out', { name: 'North cove', boundary });
  await record('stake-set', { label: 'A', position: '35.7130, -81.6850 +-4 m' });
  await record('group-laid-out', { label: 'G1', block: 'North cove' });
  await record('stem-marked', {
    mark: 'cut',
    tag: 'A12',
    species: 'scarlet oak',
    dbh: '14.2 in',
    group: 'G1',
  });
  await record('stem-marked', { mark: 'cut', tag: 'A13', group: 'G1' });
  await record('stem-marked', { mark: 'leave', tag: 'L3', group: 'G1', purpose: 'seed' });
  return made;
}

/** The questions that came back; an outcome without questions fails the test. */
export function questionsOf(recorded: Recorded): readonly Question[] {
  if (recorded.outcome !== 'questions')
    throw new Error(`no questions but ${JSON.stringify(recorded, null, 2)}`);
  return recorded.questions;
}

/** What was wrong, one text for each field. */
export function problemsOf(recorded: Recorded) {
  if (recorded.outcome !== 'problems') throw new Error(`no problems but ${recorded.outcome}`);
  return recorded.problems;
}

/** The entries that this draft appended. */
export function entriesOf(recorded: Recorded) {
  if (recorded.outcome !== 'recorded') throw new Error(JSON.stringify(recorded));
  return recorded.envelopes;
}

/** The last entry of the log as it is stored. */
export async function lastEntry(log: Log) {
  const { size } = await log.head();
  const stored = await log.at(size - 1);
  if (stored === undefined) throw new Error('the log is empty');
  return readEnvelope(stored.bytes);
}

/** The stand now, and the stem of this tag in it. */
export async function stemTagged(log: Log, tag: string) {
  const folded = await readStand(log);
  const [id] = folded.stand.tags.get(tag.toLowerCase()) ?? [];
  return id === undefined ? undefined : folded.stand.stems.get(id);
}

/** Everything that is in the files of the folder, as one text of bytes. */
export function fileBytes(folder: string): string {
  return readdirSync(folder)
    .map((name) => readFileSync(join(folder, name)).toString('latin1'))
    .join('\n');
}
