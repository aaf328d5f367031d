// A file of drafts: each is decided as if those before it were recorded, and all go in together or none does.
import { expect, it } from 'vitest';
import { verifyLogbook } from '../../src/log/store/index.ts';
import { recordDraft, stage } from '../../src/record/index.ts';
import { entriesOf, stemTagged, woods } from './woods.ts';

it('a draft may speak of what one before it brings in; nothing is in the log before the end', async () => {
  const here = await woods();
  const size = await here.size();
  const staged = await stage(here.desk);
  for (const draft of [
    { kind: 'person-named', fields: { name: 'Barnaby Quill' } },
    { kind: 'group-laid-out', fields: { label: 'G7' } },
    { kind: 'stem-marked', fields: { mark: 'cut', tag: 'S1', group: 'G7' }, by: 'Barnaby Quill' },
    { kind: 'stem-felled', fields: { stem: 'S1', came: 'down' }, by: 'Barnaby Quill' },
  ]) {
    entriesOf(await recordDraft(staged.desk, draft));
  }
  const asked = await recordDraft(staged.desk, { kind: 'stem-felled', fields: { stem: 'S1', came: 'down' } });
  expect(asked.outcome).toBe('questions');
  expect(await here.size()).toBe(size);
  expect(await staged.commit()).toHaveLength(4);
  expect(await here.size()).toBe(size + 4);
  expect(await stemTagged(here.log, 'S1')).toMatchObject({ status: 'felled' });
});

it('numbers follow on from what the device wrote before, and what it writes after follows on from them', async () => {
  const here = await woods();
  const staged = await stage(here.desk);
  await recordDraft(staged.desk, { kind: 'note-written', fields: { text: 'one' } });
  await recordDraft(staged.desk, { kind: 'note-written', fields: { text: 'two' } });
  await staged.commit();
  await here.record('note-written', { text: 'three' });
  const result = await verifyLogbook(here.log.facts().path);
  expect(result.ok).toBe(true);
  expect(
    result.notes.devices.filter(({ missing, repeated }) => missing.length + repeated.length > 0),
  ).toEqual([]);
});

it('left without an end, nothing of it is there', async () => {
  const here = await woods();
  const size = await here.size();
  const staged = await stage(here.desk);
  await recordDraft(staged.desk, { kind: 'stem-marked', fields: { mark: 'cut', tag: 'S1' } });
  expect(staged.count()).toBe(1);
  expect(await here.size()).toBe(size);
  expect(await stemTagged(here.log, 'S1')).toBeUndefined();
});
