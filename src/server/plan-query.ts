// What a felling plan is asked with over HTTP: which group, what is settled, what is at hand.
import { z } from '@hono/zod-openapi';
import { FellingError, type PlanTyped } from '../felling/index.ts';
import type { MapReaders } from '../reports/index.ts';
import type { Group, Stand } from '../stand/index.ts';
import { momentQuery, readThing } from './moment.ts';
import { badParameter, Problem } from './problems.ts';
import type { Look } from './reading.ts';

const typed = (description: string, example: string) =>
  z.string().optional().openapi({ description, example });
const atHand = (description: string) => z.enum(['yes', 'no']).optional().openapi({ description });

export const groupParam = z.object({ group: z.string().openapi({ example: 'G1' }) });

export const planQuery = momentQuery.extend({
  fix: typed('Aims that are settled.', 'A12=95 true'),
  place: typed('Places in the order that are settled.', 'A12=1'),
  before: typed('What has to be down first.', 'A12=A14'),
  last: typed('Stems to fell after all others.', 'A9'),
  slope: typed('How steep the ground is; with downhill.', '20 %'),
  downhill: typed('Which way is straight down.', '210 mag'),
  wind: typed('Mean wind; m/s without a unit; as noted last that day if left out, else calm.', '8 mph'),
  wedges: atHand('Whether wedges are at hand.'),
  winch: atHand('Whether a winch is at hand, and somebody trained in it.'),
  people: typed('Where people work or stay, with ; between them.', 'landing at 135 mag, 400 ft from stake A'),
  notch: typed('Open face, conventional or humboldt; open face if left out.', 'humboldt'),
  'measure-next': atHand('Whether to work out what to measure first; that takes longer than the plan.'),
  assume: typed('Assumptions of the model that are not the usual ones.', 'directionError=8'),
  by: typed(
    'Who plans and fells by it, with the numbers that were recorded for them; who asks if left out.',
    'Dell Pruitt',
  ),
});

/** What is asked as the plan takes it, the moment, and by whom: planner.ts tells whose recorded numbers that makes. */
export function readPlanQuery({
  at,
  'known-at': knownAt,
  wedges,
  winch,
  by,
  'measure-next': measureNext,
  ...asked
}: z.infer<typeof planQuery>) {
  const typed: PlanTyped = {
    ...asked,
    wedges: wedges === 'yes',
    winch: winch === 'yes',
    measureNext: measureNext === 'yes',
  };
  return { moment: { at, 'known-at': knownAt }, typed, by };
}

/** @throws Problem bad-parameter */
export function groupNamed(name: string, look: Look): Group {
  const group = look.folded.stand.groups.get(readThing('group', name, look) ?? '');
  if (group !== undefined) return group;
  throw badParameter({ field: 'group', value: name, remedy: 'there is no such group' });
}

/** What was wrong with what was asked, as a problem; anything else as it is. */
export function problemOfPlan(error: unknown): unknown {
  return error instanceof FellingError ? refused(error) : error;
}

function refused({ field, value, remedy, message }: FellingError): Problem {
  return new Problem('bad-parameter', message, { problems: [{ field, value, remedy }] });
}

/** In which units people here read lengths. */
export function systemOf({ logbook }: Stand): 'inch' | 'metric' {
  return logbook?.body.units === 'metric' ? 'metric' : 'inch';
}

/** How a map is read here. */
export function readersOf(stand: Stand): MapReaders {
  return { system: systemOf(stand), zone: stand.logbook?.body.zone ?? 'UTC' };
}
