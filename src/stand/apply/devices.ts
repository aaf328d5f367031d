// Devices: paired with a person, and revoked.
import { readPublicKey } from '../../log/entry/index.ts';
import type { Happening } from '../entry.ts';
import { shortId } from '../labels.ts';
import type { Device, DeviceTurn, Stand } from '../state.ts';
import type { Apply } from './scene.ts';

export const devicePaired: Apply<'device-paired'> = (stand, body, happening) => {
  const device = deviceOf(stand, body.device, happening);
  device.label = body.label;
  device.person = body.person;
  delete device.revokedBy;
  // A key once recorded counts for good: paired again without one, the device still has to sign.
  const key = body.publicKey === undefined ? undefined : readPublicKey(body.publicKey);
  if (body.publicKey !== undefined) device.publicKey = body.publicKey;
  if (key !== undefined) device.keyId = key.keyId;
  device.turns.push(turn('paired', happening));
};

export const deviceRevoked: Apply<'device-revoked'> = (stand, body, happening) => {
  const device = deviceOf(stand, body.device, happening);
  device.revokedBy = happening.entry.id;
  device.turns.push(turn('revoked', happening));
};

function turn(to: DeviceTurn['to'], { entry }: Happening): DeviceTurn {
  const since = Date.parse(entry.receivedAt ?? entry.recordedAt);
  return { to, entry: entry.id, since, position: entry.position };
}

function deviceOf(stand: Stand, id: string, happening: Happening): Device {
  let device = stand.devices.get(id);
  if (device === undefined) {
    device = { id, entries: [], label: `device ${shortId(id)}`, turns: [] };
    stand.devices.set(id, device);
  }
  device.entries.push(happening.entry.id);
  return device;
}
