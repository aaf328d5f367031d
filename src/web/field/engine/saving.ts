// Saving an entry: composed, numbered, signed and written in one transaction, so that it is in the stand and in the
// outbox when the screen hears of it, or nowhere.
import { text } from '../text/index.ts';
import { type Composed, compose } from './composing.ts';
import { type Core, unitsOf } from './core.ts';
import { signEntry } from './key.ts';
import { keepOwn } from './notebook.ts';
import type { Saved, Wanted } from './port.ts';
import { StorageError } from './storage/database.ts';
import type { EntryRow } from './storage/rows.ts';

/** Who wants an entry: somebody at the screen, who is shown what was kept, or the phone. */
type Who = 'somebody' | 'by itself';

/** Gives the way to save; entries of one window are saved one after the other. */
export function savingIn(core: Core, loaded: Promise<void>): (wanted: Wanted, who?: Who) => Promise<Saved> {
  let turn: Promise<unknown> = loaded;
  return (wanted, who = 'somebody') => {
    const saved = turn.then(() => save(core, wanted, who));
    turn = saved.catch(() => undefined);
    return saved;
  };
}

async function save(core: Core, wanted: Wanted, who: Who): Promise<Saved> {
  const { outside, values, held, passing } = core;
  if (!passing.storage.works) throw new StorageError(text.engine.noStorage, false);
  const composition = compose(
    { outside, held, device: values.get('device') ?? '', person: values.get('person'), units: unitsOf(core) },
    wanted,
  );
  if (!composition.ok) return composition;
  const { composed } = composition;
  try {
    await keepPhoto(core, composed);
    const row = await write(core, composed);
    held.takeTexts(composed.texts);
    held.take([row]);
  } catch (error) {
    core.failed(error);
  }
  if (composed.photo !== undefined) passing.photos += 1;
  passing.storage = { ...passing.storage, full: false };
  if (who === 'somebody') passing.saved = [...passing.saved, composed.id];
  core.tell({ entries: [composed.id], texts: composed.texts.map(({ hash }) => hash) });
  core.changed();
  return { ok: true, id: composed.id, identity: composed.identity };
}

/** The photo goes first: an entry whose photo the phone could not keep would name something that nobody has. */
async function keepPhoto({ photos }: Core, { id, photo }: Composed): Promise<void> {
  if (photo !== undefined) await photos.put({ ...photo, entry: id, waiting: 1 });
}

/** Signing takes longer than a transaction lives, so the number is chosen before, and within it looked at again. */
async function write(core: Core, composed: Composed): Promise<EntryRow> {
  const { outside, values, notebook } = core;
  const device = values.get('device') ?? '';
  for (let seq = (values.get('seq') ?? 0) + 1; ; ) {
    const bytes = composed.write(seq);
    const signature = await signEntry(outside, values.get('keys'), bytes);
    const row: EntryRow = {
      id: composed.id,
      text: new TextDecoder().decode(bytes),
      ...(signature === undefined ? {} : { signature }),
      own: true,
      savedAt: outside.now(),
      waiting: seq,
    };
    const taken = await keepOwn(notebook, { row, texts: composed.texts, seq, device });
    if (taken === undefined) {
      values.note({ seq });
      return row;
    }
    if ('otherDevice' in taken) throw new StorageError(text.engine.otherDevice, false);
    seq = taken.taken + 1;
  }
}
