// What the logbook says of each line that was sent, read with care: an entry leaves the outbox by nothing but this.
import { isTime } from '../../../../log/entry/index.ts';
import { text } from '../../text/index.ts';
import type { EntryRow, Refusal } from '../storage/rows.ts';
import { asObject, type Json } from './asking.ts';

export type Receipt =
  | Readonly<{ id: string; position: number; receivedAt: string }>
  | Readonly<{ id: string; refusal: Refusal }>;

export type Hello = Readonly<{
  logbook: string;
  lastSeq: number;
  size: number;
  /** Milliseconds since 1970 by the logbook's clock. */
  serverTime: number;
}>;

/** Reads the answer to POST /api/exchange; undefined when it is none. */
export function readExchanged(
  json: Json,
  sent: readonly EntryRow[],
): Readonly<{ hello: Hello; receipts: readonly Receipt[] }> | undefined {
  const { receipts, logbook, lastSeq, serverTime } = json;
  const size = asObject(json.head)?.size;
  if (typeof logbook !== 'string' || !isWhole(lastSeq) || !isWhole(size)) return undefined;
  if (typeof serverTime !== 'string' || Number.isNaN(Date.parse(serverTime))) return undefined;
  if (!Array.isArray(receipts) || receipts.length !== sent.length) return undefined;
  const read = sent.map((row, index) => readReceipt(row, asObject(receipts[index])));
  if (read.some((receipt) => receipt === undefined)) return undefined;
  return {
    hello: { logbook, lastSeq, size, serverTime: Date.parse(serverTime) },
    receipts: read.filter((receipt) => receipt !== undefined),
  };
}

function readReceipt({ id }: EntryRow, json: Json | undefined): Receipt | undefined {
  switch (json?.outcome) {
    case 'recorded':
    case 'already-recorded': {
      const { position, receivedAt } = json;
      const sound =
        json.id === id && isWhole(position) && typeof receivedAt === 'string' && isTime(receivedAt);
      return sound ? { id, position, receivedAt } : undefined;
    }
    case 'conflict':
      return {
        id,
        refusal: { outcome: 'conflict', field: 'id', value: id, remedy: text.engine.conflict },
      };
    case 'unreadable': {
      const issue = asObject(json.issue) ?? {};
      const [field, value, remedy] = [issue.field, issue.value, issue.remedy].map((part) =>
        typeof part === 'string' ? part : '',
      );
      return {
        id,
        refusal: { outcome: 'unreadable', field: field ?? '', value: value ?? '', remedy: remedy ?? '' },
      };
    }
    default:
      return undefined;
  }
}

export function isWhole(value: unknown): value is number {
  return Number.isSafeInteger(value) && Number(value) >= 0;
}
