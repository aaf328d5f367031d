// Saving on the phone, without any network.
import { expect, test } from 'vitest';
import { newPhone, open } from './phone.ts';

test('an entry is in the stand and in the outbox when it is saved, and after the page was killed', async () => {
  const phone = newPhone();
  const engine = await open(phone);
  expect(await engine.introduce('Ann Weaver', "Ann's phone")).toEqual({ ok: true });
  const saved = await engine.save({ kind: 'note-written', fields: { text: 'wind rising' } });
  expect(saved).toMatchObject({ ok: true });
  const marked = await engine.save({
    kind: 'stem-marked',
    fields: { tag: 'A12', mark: 'cut', species: 'QUAL', dbh: '14' },
  });
  expect(marked).toMatchObject({ ok: true });
  expect(engine.state().outbox).toMatchObject({ waiting: 3, sent: 0 });
  expect(engine.state().phone).toMatchObject({ personName: 'Ann Weaver', signs: true });
  engine.stop();
  const again = await open(phone);
  expect(again.state().outbox).toMatchObject({ waiting: 3, sent: 0 });
  expect([...again.state().folded.stand.stems.values()].map(({ tag }) => tag)).toEqual(['A12']);
  expect(again.state().phone.personName).toBe('Ann Weaver');
});
