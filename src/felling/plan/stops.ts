// Falls of a plan that are not to be worked as they stand.
import type { PlannedFall } from './plan.ts';

/** Why one is not: no hinge that could be worked out, or no clear way out. Whole sentences; none where nothing entered says so. */
export function stopsOf({
  worksheet,
  waysOut,
}: Pick<PlannedFall, 'worksheet' | 'waysOut'>): readonly string[] {
  return [...worksheet.stop, ...(waysOut.noneClear === undefined ? [] : [waysOut.noneClear])];
}
