// Bytes as text: UTF-8 with or without its mark, or UTF-16 with it. Anything else is refused rather than guessed, for a
// wrongly guessed letter in a name or tag is never found again.
import { ImportRefusal } from '../source.ts';

/** @throws ImportRefusal for bytes that are no text */
export function textOf(bytes: Uint8Array): string {
  const encoding = markOf(bytes);
  let text: string;
  try {
    text = new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    throw new ImportRefusal(
      'file',
      '',
      `is no ${encoding.toUpperCase()} text; save it as UTF-8 and try again`,
    );
  }
  if (text.includes('\0'))
    throw new ImportRefusal(
      'file',
      '',
      'holds NUL characters, which no text has; it is damaged, or no text file',
    );
  return text;
}

function markOf(bytes: Uint8Array): 'utf-8' | 'utf-16le' | 'utf-16be' {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  return bytes[0] === 0xfe && bytes[1] === 0xff ? 'utf-16be' : 'utf-8';
}
