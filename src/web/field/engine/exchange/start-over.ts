// The logbook that answers is an older copy of itself, restored from a backup: what it had confirmed since is gone
// there. Nothing is lost as long as it is here: all of this phone's own entries wait again, and are sent again.
import { readEnvelope } from '../../../../log/entry/index.ts';
import type { Core } from '../core.ts';
import type { EntryRow } from '../storage/rows.ts';

const encoder = new TextEncoder();

export async function startOver(core: Core): Promise<void> {
  await core.notebook.write(['entries', 'meta'], async (transaction) => {
    const store = transaction.objectStore('entries');
    for (const row of await store.getAll()) await store.put(unplaced(row));
    await transaction.objectStore('meta').put(0, 'readTo');
  });
  await core.photos.sendAgain().catch(() => undefined);
  await core.load();
  await core.countPhotos();
  core.tell({ all: true });
  core.changed();
}

function unplaced(row: EntryRow): EntryRow {
  const { position: _, receivedAt: __, ...rest } = row;
  if (!row.own || row.attention !== undefined) return rest;
  return { ...rest, waiting: readEnvelope(encoder.encode(row.text)).seq };
}
