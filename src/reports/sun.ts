// Hours of direct sun in the report: through the year at the centre of an opening and at a protected sapling, before the
// cut and after it, as a picture with all its numbers in the table beside it.
import { type Folded, type Group, type SunFigures, sunFigures } from '../stand/index.ts';
import type { DotChart } from './charts/model.ts';

/** The figures of a group whose opening and edge trees are known; undefined for another. */
export function sunOf(folded: Folded, group: Group): SunFigures | undefined {
  const last = folded.happenings.at(-1)?.happenedAt.at;
  if (last === undefined) return undefined;
  const figures = sunFigures(folded, group, Number(last.slice(0, 4)));
  return figures.missing === null ? figures : undefined;
}

/** The centre and the first sapling that lies in the opening; the table has all of them. */
export function sunChart({ label, rows }: SunFigures): DotChart | undefined {
  const [centre, sapling] = rows.filter(({ missing }) => missing === null);
  if (centre === undefined) return undefined;
  const points = (hours: readonly number[]) => hours.map((each, month) => [month + 1, each] as const);
  const both = [
    { row: centre, marks: ['ring', 'dot'] },
    ...(sapling === undefined ? [] : [{ row: sapling, marks: ['frame', 'square'] } as const]),
  ] as const;
  const most = (hours: readonly number[]) => Math.max(0, ...hours).toFixed(1);
  const told = both.map(
    ({ row }) => `at ${row.label} at most ${most(row.before)} hours before and ${most(row.after)} after`,
  );
  return {
    is: 'dots',
    joined: true,
    title: `Hours of direct sun in ${label} on the 21st of each month, by an estimate of open sky`,
    description: `Clear days through the year: ${told.join('; ')}. The numbers stand in the table.`,
    across: 'Month',
    up: 'Hours of direct sun',
    series: both.flatMap(({ row, marks: [before, after] }) => [
      { name: `${row.label}, before the cut`, mark: before, points: points(row.before) },
      { name: `${row.label}, after it`, mark: after, points: points(row.after) },
    ]),
  };
}
