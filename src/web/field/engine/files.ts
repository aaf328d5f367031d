// The way by files: what waits, or everything, as exchange lines; and a copy of the logbook, or what another phone
// saved, taken in again.
import { type ExchangeJson, exchangeJson, readEnvelope, type SealedRow } from '../../../log/entry/index.ts';
import { text } from '../text/index.ts';
import type { Core } from './core.ts';
import { type Line, readLine, signed, takeLines } from './exchange/index.ts';
import { readTexts } from './notebook.ts';
import { timeHere } from './outside.ts';
import type { Engine } from './port.ts';
import type { EntryRow } from './storage/rows.ts';

const encoder = new TextEncoder();

/** Makes the file, straight from the database, with the photos that are here. */
export async function fileOf(
  core: Core,
  what: 'outbox' | 'copy',
): Promise<Readonly<{ name: string; bytes: Uint8Array }>> {
  const { notebook, outside, values } = core;
  const all = await notebook.read((db) => db.getAll('entries'));
  const rows = what === 'copy' ? all : all.filter(({ own, position }) => own && position === undefined);
  const lines: string[] = [];
  for (const row of (await signedOwn(core, rows)).sort(inOrder))
    lines.push(JSON.stringify(await lineOf(core, row)));
  const day = timeHere(outside, outside.now()).slice(0, 16).replaceAll(/[:T]/g, '-');
  const label = (values.get('label') ?? '').toLowerCase().replaceAll(/[^a-z0-9]+/g, '-');
  const name = ['gapledger', what, day, label.replaceAll(/^-|-$/g, '')].filter(Boolean).join('-');
  return { name: `${name}.ndjson`, bytes: encoder.encode(lines.map((line) => `${line}\n`).join('')) };
}

/** A phone that cannot write just now still hands out what it has. */
async function signedOwn(core: Core, rows: readonly EntryRow[]): Promise<EntryRow[]> {
  const unsent = await signed(
    core,
    rows.filter(({ own, position }) => own && position === undefined),
  ).catch(() => []);
  const byId = new Map(unsent.map((row) => [row.id, row]));
  return rows.map((row) => byId.get(row.id) ?? row);
}

/** By place in the logbook; what has none yet comes after, in the order in which it was recorded. */
function inOrder(a: EntryRow, b: EntryRow): number {
  const place = (row: EntryRow) => row.position ?? Number.MAX_SAFE_INTEGER;
  return place(a) - place(b) || (a.id < b.id ? -1 : 1);
}

async function lineOf({ notebook, photos }: Core, row: EntryRow): Promise<ExchangeJson> {
  const bytes = encoder.encode(row.text);
  const { position, receivedAt, signature } = row;
  const hashes = readEnvelope(bytes).sealed ?? [];
  const sealed: SealedRow[] = hashes.length === 0 ? [] : await readTexts(notebook, hashes);
  for (const hash of hashes) {
    // A photo that cannot be read keeps no entry out of the file.
    const photo = await photos.get(hash).catch(() => undefined);
    if (photo !== undefined) sealed.push(photo);
  }
  const receipt = position === undefined || receivedAt === undefined ? undefined : { position, receivedAt };
  return exchangeJson({ bytes, signature, sealed, receipt });
}

/** Takes a file in: receipts in it confirm this phone's own entries. A file of another logbook is refused. */
export async function takeIn(core: Core, bytes: Uint8Array): ReturnType<Engine['takeIn']> {
  const { good, bad } = readFile(bytes);
  if (good.length === 0) return { ok: false, why: bad[0] ?? text.engine.emptyFile };
  const whose = logbookOf(core, good);
  if ('why' in whose) return { ok: false, why: whose.why };
  const taken = await takeLines(core, good, whose);
  return { ok: true, ...taken, unread: bad };
}

function readFile(bytes: Uint8Array): { good: Line[]; bad: string[] } {
  const good: Line[] = [];
  const bad: string[] = [];
  for (const [index, written] of new TextDecoder().decode(bytes).split(/\r?\n/).entries()) {
    if (written.trim() === '') continue;
    const reading = readWritten(written);
    if (reading.ok) good.push(reading.line);
    else bad.push(text.engine.notALine(index + 1, reading.issue.remedy));
  }
  return { good, bad };
}

function readWritten(written: string): ReturnType<typeof readLine> {
  try {
    return readLine(JSON.parse(written), written);
  } catch {
    return { ok: false, issue: { field: 'line', value: written.slice(0, 80), remedy: text.engine.notJson } };
  }
}

/** Which logbook the receipts of a file are of: the same as before, one that this phone joins, or none at all. */
function logbookOf(
  { held, values }: Core,
  lines: readonly Line[],
): Readonly<{ logbook?: string }> | Readonly<{ why: string }> {
  const placed = lines.filter(({ line }) => line.receipt !== undefined);
  if (placed.length === 0) return {};
  const known = placed.map(({ id, line }) => ({ id, here: held.at(line.receipt?.position ?? -1) }));
  if (known.some(({ id, here }) => here !== undefined && here !== id))
    return { why: text.engine.fileOfOther };
  const first = placed.find(({ line }) => line.receipt?.position === 0)?.id;
  const logbook = values.get('logbook');
  if (first !== undefined)
    return logbook === undefined || logbook === first ? { logbook: first } : { why: text.engine.fileOfOther };
  return known.some(({ here }) => here !== undefined) ? {} : { why: text.engine.noBeginning };
}
