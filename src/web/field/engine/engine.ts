// The engine: everything that the field page can do without its screens, behind the one type that they know.
import type { JsonValue } from '../../../events/index.ts';
import { type Core, makeCore } from './core.ts';
import { exchangeIn } from './exchange/index.ts';
import { fileOf, takeIn } from './files.ts';
import { forget, introduce, pair } from './identity.ts';
import type { Outside } from './outside.ts';
import type { Draft, Engine } from './port.ts';
import { savingIn } from './saving.ts';
import { becomeDevice, measureStorage, probe } from './start.ts';
import { asDraft, keptNames } from './storage/meta.ts';
import { updatesIn } from './updates.ts';

/**
 * Starts the engine. It can be asked at once; what is stored is read meanwhile, and `state().ready` says when it is.
 * @param outside storage, network, clock and the rest of the world
 */
export async function createEngine(outside: Outside): Promise<Engine & Stoppable> {
  const core = makeCore(outside);
  await begin(core);
  const loaded = readAll(core);
  const saveOne = savingIn(core, loaded);
  const exchanging = exchangeIn(core, (wanted) => saveOne(wanted, 'by itself'));
  const save: Engine['save'] = async (wanted) => {
    const saved = await saveOne(wanted);
    if (saved.ok) exchanging.saved();
    return saved;
  };
  // What stops the reading stands in the state; nothing is exchanged before everything is known.
  loaded.then(() => measure(core)).then(exchanging.begin, () => undefined);
  return {
    state: core.state,
    subscribe: core.subscribe,
    save,
    exchange: () => loaded.then(() => exchanging.now(true)),
    pair: async (wanted) => {
      await loaded;
      const paired = await pair(core, wanted);
      if (paired.ok) void exchanging.now(false);
      return paired;
    },
    forget: () => loaded.then(() => forget(core)),
    introduce: (personName, label) => loaded.then(() => introduce(core, save, { personName, label })),
    fileOf: (what) => loaded.then(() => fileOf(core, what)),
    takeIn: (bytes) => loaded.then(() => takeIn(core, bytes)),
    update: updatesIn(core),
    stop: () => {
      exchanging.stop();
      core.close();
    },
    undo: (entry, reason) => save({ kind: 'entry-struck', fields: { strikes: entry, reason } }),
    ...keeping(core),
    sealedText: (hash) => core.held.texts.get(hash),
    photo: async (hash) => {
      const row = await core.photos.get(hash).catch(() => undefined);
      return row && new Blob([new Uint8Array(row.bytes)], { type: row.mediaType });
    },
    askToPersist: async () => {
      const kept = (await outside.storage?.persist().catch(() => false)) ?? false;
      core.passing.storage = { ...core.passing.storage, ...(await measureStorage(outside)) };
      core.changed();
      return kept;
    },
  };
}

/** For tests, which start many: ends timers and lets go of the databases. */
type Stoppable = Readonly<{ stop: () => void }>;

async function begin(core: Core): Promise<void> {
  const { outside, notebook, values, passing } = core;
  const probed = await probe(outside, notebook);
  if (probed === 'works') await becomeDevice(outside, notebook);
  // What is there can be looked at, and saved as a file, also where nothing more can be written.
  await values.load().catch(() => undefined);
  const isDevice = values.get('device') !== undefined;
  passing.storage = { ...passing.storage, works: isDevice && probed !== 'broken', full: probed === 'full' };
  if (!isDevice) values.note({ device: outside.newId(), seq: 0 });
}

async function readAll(core: Core): Promise<void> {
  try {
    await core.load();
  } catch {
    // What cannot be read stays where it is; nothing may be written over it.
    core.passing.storage = { ...core.passing.storage, works: false };
  }
  core.passing.ready = true;
  core.changed();
}

/** What can come a little later than the entries. */
async function measure(core: Core): Promise<void> {
  core.passing.storage = { ...core.passing.storage, ...(await measureStorage(core.outside)) };
  await core.countPhotos();
  core.changed();
}

type Keeping =
  | 'draft'
  | 'keepDraft'
  | 'picture'
  | 'keepPicture'
  | 'remembered'
  | 'remember'
  | 'setting'
  | 'setSetting';

/** Drafts, remembered values and settings. */
function keeping({ values, pictures, failed, passing }: Core): Pick<Engine, Keeping> {
  const keep = async (name: string, value: JsonValue | undefined) => {
    // Without storage it is held as long as the page is open; the banner says so.
    await values
      .keep(name, value)
      .catch((error: unknown) => (passing.storage.works ? failed(error) : undefined));
  };
  return {
    draft: async (screen) => asDraft(values.kept(keptNames.draft(screen))),
    keepDraft: (screen, draft) => keep(keptNames.draft(screen), draft),
    // A draft without its picture still opens.
    picture: (screen) => pictures.get(screen).catch(() => undefined),
    keepPicture: (screen, picture) =>
      (picture === undefined ? pictures.drop(screen) : pictures.put(screen, picture)).catch(failed),
    remembered: (screen): Draft => asDraft(values.kept(keptNames.remembered(screen))) ?? {},
    remember: (screen, draft) => keep(keptNames.remembered(screen), draft),
    setting: (name) => values.kept(keptNames.setting(name)),
    setSetting: (name, value) => keep(keptNames.setting(name), value),
  };
}
