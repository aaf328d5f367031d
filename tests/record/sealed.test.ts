// Names, contacts and photos: kept beside the log, and gone from the file when they are erased.
import { createHash } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { openLogbook, verifyLogbook } from '../../src/log/store/index.ts';
import { knownNames, readStand } from '../../src/record/index.ts';
import { fileBytes, lastEntry, problemsOf, woods } from './woods.ts';

it('a name stands in no entry, only its hash does', async () => {
  const here = await woods();
  await here.record('person-named', { name: 'Barnaby Quill', part: 'feller', contact: '828-555-0142' });
  const entry = await lastEntry(here.log);
  expect(JSON.stringify(entry)).not.toMatch(/Barnaby|555-0142/);
  expect(entry.sealed).toEqual([entry.body.name, entry.body.contact]);
  // What is sealed is SHA-256(salt ‖ bytes), recomputed here with Node's own.
  const row = await here.log.sealed(entry.body.name as string);
  const hash = createHash('sha256')
    .update(row?.salt ?? '')
    .update('Barnaby Quill')
    .digest('hex');
  expect(entry.body.name).toBe(hash);
});

it('erased names are in no byte of the files, other names stay, and verify says so', async () => {
  const here = await woods();
  await here.record('person-named', { name: 'Barnaby Quill', part: 'feller', contact: '828-555-0142' });
  await here.record('person-named', { name: 'Ottilie Marsh', part: 'helper' });
  expect(fileBytes(here.folder)).toContain('Barnaby Quill');
  await here.record('personal-data-erased', { person: 'Barnaby Quill', reason: 'asked for by the person' });
  expect((await lastEntry(here.log)).erases).toHaveLength(2);
  const { path } = here.log.facts();
  await here.log.close();
  const bytes = fileBytes(here.folder);
  expect(bytes).not.toContain('Barnaby');
  expect(bytes).not.toContain('555-0142');
  expect(bytes).toContain('Ottilie Marsh');
  expect(await verifyLogbook(path)).toMatchObject({ ok: true, notes: { erased: 2 } });
  const log = await openLogbook(path, { readOnly: true });
  const names = await knownNames(log, await readStand(log));
  expect([...names.values()].sort()).toEqual(['Ann Weaver', 'Ottilie Marsh']);
  await log.close();
});

it('no version of a name is left in the files: replaced and struck ones go too', async () => {
  const here = await woods();
  await here.record('person-named', { name: 'Barnaby Qwill', part: 'feller', contact: '828-555-0142' });
  const named = String((await here.size()) - 1);
  const person = (await lastEntry(here.log)).body.person as string;
  const amend = (name: string) => here.record('entry-amended', { replaces: named, name, reason: 'misspelt' });
  await amend('Barnaby Quilt');
  const wrong = await amend('Barnaby Quirk');
  await here.record('entry-struck', { strikes: wrong, reason: 'wrong as well' });
  await amend('Barnaby Quill');
  await here.record('entry-struck', { strikes: named, reason: 'never worked here' });
  for (const name of ['Qwill', 'Quilt', 'Quirk', 'Quill'])
    expect(fileBytes(here.folder)).toContain(`Barnaby ${name}`);
  await here.record('personal-data-erased', { person, reason: 'asked for by the person' });
  expect((await lastEntry(here.log)).erases).toHaveLength(5);
  const { path } = here.log.facts();
  await here.log.close();
  expect(fileBytes(here.folder)).not.toMatch(/Barnaby|555-0142/);
  expect(await verifyLogbook(path)).toMatchObject({ ok: true, notes: { erased: 5 } });
});

it('an erasure that would erase nothing is refused', async () => {
  const here = await woods();
  const nobody = '01970000-0000-7000-8000-0000000000aa';
  const [problem] = problemsOf(await here.tryIt('personal-data-erased', { person: nobody, reason: 'x' }));
  expect(problem?.remedy).toContain('nothing to erase');
});

it('the photo to be erased is named by its entry; a file is not taken in, and the photos there are offered', async () => {
  const here = await woods();
  const file = join(here.folder, 'face.jpg');
  writeFileSync(file, 'a face in the light, invented');
  await here.record('photo-taken', { photo: file, of: 'stump of A12', stem: 'A12' });
  const number = String((await here.size()) - 1);
  const { photo } = (await lastEntry(here.log)).body;
  const tried = await here.tryIt('personal-data-erased', { photo: file, reason: 'shows a face' });
  expect(problemsOf(tried)[0]).toMatchObject({
    field: 'photo',
    choices: [{ label: 'photo of stump of A12', text: number }],
  });
  await here.record('personal-data-erased', { photo: `#${number}`, reason: 'shows a face' });
  expect((await lastEntry(here.log)).erases).toEqual([photo]);
  expect(await here.log.sealed(photo as string)).toBeUndefined();
  const again = problemsOf(await here.tryIt('personal-data-erased', { photo: '999', reason: 'x' }));
  expect(again[0]?.remedy).toContain('no photo that could be erased');
});

it('a photo is taken from its file, with the type of its ending, and can be erased', async () => {
  const here = await woods();
  const file = join(here.folder, 'stump.png');
  writeFileSync(file, 'light on a stump, invented');
  await here.record('photo-taken', { photo: file, of: 'stump', stem: 'A12' });
  const { body } = await lastEntry(here.log);
  expect(body.mediaType).toBe('image/png');
  const row = await here.log.sealed(body.photo as string);
  expect(Buffer.from(row?.bytes ?? []).toString()).toBe('light on a stump, invented');
  await here.record('personal-data-erased', { photo: body.photo as string, reason: 'shows a face' });
  expect(await here.log.sealed(body.photo as string)).toBeUndefined();
});

it('a photo whose file is not there is refused by name', async () => {
  const here = await woods();
  const [problem] = problemsOf(await here.tryIt('photo-taken', { photo: 'nowhere.jpg' }));
  expect(problem).toMatchObject({ field: 'photo', value: 'nowhere.jpg' });
});

it('contacts of emergency cards and of expected calls stand in no entry, and none is left after their erasure', async () => {
  const here = await woods();
  await here.record('emergency-card-set', { callFirst: '911', contacts: 'Barnaby Quill 828-555-0142' });
  const card = String((await here.size()) - 1);
  expect(JSON.stringify(await lastEntry(here.log))).not.toMatch(/Barnaby|555-0142/);
  await here.record('entry-amended', { replaces: card, contacts: 'Barnaby Quilt', reason: 'misspelt' });
  await here.record('entry-struck', { strikes: card, reason: 'old' });
  await here.record('call-expected', { due: '2026-03-14 17:00', expectedBy: 'Barnaby Q. 555-0143' });
  await here.record('person-named', { name: 'Ottilie Marsh' });
  await here.record('emergency-contacts-erased', { reason: 'asked for by the person' });
  expect((await lastEntry(here.log)).erases).toHaveLength(3);
  const { path } = here.log.facts();
  await here.log.close();
  const bytes = fileBytes(here.folder);
  expect(bytes).not.toMatch(/Barnaby|555-014/);
  expect(bytes).toContain('Ottilie Marsh');
  expect(await verifyLogbook(path)).toMatchObject({ ok: true, notes: { erased: 3 } });
});

it('emergency contacts that nobody wrote cannot be erased', async () => {
  const here = await woods();
  const [problem] = problemsOf(await here.tryIt('emergency-contacts-erased', { reason: 'x' }));
  expect(problem?.remedy).toContain('no emergency card or expected call');
});
