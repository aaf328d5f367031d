// Logbooks that released versions wrote, kept as they were: each later version opens, verifies and folds them.

import { createHash } from 'node:crypto';
import { copyFileSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { headText, parseHead, type TreeHead } from '../../src/log/entry/index.ts';
import { openLogbook, verifyLogbook } from '../../src/log/store/index.ts';
import { loadAll } from '../../src/record/index.ts';
import { fold } from '../../src/stand/index.ts';
import { all, emptyPlace, entries, noon } from './made-up.ts';

const folder = fileURLToPath(new URL('../../fixtures/logbooks/', import.meta.url));
const format1 = `${folder}format-1.logbook`;

/** The head that stands in the folder's README, written there on the day the file was made. */
function headInReadme(file: string): TreeHead {
  const line = readFileSync(`${folder}README.md`, 'utf8')
    .split('\n')
    .find((row) => row.includes(`\`${file}\``));
  const head = parseHead(/`(\d+:[0-9a-f]{64})`/.exec(line ?? '')?.[1] ?? '');
  if (!head.ok) throw new Error(`${file} is not in the README.`);
  return head.head;
}

it('format 1 is the file that was made on 2026-11-25, byte for byte', () => {
  expect(createHash('sha256').update(readFileSync(format1)).digest('hex')).toBe(
    'd8cd2cc4e0f84f45f2ae00612a267bc9bba2137664fe88fd30a4c83f65c1406a',
  );
});

it('format 1 opens for reading, verifies against the head in the README and is left alone', async () => {
  const since = headInReadme('format-1.logbook');
  expect(headText(since)).toBe('81:6cb7c61e2fa02d7be9484a3ba1698c8f7f567fb59e8d3a111ba78ba4c9069083');
  const log = await openLogbook(format1, { readOnly: true });
  expect(log.facts()).toMatchObject({ format: 1, readOnly: true, newer: false });
  expect(await log.head()).toEqual(since);
  await log.close();
  expect(await verifyLogbook(format1, { since })).toMatchObject({
    ok: true,
    size: 81,
    root: since.root,
    notes: { erased: 1, aside: 0, newer: false },
  });
  expect(readdirSync(folder).toSorted()).toEqual(['README.md', 'format-1.logbook']);
});

it('format 1 is folded whole: every kind is still read, and the woodlot is the one that was recorded', async () => {
  const log = await openLogbook(format1, { readOnly: true });
  const { stand, standings, entries: folded } = fold(await loadAll(log));
  await log.close();
  expect(folded.size).toBe(81);
  expect([...standings.values()]).not.toContain('not readable here');
  expect(stand.logbook?.body.name).toBe('Sourwood Hollow');
  // Counted in the entries themselves, by kind; 18 stems were marked and one was found down without a mark.
  expect({
    people: stand.people.size,
    groups: stand.groups.size,
    stems: stand.stems.size,
    saplings: stand.saplings.size,
    hazards: stand.hazards.size,
    damages: stand.damages.size,
  }).toEqual({ people: 4, groups: 3, stems: 19, saplings: 7, hazards: 3, damages: 1 });
});

it('a copy of format 1 takes new entries and still begins with what it was', async () => {
  const copy = emptyPlace();
  copyFileSync(format1, copy);
  const log = await openLogbook(copy);
  expect(await log.append(entries(1, 2), noon)).toMatchObject([
    { outcome: 'recorded', position: 81 },
    { outcome: 'recorded', position: 82 },
  ]);
  expect(await all(log)).toHaveLength(83);
  await log.close();
  expect(await verifyLogbook(copy, { since: headInReadme('format-1.logbook') })).toMatchObject({
    ok: true,
    size: 83,
  });
});
