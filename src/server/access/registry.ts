// The paired devices of a logbook, in one file of the home folder. It is read again when it was changed, so that a
// token that is revoked by a command is refused at once by a server that runs.
import { readFileSync, statSync } from 'node:fs';
import * as z from 'zod';
import { fileOfLogbook, LogbookError, writePrivateFile } from '../../log/store/index.ts';
import { isCode, locked } from './locked.ts';
import { roles } from './role.ts';
import { hashOfToken, sameHash } from './token.ts';

const pairedDevice = z.strictObject({
  /** UUID that the device gave itself; its entries carry it. */
  device: z.string(),
  label: z.string(),
  role: z.enum(roles),
  /** SHA-256 of its token, in hex. */
  tokenHash: z.string().regex(/^[0-9a-f]{64}$/),
  /** RFC 3339 in UTC, as the others. */
  pairedAt: z.string(),
  lastSeenAt: z.string().optional(),
  revokedAt: z.string().optional(),
});
const content = z.strictObject({ devices: z.array(pairedDevice) });

export type PairedDevice = Readonly<z.infer<typeof pairedDevice>>;

export type Registry = Readonly<{
  /** All that were ever paired, in the order of pairing. */
  all: () => readonly PairedDevice[];
  /** The device that has this token, revoked or not. */
  byToken: (token: string) => PairedDevice | undefined;
  /** Adds a device. One of the same UUID is replaced: its earlier token counts no more. */
  add: (device: PairedDevice) => void;
  /** Refuses the token of a device from now on. False when there is no such device. */
  revoke: (device: string, at: string) => boolean;
  /** Notes that a device was here. */
  seen: (device: string, at: string) => void;
}>;

/**
 * The registry of the logbook at this path.
 * @param logbook UUID of the logbook
 * @throws LogbookError, also later, when the file is there and cannot be read: then nobody gets in
 */
export function registryOf(path: string, logbook: string, home?: string): Registry {
  return openRegistry(fileOfLogbook('paired', path, logbook, home));
}

function openRegistry(file: string): Registry {
  let known: { stamp: string; devices: readonly PairedDevice[] } = { stamp: '', devices: [] };
  const all = () => {
    const stamp = stampOf(file);
    if (stamp !== known.stamp) known = { stamp, devices: stamp === '' ? [] : read(file) };
    return known.devices;
  };
  const change = (to: (devices: readonly PairedDevice[]) => readonly PairedDevice[]) =>
    locked(file, () => {
      const before = stampOf(file) === '' ? [] : read(file);
      const after = to(before);
      if (after !== before) writePrivateFile(file, `${JSON.stringify({ devices: after }, undefined, 2)}\n`);
    });
  const amend = (id: string, more: Partial<PairedDevice>) => {
    let found = false;
    change((devices) => {
      found = devices.some(({ device }) => device === id);
      return found ? devices.map((one) => (one.device === id ? { ...one, ...more } : one)) : devices;
    });
    return found;
  };
  return {
    all,
    byToken: (token) => {
      const hash = hashOfToken(token);
      // Every device is compared, so that the time it takes does not tell which one is near.
      return all().reduce<PairedDevice | undefined>(
        (found, device) => (sameHash(device.tokenHash, hash) ? device : found),
        undefined,
      );
    },
    add: (device) => change((devices) => [...devices.filter((one) => one.device !== device.device), device]),
    revoke: (id, at) => amend(id, { revokedAt: at }),
    seen: (id, at) => {
      amend(id, { lastSeenAt: at });
    },
  };
}

/** Changes with every writing: the file is replaced by a new one each time. */
function stampOf(file: string): string {
  const found = statSync(file, { throwIfNoEntry: false, bigint: true });
  return found === undefined ? '' : `${found.ino} ${found.mtimeNs} ${found.size}`;
}

function read(file: string): readonly PairedDevice[] {
  try {
    return content.parse(JSON.parse(readFileSync(file, 'utf8'))).devices;
  } catch (error) {
    if (isCode(error, 'ENOENT')) return [];
    throw new LogbookError(
      'unreadable',
      file,
      'the list of paired devices is damaged. Move the file away; every device then has to be paired anew.',
    );
  }
}
