// Devices in the stand: paired, given a key, revoked, paired again; and what a revoked one wrote.
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import type { JsonObject } from '../../src/events/index.ts';
import { fold, type LogEntry, describe as say, standJson } from '../../src/stand/index.ts';
import { device, pen, uuid } from './entries.ts';

/** RFC 8032 section 7.1, TEST 1: a public key, and in base64. */
const publicKeyHex = 'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a';
const publicKey = Buffer.from(publicKeyHex, 'hex').toString('base64');
const person = uuid(0xc0_0001);
const paired: JsonObject = { device: device.b, label: "Jo's phone", publicKey, person };
const revoked: JsonObject = { device: device.b, reason: 'lost in the woods' };

/** Entries with the logbook's receipt: received in this order, a minute after each other from nine o'clock. */
function received(...entries: LogEntry[]): LogEntry[] {
  return entries.map((entry, position) => ({
    ...entry,
    position,
    receivedAt: new Date(Date.parse('2026-03-02T14:00:00Z') + position * 60_000).toISOString(),
  }));
}

const note = (write: ReturnType<typeof pen>, seq: number, recordedAt: string) =>
  write(
    'note-written',
    { text: 'rain' },
    { device: device.b, seq, recordedAt, happenedAt: { at: recordedAt, precision: 'instant' } },
  );
const findings = (entries: LogEntry[]) =>
  fold(entries).findings.filter(({ code }) => code === 'entry-of-revoked-device');

describe('a device', () => {
  it('that was paired has a label, a person and the id of its key', () => {
    const write = pen();
    const { stand, happenings } = fold([write('device-paired', paired)]);
    expect(stand.devices.get(device.b)).toMatchObject({
      label: "Jo's phone",
      publicKey,
      person,
      keyId: createHash('sha256').update(Buffer.from(publicKeyHex, 'hex')).digest('hex').slice(0, 16),
      entries: [uuid(1)],
    });
    expect(happenings.map(({ event }) => say(event, stand))).toEqual([
      "Jo's phone paired for somebody, signs its entries",
    ]);
  });

  it('that was revoked may not record, until it is paired again; its key stays', () => {
    const write = pen();
    const entries = [write('device-paired', paired), write('device-revoked', revoked)];
    const lost = fold(entries);
    expect(lost.stand.devices.get(device.b)?.revokedBy).toBe(uuid(2));
    expect(lost.happenings.map(({ event }) => say(event, lost.stand))[1]).toBe(
      "Jo's phone revoked, lost in the woods",
    );
    const { publicKey: _, ...without } = paired;
    const found = fold([...entries, write('device-paired', { ...without, label: 'Spare phone' })]);
    const now = found.stand.devices.get(device.b);
    expect(now).toMatchObject({ label: 'Spare phone' });
    expect(now).not.toHaveProperty('revokedBy');
    expect(now?.publicKey).toBe(publicKey);
  });

  it('that was only revoked is known by its number', () => {
    const { stand } = fold([pen()('device-revoked', revoked)]);
    expect(stand.devices.get(device.b)?.label).toBe(`device ${device.b.slice(-6)}`);
  });

  it('stands in the JSON of the stand, without its key but with the id of it', () => {
    const write = pen();
    const folded = fold(received(write('device-paired', paired), write('device-revoked', revoked)));
    const { devices } = standJson(folded, { head: { size: 2, root: '' }, names: new Map() });
    expect(devices).toEqual([
      {
        id: device.b,
        label: "Jo's phone",
        keyId: '21fe31dfa154a261',
        person,
        revoked: true,
        entries: [0, 1],
      },
    ]);
  });
});

describe('entries of a revoked device', () => {
  const write = pen();
  const pairing = write('device-paired', paired);
  const revocation = write('device-revoked', revoked);

  it('are no finding when they were recorded and had arrived before', () => {
    const early = note(write, 1, '2026-03-02T13:30:00.000Z');
    expect(findings(received(pairing, early, revocation))).toEqual([]);
  });

  it('are one finding when they were recorded after the logbook had the revocation', () => {
    const late = [2, 3].map((seq) => note(write, seq, `2026-03-02T15:0${seq}:00.000Z`));
    const [found, ...more] = findings(received(pairing, revocation, ...late));
    expect(more).toEqual([]);
    expect(found).toMatchObject({
      entries: [revocation.id, ...late.map(({ id }) => id)],
      about: { device: device.b },
      sentence: "2 entries of Jo's phone were recorded after that device was revoked (2026-03-02).",
    });
  });

  it('are told apart when they say that they were recorded before, but came after', () => {
    const dated = note(write, 4, '2026-03-02T13:40:00.000Z');
    expect(findings(received(pairing, revocation, dated)).map(({ sentence }) => sentence)).toEqual([
      "1 entry of Jo's phone arrived after that device was revoked (2026-03-02), recorded before by its own clock.",
    ]);
  });

  it('are no finding once it is paired again, nor when the revocation was struck', () => {
    const again = write('device-paired', paired);
    const later = note(write, 5, '2026-03-02T16:00:00.000Z');
    expect(findings(received(pairing, revocation, again, later))).toEqual([]);
    const strike = write('entry-struck', { strikes: revocation.id, reason: 'found in the truck' });
    expect(findings(received(pairing, revocation, later, strike))).toEqual([]);
  });
});
