// Lines that the logbook wrote, on their way into the phone: over the air or out of a file.
import {
  type EntryIssue,
  type ExchangeLine,
  parseEnvelope,
  portableSha256,
  readExchangeJson,
  seal,
} from '../../../../log/entry/index.ts';
import { text } from '../../text/index.ts';
import type { Core } from '../core.ts';
import { mustBeSameDevice } from '../storage/meta.ts';
import type { EntryRow, SealedTextRow } from '../storage/rows.ts';

/** A line that was read and checked. */
export type Line = Readonly<{
  id: string;
  type: string;
  device: string;
  seq: number;
  erases: readonly string[];
  text: string;
  line: ExchangeLine;
}>;
export type LineReading = Readonly<{ ok: true; line: Line } | { ok: false; issue: EntryIssue }>;

const decoder = new TextDecoder();
const encoder = new TextEncoder();

/** Reads an exchange line, or a bare entry as the logbook and older files have it. */
export function readLine(value: unknown, written?: string): LineReading {
  const isEntry = typeof value === 'object' && value !== null && !('entry' in value) && 'id' in value;
  const reading: ReturnType<typeof readExchangeJson> =
    isEntry && written !== undefined
      ? { ok: true, line: { bytes: encoder.encode(written) } }
      : readExchangeJson(value);
  if (!reading.ok) return reading;
  const parsed = parseEnvelope(reading.line.bytes);
  if (!parsed.ok) return parsed;
  const { id, type, device, seq, erases } = parsed.envelope;
  return {
    ok: true,
    line: {
      id,
      type,
      device,
      seq,
      erases: erases ?? [],
      text: decoder.decode(reading.line.bytes),
      line: reading.line,
    },
  };
}

export type TakenIn = Readonly<{ fresh: number; confirmed: number }>;

/**
 * Writes lines into the phone, all or nothing. An entry that is here with the same text gets the logbook's position;
 * one with another text stays as it is and is put before a person. What an entry erases goes.
 * @param values further values that hold if the lines do
 */
export async function takeLines(
  core: Core,
  lines: readonly Line[],
  values: { readonly readTo?: number; readonly logbook?: string },
): Promise<TakenIn> {
  const { notebook, held, photos, outside } = core;
  const device = core.values.get('device') ?? '';
  const erased = lines.flatMap(({ erases }) => erases);
  const texts = lines
    .flatMap(({ line }) => soundRows(line))
    .filter(({ mediaType }) => mediaType.startsWith('text/'));
  const taken = await notebook.write(['entries', 'sealed', 'meta'], async (transaction) => {
    await mustBeSameDevice(transaction, core.values.get('device'));
    const [store, sealed] = [transaction.objectStore('entries'), transaction.objectStore('sealed')];
    const rows: EntryRow[] = [];
    const counts = { fresh: 0, confirmed: 0 };
    for (const line of lines) {
      const here = await store.get(line.id);
      const row = merged(line, here, { own: line.device === device, savedAt: outside.now() });
      if (here === undefined) counts.fresh += 1;
      else if (here.position === undefined && row.position !== undefined && here.own) counts.confirmed += 1;
      await store.put(row);
      rows.push(row);
    }
    for (const row of texts) await sealed.put(row);
    for (const hash of erased) await sealed.delete(hash);
    for (const [name, value] of Object.entries(values))
      await transaction.objectStore('meta').put(value, name);
    return { rows, counts };
  });
  core.values.note(values);
  held.takeTexts(texts);
  held.dropTexts(erased);
  held.take(taken.rows);
  await keepPhotos(core, lines, device);
  // A store of photos that fails holds nothing up.
  if (erased.length > 0) await photos.erase(erased).catch(() => undefined);
  core.tell(
    erased.length > 0
      ? { all: true }
      : { entries: taken.rows.map(({ id }) => id), texts: texts.map(({ hash }) => hash) },
  );
  core.changed();
  return taken.counts;
}

function merged(
  { id, text: written, seq, line }: Line,
  here: EntryRow | undefined,
  fresh: Pick<EntryRow, 'own' | 'savedAt'>,
): EntryRow {
  const { receipt, signature } = line;
  if (here === undefined) {
    const signed = signature === undefined ? {} : { signature };
    // What this phone had lost and gets back out of a file of its own has yet to be sent.
    const place = receipt ?? (fresh.own ? { waiting: seq } : {});
    return { id, text: written, ...fresh, ...signed, ...place };
  }
  if (here.text !== written) {
    const { waiting: _, ...rest } = here;
    const refusal = { outcome: 'conflict', field: 'id', value: id, remedy: text.engine.conflict } as const;
    return { ...rest, attention: refusal };
  }
  if (receipt === undefined) return here;
  const { waiting: _, attention: __, ...rest } = here;
  return { ...rest, ...receipt };
}

/** Photos come with files only, and only where somebody put them in. */
async function keepPhotos({ photos, passing }: Core, lines: readonly Line[], device: string): Promise<void> {
  for (const { id, device: by, line } of lines) {
    for (const row of soundRows(line).filter(({ mediaType }) => mediaType.startsWith('image/'))) {
      const unsent = by === device && line.receipt === undefined;
      try {
        if ((await photos.get(row.hash)) !== undefined) continue;
        await photos.put({ ...row, entry: id, ...(unsent ? { waiting: 1 } : {}) });
        if (unsent) passing.photos += 1;
      } catch {
        // The entries are in; the file still has the photo.
        return;
      }
    }
  }
}

/** Rows whose hash is that of their bytes; another one would show a name that nobody wrote. */
function soundRows({ sealed = [] }: ExchangeLine): SealedTextRow[] {
  return sealed
    .filter(({ hash, salt, bytes }) => seal(bytes, salt, portableSha256) === hash)
    .map(({ hash, salt, bytes, mediaType }) => ({ hash, salt, bytes, mediaType }));
}
