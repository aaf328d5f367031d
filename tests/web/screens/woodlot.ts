// The invented demo woodlot as a copy file of the logbook, with a later emergency card of which the contacts are here.
import { readFileSync } from 'node:fs';
import { type Envelope, seal, writeEntry, writeExchangeLine } from '../../../src/log/entry/index.ts';

const entries = new URL('../../../exports/entries.jsonl', import.meta.url);
const receivedAt = '2026-11-23T12:00:00.000Z'; // after the demo's last entry, so that this card is the one in force
const encoder = new TextEncoder();

/** Exchange lines with receipts, as the desk writes them; names of people are not among them. */
export function woodlotCopy(): string {
  const texts = readFileSync(entries, 'utf8').trim().split('\n');
  const last = JSON.parse(texts.at(-1) ?? '') as Envelope;
  const contacts = encoder.encode('Joan Calloway 555-0117');
  const salt = new Uint8Array(16).fill(7);
  const card = writeEntry({
    ...last,
    id: '019d5a00-0000-7000-8000-000000000001',
    type: 'emergency-card-set',
    v: 1,
    seq: 100_000,
    happenedAt: { at: receivedAt, precision: 'instant' },
    recordedAt: receivedAt,
    sealed: [seal(contacts, salt)],
    body: {
      accessPoint: { how: 'fix', lat: '35.95310', lon: '-81.74620' },
      wayIn: 'Laurel Run Road, second gate on the left, then 400 yards on foot up the skid trail',
      callFirst: '911',
      nearestHelp: 'county hospital, 22 miles by road',
      signal: 'at the gate; none in the cove',
      contacts: seal(contacts, salt),
    },
  });
  const lines = [...texts.map((text) => encoder.encode(text)), card].map((bytes, position) =>
    writeExchangeLine({
      bytes,
      receipt: { position, receivedAt },
      ...(bytes === card
        ? { sealed: [{ hash: seal(contacts, salt), salt, bytes: contacts, mediaType: 'text/plain' }] }
        : {}),
    }),
  );
  return `${lines.map((line) => line.trim()).join('\n')}\n`;
}
