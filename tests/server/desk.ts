// A small invented logbook in a real file, a desk at it, and the app round that desk.
import { randomBytes } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { v7 as newUuid } from 'uuid';
import { createLogbook, type Log } from '../../src/log/store/index.ts';
import { type Desk, openBook, recordDraft, sitDown } from '../../src/record/index.ts';
import { type Answered, createApp } from '../../src/server/index.ts';

export type House = Readonly<{
  log: Log;
  desk: Desk;
  path: string;
  app: ReturnType<typeof createApp>;
  answered: Answered[];
  /** How often the server said that something was recorded. */
  remembered: () => number;
  /** Records a draft past the server, as another process would. */
  record: (
    kind: string,
    fields: Record<string, unknown>,
    more?: { at?: string; answers?: string[] },
  ) => Promise<void>;
  ask: (path: string, init?: RequestInit) => Promise<Response>;
  end: () => Promise<void>;
}>;

/** 20 March 2026, ten in the morning where the woods are. */
export const now = Date.parse('2026-03-20T10:00:00-04:00');

/** Makes a house with an opened logbook, and with something in it when asked for. */
export async function house({ empty = false }: { empty?: boolean } = {}): Promise<House> {
  const folder = mkdtempSync(join(tmpdir(), 'gapledger-server-'));
  const path = join(folder, 'woods.logbook');
  const log = await createLogbook(path);
  const outside = {
    now: () => now,
    newId: () => newUuid(),
    newSalt: () => new Uint8Array(randomBytes(16)),
    readFile: () => new TextEncoder().encode('a secret of this machine'),
  };
  const seat = { device: newUuid(), counter: { last: 0 } };
  const opened = await openBook(sitDown(log, seat, outside), {
    logbook: { name: 'Laurel Run woods', zone: 'America/New_York', units: 'us', crs: 'EPSG:2264' },
    person: { name: 'Ann Weaver', part: 'owner' },
  });
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const desk = sitDown(log, { ...seat, person: opened.person }, outside);
  const answered: Answered[] = [];
  let remembered = 0;
  const app = createApp({
    desk,
    program: 'gapledger 0.1.0',
    now: () => now,
    remembered: () => {
      remembered += 1;
    },
    logger: (one) => answered.push(one),
  });
  const record: House['record'] = async (kind, fields, more = {}) => {
    const made = await recordDraft(desk, { kind, fields, ...more });
    if (made.outcome !== 'recorded') throw new Error(`${kind}: ${JSON.stringify(made)}`);
  };
  if (!empty) await furnish(record);
  return {
    log,
    desk,
    path,
    app,
    answered,
    remembered: () => remembered,
    record,
    ask: async (address, init) => app.request(address, init),
    end: async () => {
      await log.close();
      rmSync(folder, { recursive: true });
    },
  };
}

/** A block and two groups: a hang-up and a hazard in one, all done in the other, a late entry, a change of mind. */
async function furnish(record: House['record']): Promise<void> {
  const at = (time: string) => ({ at: `2026-03-19 ${time}` });
  await record('block-laid-out', {
    name: 'Lower bench',
    area: '9.5 ac',
    boundary:
      'EPSG:2264 1209000,741000; EPSG:2264 1209900,741000; EPSG:2264 1209900,741800; EPSG:2264 1209000,741800',
  });
  await record('stake-set', { label: 'A', position: 'EPSG:2264 1209400,741300' });
  await record(
    'group-laid-out',
    { label: 'G1', block: 'Lower bench', reason: 'declining scarlet oak' },
    at('08:00'),
  );
  await record('group-laid-out', { label: 'G2', block: 'Lower bench' }, at('08:05'));
  const stem = (tag: string, more: Record<string, unknown>) =>
    record('stem-marked', { tag, mark: 'cut', group: 'G1', ...more }, at('08:30'));
  await stem('A1', { species: 'scarlet oak', dbh: '16.4', position: '40 mag, 52 ft from stake A' });
  await stem('A2', { species: 'red maple', dbh: '11.0 in', position: '75 mag, 61 ft from stake A' });
  await stem('A3', {
    mark: 'leave',
    species: 'white oak',
    purpose: 'seed',
    position: '10 mag, 30 ft from stake A',
  });
  await stem('B1', { group: 'G2', species: 'red maple', dbh: '9 in' });
  await stem('B2', { group: 'G2', species: 'red maple', dbh: '7.5 in' });
  await record(
    'sapling-protected',
    {
      label: 'S1',
      species: 'white oak',
      group: 'G1',
      height: '6 ft',
      position: '55 mag, 40 ft from stake A',
    },
    at('08:40'),
  );
  await record(
    'hazard-noted',
    { what: 'hanging-limb', stem: 'A3', note: 'over the skid trail' },
    at('08:45'),
  );
  await record('stem-felled', { stem: 'A1', came: 'hung-up', hungOn: 'A3', lay: '120 mag' }, at('09:30'));
  await record('stem-felled', { stem: 'B1', came: 'down' }, at('10:00'));
  await record('decay-measured', { stem: 'B1', found: 'rot', upTheButt: '3 ft' }, at('10:10'));
  await record(
    'damage-noted',
    { to: 'leave-tree', stem: 'A3', byStem: 'A1', woundArea: '40 in2' },
    at('10:15'),
  );
  await record('opening-closed', { group: 'G2', slash: 'lopped' }, { ...at('16:00'), answers: ['anyway'] });
  await record('note-written', { text: 'wind rising' });
}
