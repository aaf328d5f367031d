// Names, contacts and photos on their way into erasable rows.
import type { Read } from '../events/index.ts';
import type { SealedRow } from '../log/store/index.ts';
import { sealedRow } from './compose.ts';
import type { Desk } from './desk.ts';

const mediaTypes: Readonly<Record<string, string>> = {
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  png: 'image/png',
  webp: 'image/webp',
  heic: 'image/heic',
  heif: 'image/heif',
};

/** Media type by the ending of a file's name. */
export function mediaTypeOf(path: string): string {
  return mediaTypes[path.split('.').at(-1)?.toLowerCase() ?? ''] ?? 'application/octet-stream';
}

/** Seals typed text, or the file that a photo field names; the row is added to `rows`. A hash stands for itself. */
export function sealTyped(
  desk: Pick<Desk, 'outside'>,
  field: string,
  text: string,
  rows: SealedRow[],
): Read<string> {
  if (/^[0-9a-f]{64}$/.test(text)) return { ok: true, value: text };
  if (field !== 'photo')
    return keep(sealedRow(desk, new TextEncoder().encode(text), 'text/plain;charset=utf-8'), rows);
  if (desk.outside.readFile === undefined)
    return { ok: false, remedy: 'photos are added at the command line' };
  try {
    return keep(sealedRow(desk, desk.outside.readFile(text), mediaTypeOf(text)), rows);
  } catch {
    return { ok: false, remedy: 'there is no such file, or it cannot be read' };
  }
}

function keep(row: SealedRow, rows: SealedRow[]): Read<string> {
  rows.push(row);
  return { ok: true, value: row.hash };
}
