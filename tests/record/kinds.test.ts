// The example of every kind, recorded into one logbook as somebody would type it, read back and folded.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { kinds, kindTypes, readBody } from '../../src/events/index.ts';
import { verifyLogbook } from '../../src/log/store/index.ts';
import { loadAll, readStand } from '../../src/record/index.ts';
import { emptyWoods, lastEntry } from './woods.ts';

/** What an example lacks because the program fills it in, or because it names something of another logbook. */
const given: Readonly<Record<string, Record<string, unknown>>> = {
  'report-issued': { size: '1', root: 'ab'.repeat(32), sha256: 'cd'.repeat(32), program: 'gapledger 0.1.0' },
  'person-named': { name: 'Ottilie Marsh' },
  'personal-data-erased': { person: 'Ottilie Marsh' },
  'entry-amended': { replaces: '2', tag: 'L4' },
  'entry-struck': { strikes: '5' },
};

it('every example goes in, is stored as this version of its kind, and folds without an unreadable entry', async () => {
  const { record, log, folder } = await emptyWoods();
  writeFileSync(join(folder, 'stump-A12.jpg'), 'not really a photo');
  // What the examples speak of.
  await record('stem-marked', { mark: 'leave', tag: 'L3' });
  await record('group-laid-out', { label: 'G0' });
  await record('note-written', { text: 'first' });
  await record('note-written', { text: 'this one is corrected' });
  const order = [
    ...kindTypes.filter(
      (type) => type !== 'tag-replaced' && type !== 'entry-amended' && type !== 'entry-struck',
    ),
    'entry-amended',
    'entry-struck',
    'tag-replaced',
  ] as const;
  const seen = new Set<string>();
  for (const type of order) {
    const fields: Record<string, unknown> = { ...kinds[type].example, ...given[type] };
    if (type === 'photo-taken') fields.photo = join(folder, 'stump-A12.jpg');
    const more = { answers: ['anyway', 'keep-both'] };
    await record(type, fields, more);
    const entry = await lastEntry(log);
    expect(entry).toMatchObject({ type, v: kinds[type].v });
    const reading = readBody(entry.type, entry.v, entry.body);
    expect(reading.ok, `${type}: ${JSON.stringify(reading)}`).toBe(true);
    seen.add(type);
  }
  expect([...seen].sort()).toEqual([...kindTypes].sort());
  const { standings, entries } = await readStand(log);
  expect([...standings.values()]).not.toContain('not readable here');
  expect(entries.size).toBe((await loadAll(log)).length);
  expect(await verifyLogbook(log.facts().path)).toMatchObject({ ok: true });
});
