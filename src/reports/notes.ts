// Notes, and which of them are about a group.
import type { GroupView, Stand } from '../stand/index.ts';
import { type Context, known } from './context.ts';
import type { Fact } from './model.ts';

type Note = Stand['notes'][number];

/** Notes about the group itself or about a stem or sapling of it. */
export function notesOn(context: Context, { group, stems, saplings }: GroupView): Note[] {
  const ids = new Set([group, ...stems, ...saplings].map(({ id }) => id));
  return context.folded.stand.notes.filter(({ body }) =>
    [body.group, body.stem, body.sapling].some((id) => id !== undefined && ids.has(id)),
  );
}

export function noteFacts(context: Context, notes: readonly Note[]): Fact[] {
  return notes.map(({ body, at, entry }) =>
    known(`${context.time(at)}: ${body.text}`, context.numbers([entry])),
  );
}
