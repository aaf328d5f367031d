// Writes entries: envelope, ids, sequence numbers, erasable rows; and appends them in one batch.
import type { JsonObject } from '../events/index.ts';
import { type Envelope, type Happened, seal, writeEntry } from '../log/entry/index.ts';
import type { Incoming, Receipt, SealedRow } from '../log/store/index.ts';
import { type Desk, timeIn } from './desk.ts';

/** An entry that is decided on and has no place in the log yet. */
export type Decided = Readonly<{
  type: string;
  v: number;
  body: JsonObject;
  happenedAt: Happened;
  by: string;
  sealed?: readonly SealedRow[];
  erases?: readonly string[];
}>;

/** Appends what was decided, all or nothing. `zone` gives the offset that the time of recording is written in. */
export async function append(
  desk: Desk,
  zone: string,
  decided: readonly Decided[],
): Promise<{ receipts: Receipt[]; envelopes: Envelope[] }> {
  const now = desk.outside.now();
  const recordedAt = timeIn(desk.outside, zone, now);
  let envelopes: Envelope[] = [];
  const receipts = await desk.log.compose(
    desk.device,
    (firstSeq) => {
      envelopes = decided.map((entry, index) =>
        envelopeOf(entry, { desk, recordedAt, seq: firstSeq + index }),
      );
      return envelopes.map((envelope, index): Incoming => {
        const rows = decided[index]?.sealed;
        return { bytes: writeEntry(envelope), ...(rows === undefined ? {} : { sealed: rows }) };
      });
    },
    new Date(now).toISOString(),
    { floor: desk.counter.last },
  );
  desk.counter.last = Math.max(desk.counter.last, ...envelopes.map(({ seq }) => seq));
  return { receipts, envelopes };
}

function envelopeOf(entry: Decided, at: { desk: Desk; recordedAt: string; seq: number }): Envelope {
  const sealed = entry.sealed?.map(({ hash }) => hash) ?? [];
  return {
    id: at.desk.outside.newId(),
    type: entry.type,
    v: entry.v,
    happenedAt: entry.happenedAt,
    recordedAt: at.recordedAt,
    by: entry.by,
    device: at.desk.device,
    seq: at.seq,
    ...(sealed.length > 0 ? { sealed } : {}),
    ...(entry.erases && entry.erases.length > 0 ? { erases: entry.erases } : {}),
    body: entry.body,
  };
}

/** An erasable row for these bytes, under a fresh salt. */
export function sealedRow(desk: Pick<Desk, 'outside'>, bytes: Uint8Array, mediaType: string): SealedRow {
  const salt = desk.outside.newSalt();
  return { hash: seal(bytes, salt), salt, bytes, mediaType };
}
