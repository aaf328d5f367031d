// The log as exchange lines with the logbook's receipts: what a phone is given to read, over HTTP or as a file.
import { type ExchangeLine, readEnvelope } from '../log/entry/index.ts';
import type { Log, SealedRow, Stored } from '../log/store/index.ts';
import { rowsMayFollow } from './receive.ts';

/**
 * The entries from `from` up to and without `to`, in pages. Names and contacts go with them; photos do not, and are
 * asked for one by one.
 */
export async function* exchangeLines(
  log: Pick<Log, 'read' | 'sealed'>,
  range: Readonly<{ from?: number; to?: number }>,
): AsyncGenerator<ExchangeLine[]> {
  for await (const page of log.read(range)) {
    const lines: ExchangeLine[] = [];
    for (const stored of page) lines.push(await lineOf(log, stored));
    yield lines;
  }
}

async function lineOf(log: Pick<Log, 'sealed'>, stored: Stored): Promise<ExchangeLine> {
  const { bytes, signature, position, receivedAt } = stored;
  const envelope = readEnvelope(bytes);
  const rows: SealedRow[] = [];
  if (!rowsMayFollow(envelope)) {
    for (const hash of envelope.sealed ?? []) {
      // Rows that were erased are not there, and the line says nothing of them.
      const row = await log.sealed(hash);
      if (row !== undefined) rows.push(row);
    }
  }
  return { bytes, signature, sealed: rows, receipt: { position, receivedAt } };
}
