// What the parts of the engine share: the databases, what is held in memory, the state that the screens see, and the
// other windows of the page.
import type { Folded } from '../../../stand/index.ts';
import { recordedAhead } from './clock.ts';
import { type Held, holdNothing } from './held.ts';
import { readEverything, readRows, readTexts } from './notebook.ts';
import type { Outside } from './outside.ts';
import { type Photos, photosIn } from './photos.ts';
import { type Pictures, picturesIn } from './pictures.ts';
import type { Attention, ExchangeState, FieldState, StorageState } from './port.ts';
import {
  type Database,
  type NotebookSchema,
  openNotebook,
  openPhotos,
  openPictures,
  StorageError,
} from './storage/database.ts';
import { keptNames, type Values, valuesOf } from './storage/meta.ts';

/** What changes while the page is open and is written nowhere. */
export type Passing = {
  ready: boolean;
  storage: StorageState;
  exchange: Omit<ExchangeState, 'last' | 'clockAhead' | 'clockRecorded' | 'lost'>;
  photos: number;
  updateWaiting: boolean;
  saved: readonly string[];
};

export type Core = Readonly<{
  outside: Outside;
  notebook: Database<NotebookSchema>;
  photos: Photos;
  pictures: Pictures;
  values: Values;
  held: Held;
  passing: Passing;
  state: () => FieldState;
  subscribe: (listener: () => void) => () => void;
  /** Builds the state anew and tells the screens. */
  changed: () => void;
  /** Tells the other windows that these entries and texts changed in the database. */
  tell: (news: News) => void;
  /** Reads rows that changed in the database into what is held. */
  catchUp: (news: News) => Promise<void>;
  /** Reads everything: at the start, and when nobody knows what changed. */
  load: () => Promise<void>;
  countPhotos: () => Promise<void>;
  /** Remembers a failed write for the screens, and passes it on. */
  failed: (error: unknown) => never;
  close: () => void;
}>;

/** What another window wrote. */
export type News = Readonly<{
  entries?: readonly string[];
  texts?: readonly string[];
  /** Everything may be different. */
  all?: true;
}>;

export function makeCore(outside: Outside): Core {
  const [notebook, photosDatabase] = [openNotebook(outside), openPhotos(outside)];
  const values = valuesOf(notebook);
  const photos = photosIn(photosDatabase);
  const picturesDatabase = openPictures(outside);
  const held = holdNothing();
  const passing: Passing = {
    ready: false,
    storage: { works: false, persisted: undefined, usedBytes: undefined, quotaBytes: undefined, full: false },
    exchange: { is: 'idle', why: undefined, next: undefined },
    photos: 0,
    updateWaiting: false,
    saved: [],
  };
  const listeners = new Set<() => void>();
  let state: FieldState | undefined;

  const changed = () => {
    state = undefined;
    for (const listener of listeners) listener();
  };
  const load = async () => {
    await values.load();
    const { entries, sealed } = await readEverything(notebook);
    held.clear();
    held.takeTexts(sealed);
    held.take(entries);
  };
  const countPhotos = async () => {
    // A store of photos that fails takes nothing else along.
    passing.photos = await photos.waiting().then(
      (waiting) => waiting.length,
      () => 0,
    );
  };
  const catchUp = async ({ entries = [], texts = [], all }: News) => {
    if (all) await load();
    else {
      await values.load();
      held.takeTexts(await readTexts(notebook, texts));
      held.take(await readRows(notebook, entries));
    }
    await countPhotos();
    changed();
  };
  const channel = outside.channel?.((heard) => {
    // What cannot be read now is read at the next start.
    catchUp(heard as News).catch(() => undefined);
  });
  return {
    outside,
    notebook,
    photos,
    pictures: picturesIn(picturesDatabase),
    values,
    held,
    passing,
    state: () => {
      state ??= stateOf(outside, values, held, passing);
      return state;
    },
    subscribe: (listener) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    changed,
    tell: (news) => channel?.tell(news),
    catchUp,
    load,
    countPhotos,
    failed: (error) => {
      if (error instanceof StorageError) {
        passing.storage = { ...passing.storage, full: error.full };
        changed();
      }
      throw error;
    },
    close: () => {
      channel?.close();
      notebook.close();
      photosDatabase.close();
      picturesDatabase.close();
    },
  };
}

function stateOf(outside: Outside, values: Values, held: Held, passing: Passing): FieldState {
  const { get } = values;
  const folded = held.folded();
  const person = get('person');
  const named = folded.stand.people.get(person ?? '')?.name;
  const lastSeq = get('lastSeq') ?? 0;
  return {
    ready: passing.ready,
    phone: {
      device: get('device') ?? '',
      label: get('label') ?? '',
      person,
      personName: held.texts.get(named ?? '') ?? get('personName'),
      logbook: get('logbook'),
      paired: get('token') !== undefined,
      role: get('role') ?? 'recorder',
      signs: get('keys') !== undefined && outside.subtle !== undefined,
    },
    folded,
    outbox: { ...held.outbox(), photos: passing.photos },
    attention: [...held.attention(), ...refusedPhotos(values, folded)],
    exchange: {
      ...passing.exchange,
      last: get('answeredAt'),
      clockAhead: get('clockAhead'),
      clockRecorded: recordedAhead(folded.entries, get('device') ?? ''),
      lost: Math.max(0, lastSeq - held.countOf(get('device') ?? '', lastSeq)),
    },
    storage: passing.storage,
    secure: outside.secure,
    thisMachine: outside.thisMachine,
    updateWaiting: passing.updateWaiting,
    saved: passing.saved,
  };
}

/** Photos that the logbook did not take, by the entries that name them. */
function refusedPhotos({ keptUnder }: Values, { stand }: Folded): Attention[] {
  const refused = new Map(keptUnder(keptNames.refusedPhoto('')));
  if (refused.size === 0) return [];
  return stand.photos.flatMap(({ entry, body, erased }) => {
    const why = refused.get(body.photo);
    if (why === undefined || erased) return [];
    const outcome = 'photo-refused' as const;
    return [
      {
        id: entry,
        type: 'photo-taken',
        outcome,
        field: 'photo',
        value: '',
        remedy: typeof why === 'string' ? why : '',
      },
    ];
  });
}

/** The units that a bare number has here: chosen on this phone, or those of the logbook. */
export function unitsOf({ values, held }: Pick<Core, 'values' | 'held'>): 'us' | 'metric' {
  const chosen = values.kept(keptNames.setting('units')) ?? held.folded().stand.logbook?.body.units;
  return chosen === 'metric' ? 'metric' : 'us';
}
