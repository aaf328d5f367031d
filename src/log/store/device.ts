// What this machine remembers of a logbook, outside its file: who it is there, and the last head it saw. A copy
// of the file at another path, or a wiped machine, is a new device. The remembered head shows when the last
// entries have been cut off.
import { readFileSync, realpathSync, rmSync } from 'node:fs';
import { headText, parseHead, type TreeHead } from '../entry/index.ts';
import { asLogbookError, errorCode, LogbookError } from './error.ts';
import { fileOfLogbook, homeFolder, writePrivateFile } from './private-file.ts';

export type DeviceMemory = Readonly<{
  /** UUID of this device in this logbook. */
  device: string;
  /** UUID of the person who last recorded here. */
  person?: string;
  /** Last sequence number used; 0 when none. */
  lastSeq: number;
  lastHead?: TreeHead;
}>;

/** One file for each logbook at each place. */
function memoryFile(path: string, logbook: string, home: string): string {
  return fileOfLogbook('devices', path, logbook, home);
}

/**
 * What this machine remembers of the logbook at this path; undefined when it has never written there.
 * @throws LogbookError when the memory is there and cannot be read
 */
export function recallDevice(path: string, logbook: string, home = homeFolder()): DeviceMemory | undefined {
  const file = memoryFile(path, logbook, home);
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return undefined;
    throw asLogbookError(error, file);
  }
  const memory = parseMemory(text);
  if (memory === undefined) {
    throw new LogbookError(
      'unreadable',
      file,
      'this machine’s memory of the logbook is damaged. Move the file away; the machine is then a new device.',
    );
  }
  return memory;
}

/** Like recallDevice; a machine that is new here gets a new device id, which is kept at once. */
export function rememberedDevice(
  path: string,
  logbook: string,
  newId: () => string,
  home = homeFolder(),
): DeviceMemory {
  const known = recallDevice(path, logbook, home);
  if (known) return known;
  const memory = { device: newId(), lastSeq: 0 };
  write(memoryFile(path, logbook, home), memory, path, logbook);
  return memory;
}

/**
 * Keeps what was just done. A number or a head that is further on than the given one stays: another process
 * may have been quicker, and a log that became shorter must not wipe out the trace of it.
 */
export function remember(path: string, logbook: string, memory: DeviceMemory, home = homeFolder()): void {
  const before = recallDevice(path, logbook, home);
  const same = before?.device === memory.device ? before : undefined;
  const head = furtherHead(same?.lastHead, memory.lastHead);
  const after: DeviceMemory = {
    device: memory.device,
    ...(memory.person === undefined ? {} : { person: memory.person }),
    lastSeq: Math.max(same?.lastSeq ?? 0, memory.lastSeq),
    ...(head ? { lastHead: head } : {}),
  };
  write(memoryFile(path, logbook, home), after, path, logbook);
}

/** Forgets the logbook at this path, so that the next entry there comes from a new device. */
export function forgetDevice(path: string, logbook: string, home = homeFolder()): void {
  const file = memoryFile(path, logbook, home);
  try {
    rmSync(file, { force: true });
  } catch (error) {
    throw asLogbookError(error, file);
  }
}

function furtherHead(before: TreeHead | undefined, now: TreeHead | undefined): TreeHead | undefined {
  if (before === undefined || now === undefined) return now ?? before;
  return now.size > before.size ? now : before;
}

function write(file: string, memory: DeviceMemory, path: string, logbook: string): void {
  const { lastHead, ...rest } = memory;
  const text = JSON.stringify(
    { logbook, path: realpathSync(path), ...rest, ...(lastHead ? { lastHead: headText(lastHead) } : {}) },
    undefined,
    2,
  );
  try {
    writePrivateFile(file, `${text}\n`);
  } catch (error) {
    throw asLogbookError(error, file);
  }
}

function parseMemory(text: string): DeviceMemory | undefined {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return undefined;
  }
  if (typeof value !== 'object' || value === null) return undefined;
  const { device, person, lastSeq, lastHead } = value as Record<string, unknown>;
  if (typeof device !== 'string' || !Number.isSafeInteger(lastSeq)) return undefined;
  const head = typeof lastHead === 'string' ? parseHead(lastHead) : undefined;
  if (head?.ok === false) return undefined;
  return {
    device,
    ...(typeof person === 'string' ? { person } : {}),
    lastSeq: Number(lastSeq),
    ...(head ? { lastHead: head.head } : {}),
  };
}
