/** Looking up a printed log-rule table: one row per whole inch, one column per even foot, nothing in between. */
import type { NotEnough } from '../figure.ts';
import { notEnough } from '../figure.ts';

/** A printed table: lengths of its columns in feet, and board feet by scaling diameter in inches. */
export type LogTable = Readonly<{
  name: string;
  lengths: readonly number[];
  rows: Readonly<Record<number, readonly number[]>>;
}>;

/** The printed board feet of a log, or which row or column the table lacks. */
export function lookUp(table: LogTable, diameter: number, length: number): number | NotEnough {
  const { name, lengths, rows } = table;
  const row = Object.hasOwn(rows, diameter) ? rows[diameter] : undefined;
  const column = lengths.indexOf(length);
  if (row === undefined) {
    const diameters = Object.keys(rows).map(Number);
    const range = `${Math.min(...diameters)} to ${Math.max(...diameters)} in by whole inches`;
    return notEnough(`the ${name} table has diameters of ${range}, not ${diameter} in`);
  }
  const found = row[column];
  return found ?? notEnough(`the ${name} table has lengths of ${lengths.join(', ')} ft, not ${length} ft`);
}
