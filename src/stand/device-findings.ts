// Findings about devices that may record no more: what they wrote afterwards is kept, and told.
import { compareText, type LogEntry } from './entry.ts';
import type { Finding } from './findings.ts';
import { counted } from './labels.ts';
import type { Device, DeviceTurn, Stand } from './state.ts';

/**
 * Entries of revoked devices: recorded after that, by their own clock, or recorded before by that clock and received
 * after. One finding for each revocation and way.
 */
export function deviceFindings(stand: Stand, known: Iterable<LogEntry>): Finding[] {
  const revoked = [...stand.devices.values()].filter(({ turns }) => turns.some(({ to }) => to === 'revoked'));
  if (revoked.length === 0) return [];
  const byDevice = new Map<string, LogEntry[]>(revoked.map(({ id }) => [id, []]));
  for (const entry of known) byDevice.get(entry.device)?.push(entry);
  return revoked.flatMap((device) => findingsOf(device, byDevice.get(device.id) ?? []));
}

function findingsOf(device: Device, entries: readonly LogEntry[]): Finding[] {
  const recorded = new Map<DeviceTurn, LogEntry[]>();
  const received = new Map<DeviceTurn, LogEntry[]>();
  for (const entry of entries) {
    const by = Date.parse(entry.recordedAt);
    const whenRecorded = device.turns.findLast(({ since }) => since <= by);
    const whenReceived = device.turns.findLast((turn) => isBehind(entry, turn));
    if (whenRecorded?.to === 'revoked') put(recorded, whenRecorded, entry);
    else if (whenReceived?.to === 'revoked') put(received, whenReceived, entry);
  }
  return [
    ...[...recorded].map(([turn, those]) => finding(device, turn, those, 'recorded')),
    ...[...received].map(([turn, those]) => finding(device, turn, those, 'received')),
  ];
}

/** Whether the logbook had the entry after it had the pairing or revocation. */
function isBehind({ position }: LogEntry, turn: DeviceTurn): boolean {
  return position !== undefined && turn.position !== undefined && position > turn.position;
}

function put(found: Map<DeviceTurn, LogEntry[]>, turn: DeviceTurn, entry: LogEntry): void {
  const others = found.get(turn);
  if (others) others.push(entry);
  else found.set(turn, [entry]);
}

function finding(
  device: Device,
  turn: DeviceTurn,
  entries: readonly LogEntry[],
  how: 'recorded' | 'received',
): Finding {
  const sorted = entries.toSorted((a, b) => a.seq - b.seq || compareText(a.id, b.id));
  const many = counted(sorted.length, 'entry', 'entries');
  const were = sorted.length === 1 ? 'was' : 'were';
  const day = new Date(turn.since).toISOString().slice(0, 10);
  return {
    code: 'entry-of-revoked-device',
    entries: [turn.entry, ...sorted.map(({ id }) => id)],
    about: { device: device.id },
    sentence:
      how === 'recorded'
        ? `${many} of ${device.label} ${were} recorded after that device was revoked (${day}).`
        : `${many} of ${device.label} arrived after that device was revoked (${day}), recorded before by its own clock.`,
    remedy:
      how === 'recorded'
        ? 'Ask who had the device. Strike what did not happen; if it is in good hands, pair it again.'
        : 'Ask whoever carried it whether they made them. Strike what did not happen.',
    at: sorted.at(-1)?.recordedAt ?? '',
  };
}
