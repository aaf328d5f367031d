// Whose recorded numbers a felling plan is computed with: who is named, else who carries the device that asks, else who records
// at this desk.
import { whoDidIt } from '../record/index.ts';
import type { Room } from './environment.ts';
import { badParameter } from './problems.ts';
import type { Look } from './reading.ts';
import type { Request } from './request.ts';

/**
 * The id of that person; undefined where nobody is known, and then the usual numbers are taken.
 * @throws Problem bad-parameter when somebody is named whom the logbook does not know
 */
export function plannerOf(
  { desk }: Room,
  context: Request,
  { folded: { stand }, names }: Look,
  by: string | undefined,
): string | undefined {
  const { device } = context.get('caller');
  const person = device === undefined ? desk.person : stand.devices.get(device)?.person;
  const who = whoDidIt(person === undefined ? {} : { person }, by, stand, names);
  if (who.ok) return who.value;
  if (by === undefined) return undefined;
  throw badParameter({ field: 'by', value: by, remedy: who.problem.remedy });
}
