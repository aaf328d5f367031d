// What the engine needs from outside: storage, network, clock, chance, and what a phone can or cannot do. A browser
// gives it in browser.ts; tests hand in their own.

/** Told to the other windows of the same page. */
export type Channel = Readonly<{ tell: (message: unknown) => void; close: () => void }>;

export type Outside = Readonly<{
  indexedDB: IDBFactory;
  fetch: (address: string, request: RequestInit) => Promise<Response>;
  /** Milliseconds since 1970. */
  now: () => number;
  /** A new UUIDv7; later ones sort later. */
  newId: () => string;
  /** From 0 up to 1, for waiting times that differ from phone to phone. */
  chance: () => number;
  randomBytes: (count: number) => Uint8Array;
  /** Absent without a secure context. */
  subtle: SubtleCrypto | undefined;
  /** Minutes that this phone's local time is ahead of UTC at a moment. */
  offsetMinutes: (epochMilliseconds: number) => number;
  /** IANA time zone of the phone; for times typed before a logbook is known. */
  zone: string;
  /** Address of the logbook's API, with "/" at its end. */
  api: string;
  /** Whether the page came over HTTPS or from this very machine. */
  secure: boolean;
  /** Whether the page came from this very machine, where pairing needs no code. */
  thisMachine: boolean;
  /** Calls later; gives the way to call it off. */
  later: (milliseconds: number, act: () => void) => () => void;
  /** Calls whenever it is worth trying again: the page is looked at again, the network is back. */
  onWake: (act: () => void) => void;
  storage: Pick<StorageManager, 'estimate' | 'persist' | 'persisted'> | undefined;
  locks: Pick<LockManager, 'request'> | undefined;
  channel: ((heard: (message: unknown) => void) => Channel) | undefined;
  serviceWorker: ServiceWorkerContainer | undefined;
  /** The build that this page is of; empty while developing. */
  build: string;
  /** Loads the page anew. */
  reload: () => void;
}>;

/** The moment as RFC 3339 with milliseconds and this phone's own offset. */
export function timeHere({ offsetMinutes }: Pick<Outside, 'offsetMinutes'>, moment: number): string {
  const ahead = offsetMinutes(moment);
  const local = new Date(moment + ahead * 60_000).toISOString().slice(0, -1);
  const minutes = Math.abs(ahead);
  const two = (part: number) => String(part).padStart(2, '0');
  return `${local}${ahead < 0 ? '-' : '+'}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}
