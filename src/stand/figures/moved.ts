// What moved since the log had a certain size: from which stake on, by how much, and why.
import { type Folded, fold } from '../fold.ts';
import { type Moved, movedBetween } from '../moved.ts';

export type MovedFigures = Readonly<{
  /** Entries that the log held then. */
  sinceSize: number;
  rows: readonly Moved[];
  remarks: readonly string[];
}>;

/** @param sinceSize the stand as it was known when the log held so many entries */
export function movedFigures(after: Folded, sinceSize: number): MovedFigures {
  const known = [...after.entries.values()].filter(
    ({ position }) => position !== undefined && position < sinceSize,
  );
  const until = after.happenings.at(-1)?.instant;
  const before = fold(known, until === undefined ? {} : { until });
  return {
    sinceSize,
    rows: movedBetween(before, after),
    remarks: [
      'What was recorded or taken out in between did not move, and is not listed.',
      'Movements of less than a millimetre are not counted.',
    ],
  };
}
