// A tree head: the size of a log and the root of its tree. One line that proves, kept elsewhere, years
// later that nothing before it was changed.
import type { EntryIssue } from './envelope.ts';

export type TreeHead = Readonly<{
  size: number;
  /** Root hash in hex. */
  root: string;
}>;

/** The head as people write it down: `SIZE:ROOT`. */
export function headText(head: TreeHead): string {
  return `${head.size}:${head.root}`;
}

/** Reads `SIZE:ROOT`; spaces inside the root, as printed for reading aloud, are passed over. */
export function parseHead(text: string): { ok: true; head: TreeHead } | { ok: false; issue: EntryIssue } {
  const parts = /^(0|[1-9]\d{0,14}):([0-9a-f]{64})$/.exec(text.replaceAll(/\s/g, '').toLowerCase());
  if (!parts) {
    return {
      ok: false,
      issue: {
        field: 'head',
        value: text.slice(0, 100),
        remedy: 'write it as printed: the size, a colon, and 64 hexadecimal digits',
      },
    };
  }
  return { ok: true, head: { size: Number(parts[1]), root: parts[2] ?? '' } };
}
