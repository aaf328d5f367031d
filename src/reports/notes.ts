// Notes and photos, and which of them are about a group.
import type { GroupView, Stand } from '../stand/index.ts';
import { type Context, known } from './context.ts';
import type { Fact } from './model.ts';

type Note = Stand['notes'][number];
type Photo = Stand['photos'][number];
export type Papers = Readonly<{ notes: readonly Note[]; photos: readonly Photo[] }>;

/** Notes and photos about the group itself or about a stem or sapling of it. */
export function papersOf(context: Context, { group, stems, saplings }: GroupView): Papers {
  const { notes, photos } = context.folded.stand;
  const ids = new Set([group, ...stems, ...saplings].map(({ id }) => id));
  const mine = ({ body }: Note | Photo) =>
    [body.group, body.stem, body.sapling].some((id) => id !== undefined && ids.has(id));
  return { notes: notes.filter(mine), photos: photos.filter(mine) };
}

/** Notes and photos that are about none of these groups. */
export function otherPapers(context: Context, views: readonly GroupView[]): Papers {
  const { notes, photos } = context.folded.stand;
  const shown = views.map((view) => papersOf(context, view));
  const taken = new Set<Note | Photo>(shown.flatMap((papers) => [...papers.notes, ...papers.photos]));
  return {
    notes: notes.filter((note) => !taken.has(note)),
    photos: photos.filter((photo) => !taken.has(photo)),
  };
}

export function paperFacts(context: Context, { notes, photos }: Papers): Fact[] {
  return [
    ...notes.map(({ body, at, entry }) =>
      known(`${context.time(at)}: ${body.text}`, context.numbers([entry])),
    ),
    ...photos.map(({ body, at, entry, erased }) =>
      known(
        `${context.time(at)}: photo${body.of === undefined ? '' : `, ${body.of}`}${erased ? ' (picture erased)' : ''}`,
        context.numbers([entry]),
      ),
    ),
  ];
}
