// The keys that devices sign with, as pairings record them. A key that was once recorded counts for that device for
// good: striking or amending its pairing must not make room for entries without a signature.
import { type DeviceKey, type Envelope, readEnvelope, readPublicKey } from '../log/entry/index.ts';
import type { Log } from '../log/store/index.ts';
import { idKey, keysOf, keysVersion } from './keys.ts';

export type KeyOfDevice = Readonly<{ device: string; key: DeviceKey }>;

/** The key that an entry gives to a device; undefined for most entries. */
export function keyFrom({ type, body }: Envelope): KeyOfDevice | undefined {
  if (type !== 'device-paired') return undefined;
  const { device, publicKey } = body;
  if (typeof device !== 'string' || typeof publicKey !== 'string') return undefined;
  const key = readPublicKey(publicKey);
  return key && { device, key };
}

export type DeviceKeys = Readonly<{
  /** Keys of a device, the newest last; none for one that does not sign. */
  of(device: string): readonly DeviceKey[];
  /** Takes note of the key that an entry gives, if it gives one. */
  note(envelope: Envelope): void;
}>;

/** The keys that the log has for these devices. */
export async function deviceKeys(log: Log, devices: Iterable<string>): Promise<DeviceKeys> {
  const known = new Map<string, DeviceKey[]>();
  const note = (envelope: Envelope): void => {
    const given = keyFrom(envelope);
    if (given !== undefined) known.set(given.device, [...(known.get(given.device) ?? []), given.key]);
  };
  const lookup = log.lookup((stored) => keysOf(stored.bytes), keysVersion);
  const about = await lookup.entries([...devices].map(idKey));
  for (const { bytes } of about) note(readEnvelope(bytes));
  return { of: (device) => known.get(device) ?? [], note };
}
