// The table beside a shapefile (dBASE III): every value as the text it is written with, so that 14.0 stays 14.0 and a day
// stays that day in every time zone.
import { ImportRefusal, limits } from '../source.ts';

type Column = Readonly<{ name: string; type: string; length: number }>;

/**
 * @param encoding from the .cpg beside it; UTF-8 where there is none
 * @throws ImportRefusal for a table that is cut off or is none
 */
export function readDbf(bytes: Uint8Array, encoding: string | undefined): Record<string, string>[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 33) throw damaged();
  const records = view.getUint32(4, true);
  const header = view.getUint16(8, true);
  const width = view.getUint16(10, true);
  if (
    width < 1 ||
    header > bytes.length ||
    records > limits.items ||
    header + records * width > bytes.length + 1
  )
    throw damaged();
  const decode = decoder(encoding);
  const columns = columnsIn(bytes, header, decode);
  const rows: Record<string, string>[] = [];
  for (let index = 0; index < records; index += 1) {
    let at = header + index * width + 1;
    const row: Record<string, string> = {};
    for (const { name, type, length } of columns) {
      const value = decode(bytes.subarray(at, at + length))
        .replaceAll('\0', '')
        .trim();
      at += length;
      // Stars fill a number that does not fit or is unknown.
      if (value !== '' && !/^\*+$/.test(value)) row[name] = type === 'D' ? dayOf(value) : value;
    }
    rows.push(row);
  }
  return rows;
}

function columnsIn(bytes: Uint8Array, header: number, decode: (bytes: Uint8Array) => string): Column[] {
  const columns: Column[] = [];
  for (let at = 32; at + 32 <= header && bytes[at] !== 0x0d; at += 32) {
    const name = decode(bytes.subarray(at, at + 11)).split('\0')[0] ?? '';
    columns.push({ name, type: String.fromCharCode(bytes[at + 11] ?? 0), length: bytes[at + 16] ?? 0 });
  }
  return columns;
}

function dayOf(value: string): string {
  return /^\d{8}$/.test(value) ? `${value.slice(0, 4)}-${value.slice(4, 6)}-${value.slice(6)}` : value;
}

function decoder(encoding: string | undefined): (bytes: Uint8Array) => string {
  const wanted = encoding?.trim() === '' ? undefined : encoding?.trim();
  try {
    const label = /^\d+$/.test(wanted ?? '') ? `windows-${wanted}` : (wanted ?? 'utf-8');
    const known = new TextDecoder(label, { fatal: true });
    return (bytes) => {
      try {
        return known.decode(bytes);
      } catch {
        throw new ImportRefusal(
          '.dbf',
          '',
          `is not written in ${label}; put a .cpg file with its encoding beside it`,
        );
      }
    };
  } catch (error) {
    if (error instanceof ImportRefusal) throw error;
    throw new ImportRefusal(
      '.cpg',
      wanted ?? '',
      'is no encoding that is known here; write UTF-8, or another that is',
    );
  }
}

function damaged(): ImportRefusal {
  return new ImportRefusal('.dbf', '', 'is cut off, or no dBASE table; export the shapefile anew');
}
