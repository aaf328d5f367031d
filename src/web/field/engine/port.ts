// What the screens may ask of the engine, and nothing else: the stand of this phone, saving entries, sending them,
// drafts, and how the phone itself is doing. Every screen is a function of `FieldState`.
import type { EventType, HappenedEntered, JsonValue, TypingProblem } from '../../../events/index.ts';
import type { Folded } from '../../../stand/index.ts';

export type Role = 'reader' | 'recorder' | 'keeper';

/** What this phone is and to which logbook it belongs. */
export type Phone = Readonly<{
  /** UUID, made at the first start. */
  device: string;
  label: string;
  /** The person who records on it; entries need one. */
  person: string | undefined;
  personName: string | undefined;
  /** Id of the logbook; undefined before pairing and before a copy was taken in. */
  logbook: string | undefined;
  paired: boolean;
  role: Role;
  /** Whether it has a key and signs what it records. */
  signs: boolean;
}>;

export type Outbox = Readonly<{
  /** Entries saved here that the logbook has not confirmed. */
  waiting: number;
  /** When the oldest of them was saved, milliseconds since 1970. */
  oldest: number | undefined;
  /** Photos whose bytes the logbook does not have yet. */
  photos: number;
  /** Entries with the logbook's position. */
  sent: number;
}>;

/** An entry that the logbook could not read, that has the id of another one, or whose photo was not taken. */
export type Attention = Readonly<{
  id: string;
  type: string;
  outcome: 'conflict' | 'unreadable' | 'photo-refused';
  field: string;
  value: string;
  remedy: string;
}>;

export type ExchangeState = Readonly<{
  is: 'idle' | 'sending' | 'no-answer' | 'refused' | 'not-paired' | 'other-logbook' | 'insecure';
  /** Last time the logbook answered, milliseconds since 1970. */
  last: number | undefined;
  /** Why it failed, in a sentence of the server or of this page. */
  why: string | undefined;
  /** When it will be tried again by itself, milliseconds since 1970. */
  next: number | undefined;
  /** How far this phone's clock is ahead of the logbook's, milliseconds. */
  clockAhead: number | undefined;
  /** How far ahead the clock is recorded to be, milliseconds; a large difference is recorded by itself. */
  clockRecorded: number | undefined;
  /** Entries of this device that the logbook has and this phone has lost. */
  lost: number;
}>;

export type StorageState = Readonly<{
  /** A write, read and delete at the start worked. */
  works: boolean;
  /** Answer to persist(); undefined where it cannot be asked. */
  persisted: boolean | undefined;
  usedBytes: number | undefined;
  quotaBytes: number | undefined;
  /** The last write failed because the phone is full. */
  full: boolean;
}>;

export type FieldState = Readonly<{
  /** False until what is stored has been read. */
  ready: boolean;
  phone: Phone;
  /** The stand and findings of everything this phone holds, own unsent entries included. */
  folded: Folded;
  outbox: Outbox;
  attention: readonly Attention[];
  exchange: ExchangeState;
  storage: StorageState;
  /** Location, service worker, keys and wake lock work only then. */
  secure: boolean;
  /** The page came from the computer that it is opened on, so pairing needs no code. */
  thisMachine: boolean;
  /** A newer version of the page is loaded and waits to be switched to. */
  updateWaiting: boolean;
  /** Ids of the entries that were saved here in this session's order, the last one last. */
  saved: readonly string[];
}>;

/** What somebody wants to record: fields as typed text or in their stored shape. */
export type Wanted = Readonly<{
  kind: EventType;
  fields: Readonly<Record<string, JsonValue>>;
  /** When it happened; now, to the instant, if left out. */
  happenedAt?: HappenedEntered;
  /** Photos that the entry names by a field, before they have a hash. */
  photo?: Readonly<{ bytes: Uint8Array; mediaType: string }>;
}>;

export type Saved =
  | Readonly<{ ok: true; id: string; identity: string | undefined }>
  | Readonly<{ ok: false; problems: readonly TypingProblem[] }>;

/** The code may be empty where `thisMachine` is true. */
export type PairingWanted = Readonly<{ code: string; label: string; personName: string }>;
export type Done = Readonly<{ ok: true } | { ok: false; why: string }>;

/** A picture that was taken and is not saved yet, already made smaller. */
export type Picture = Readonly<{
  bytes: Uint8Array;
  mediaType: 'image/jpeg';
  width: number;
  height: number;
  /** SHA-256 of the file as the camera wrote it. */
  original: string;
}>;

/** Anything a screen keeps while it is filled in; plain JSON. */
export type Draft = Readonly<Record<string, JsonValue>>;

export type Engine = Readonly<{
  state: () => FieldState;
  /** Calls the listener after every change; gives the way to stop. */
  subscribe: (listener: () => void) => () => void;

  /**
   * Checks, signs and stores an entry; it is in the stand and in the outbox when this resolves. Nothing is
   * stored when there are problems.
   * @throws Error when the phone's storage refuses; the draft stays
   */
  save: (wanted: Wanted) => Promise<Saved>;
  /** The salted hash for a text that is kept erasable; for fields that are sealed, `save` does it by itself. */
  undo: (entry: string, reason: string) => Promise<Saved>;

  /** Sends now and takes in what is new; also runs by itself. */
  exchange: () => Promise<Done>;
  pair: (wanted: PairingWanted) => Promise<Done>;
  forget: () => Promise<Done>;
  /** For the file route: who records here, without a server. */
  introduce: (personName: string, label: string) => Promise<Done>;
  /** What waits (`outbox`) or everything (`copy`) as exchange lines with the photos. */
  fileOf: (what: 'outbox' | 'copy') => Promise<Readonly<{ name: string; bytes: Uint8Array }>>;
  /**
   * Takes in a copy file of the logbook or of another phone; says how many entries were new and confirmed, and in a
   * sentence each which lines of it could not be read. Of a file of another logbook nothing is taken in.
   */
  takeIn: (
    bytes: Uint8Array,
  ) => Promise<
    Readonly<
      { ok: true; fresh: number; confirmed: number; unread: readonly string[] } | { ok: false; why: string }
    >
  >;

  draft: (screen: string) => Promise<Draft | undefined>;
  /** Stored before anything else can happen to the page; an undefined draft is taken away. */
  keepDraft: (screen: string, draft: Draft | undefined) => Promise<void>;
  /** The picture that belongs to a screen's draft; a phone may throw the page away while the camera is open. */
  picture: (screen: string) => Promise<Picture | undefined>;
  keepPicture: (screen: string, picture: Picture | undefined) => Promise<void>;
  /** Values that the next entry of a screen begins with. */
  remembered: (screen: string) => Draft;
  remember: (screen: string, values: Draft) => Promise<void>;
  setting: (name: string) => JsonValue | undefined;
  setSetting: (name: string, value: JsonValue) => Promise<void>;

  /** Names, notes under seal: the text of a hash, when this phone has it. */
  sealedText: (hash: string) => string | undefined;
  /** A photo's bytes, when this phone has them. */
  photo: (hash: string) => Promise<Blob | undefined>;

  /** Switches to the waiting version; what is stored stays. */
  update: () => Promise<void>;
  /** Asks the browser to keep the storage for good. */
  askToPersist: () => Promise<boolean>;
}>;
