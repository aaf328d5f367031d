// Who this phone is: paired with a logbook by a one-time code, or introduced by a name for the way by files, and what
// it takes to make it forget.
import { text } from '../text/index.ts';
import type { Core } from './core.ts';
import { askOnce } from './exchange/index.ts';
import { publicKeyText } from './key.ts';
import type { Done, PairingWanted, Saved, Wanted } from './port.ts';
import { becomeDevice, keyOf } from './start.ts';

/** Trades the code for a token. What was recorded before stays and is sent next. */
export async function pair(core: Core, { code, label, personName }: PairingWanted): Promise<Done> {
  const { outside, values } = core;
  if (!outside.secure) return { ok: false, why: text.engine.insecure };
  if (label.trim() === '') return { ok: false, why: text.engine.labelPhone };
  if (personName.trim() === '') return { ok: false, why: text.engine.nameYourself };
  const keys = await keyOf(core);
  const publicKey = keys === undefined ? undefined : await publicKeyText(outside, keys);
  // A code is good once: asked a second time, it would be refused.
  const answer = await askOnce(outside, undefined, {
    method: 'POST',
    path: 'pairing',
    body: {
      ...(code.trim() === '' ? {} : { code: code.trim() }),
      device: values.get('device'),
      label: label.trim(),
      ...(publicKey === undefined ? {} : { publicKey }),
      ...personIn(core, personName.trim()),
    },
  });
  if (answer.is !== 'answered') return { ok: false, why: answer.why };
  const { token, role, logbook, person } = answer.json;
  if (typeof token !== 'string' || typeof logbook !== 'string' || typeof person !== 'string')
    return { ok: false, why: text.engine.otherAnswer };
  const before = values.get('logbook');
  if (before !== undefined && before !== logbook) return { ok: false, why: text.engine.pairedWithOther };
  await values.set({
    token,
    logbook,
    person,
    personName: personName.trim(),
    label: label.trim(),
    role: role === 'reader' || role === 'keeper' ? role : 'recorder',
  });
  core.tell({ all: true });
  core.changed();
  return { ok: true };
}

/** The logbook knows its people by id; somebody it has yet to hear of it knows by name. */
function personIn({ held }: Core, personName: string): { person: string } | { personName: string } {
  const id = personNamed(held, personName);
  const known = id === undefined ? undefined : held.folded().stand.people.get(id);
  const placed = known?.entries.some((entry) => held.entry(entry)?.position !== undefined);
  return id !== undefined && placed ? { person: id } : { personName };
}

function personNamed({ folded, texts }: Core['held'], personName: string): string | undefined {
  const key = personName.toLowerCase();
  const people = [...folded().stand.people.values()];
  return people.find(({ name }) => texts.get(name)?.toLowerCase() === key)?.id;
}

/** Says who records here, for phones that no logbook is in reach of. */
export async function introduce(
  core: Core,
  save: (wanted: Wanted) => Promise<Saved>,
  { personName, label }: { personName: string; label: string },
): Promise<Done> {
  const name = personName.trim();
  if (name === '') return { ok: false, why: text.engine.nameYourself };
  let person = personNamed(core.held, name);
  if (person === undefined) {
    const saved = await save({ kind: 'person-named', fields: { name } });
    if (!saved.ok) return { ok: false, why: saved.problems.map(({ remedy }) => remedy).join('; ') };
    person = saved.identity;
  }
  await core.values.set({ person, personName: name, label: label.trim() });
  core.tell({ all: true });
  core.changed();
  return { ok: true };
}

/** Lets go of everything but the settings, and makes another device of this phone. Only when nothing waits. */
export async function forget(core: Core): Promise<Done> {
  const { notebook, photos, pictures, outside, passing } = core;
  const unsentPhotos = (await photos.waiting().catch(() => [])).length;
  const unsent = core.held.outbox().waiting;
  if (unsent + unsentPhotos > 0) return { ok: false, why: text.engine.stillWaiting(unsent, unsentPhotos) };
  const waiting = await notebook.write(['entries', 'sealed', 'meta', 'kept'], async (transaction) => {
    const entries = transaction.objectStore('entries');
    // Another window may have saved meanwhile.
    const here = await entries.index('waiting').count();
    if (here > 0) return here;
    const kept = transaction.objectStore('kept');
    const names = (await kept.getAllKeys()).filter((name) => !name.startsWith('setting:'));
    await Promise.all([
      entries.clear(),
      transaction.objectStore('sealed').clear(),
      transaction.objectStore('meta').clear(),
      ...names.map((name) => kept.delete(name)),
    ]);
    return 0;
  });
  if (waiting > 0) return { ok: false, why: text.engine.stillWaiting(waiting, 0) };
  await photos.clear().catch(() => undefined);
  await pictures.clear().catch(() => undefined);
  await becomeDevice(outside, notebook);
  await core.load();
  await core.countPhotos();
  passing.saved = [];
  passing.exchange = { is: 'idle', why: undefined, next: undefined };
  core.tell({ all: true });
  core.changed();
  return { ok: true };
}
