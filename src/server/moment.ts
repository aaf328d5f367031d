// ?at=, ?known-at=, ?group= and ?block=: which moment, with which knowledge, and of which group or block.
import { z } from '@hono/zod-openapi';
import { type Moment, readMoment as readTyped } from '../record/index.ts';
import { findThing } from '../stand/index.ts';
import type { Room } from './environment.ts';
import { badParameter } from './problems.ts';
import type { Look } from './reading.ts';

const at = z.string().openapi({
  description:
    'Only what had happened by then. RFC 3339 with offset, or as written in the zone of the logbook: 2026-03-14 09:30, 2026-03-14 (to its end), 09:30, today, yesterday. A + in an offset is written %2B.',
  example: '2026-03-14 09:30',
});
const knownAt = z.string().openapi({
  description: 'Only what the logbook held then: a number of entries, or a time written like "at".',
  example: '120',
});
const group = z.string().openapi({
  description: 'Only this group: its label, its id, or the last six characters of its id.',
  example: 'G1',
});
const block = z.string().openapi({
  description: 'Only this block: its name, its id, or the last six characters of its id.',
  example: 'North cove',
});

/** Parameters that are misspelt are refused: an answer about another moment than was asked for misleads. */
export const momentQuery = z.strictObject({ at: at.optional(), 'known-at': knownAt.optional() });
export const standQuery = momentQuery.extend({ group: group.optional() });
export const blockQuery = momentQuery.extend({ block: block.optional() });
export type MomentQuery = z.infer<typeof momentQuery>;

/**
 * Reads the parameters against the logbook.
 * @throws Problem bad-parameter
 */
export async function readMoment({ reading, desk, now }: Room, query: MomentQuery): Promise<Moment> {
  const { at: atText, 'known-at': knownText } = query;
  if (atText === undefined && knownText === undefined) return {};
  const zone = await reading.look({}, ({ folded }) => folded.stand.logbook?.body.zone ?? 'UTC');
  const typed = { at: withPlus(atText), knownAt: withPlus(knownText) };
  const read = await readTyped(desk.log, zone, typed, new Date(now()).toISOString());
  if (read.ok) return read.moment;
  const { field, value, remedy } = read;
  throw badParameter({ field, value, remedy });
}

/** In a query an unescaped + is a space; before an offset it can have been nothing else. */
function withPlus(text: string | undefined): string | undefined {
  return text?.replace(/(:\d{2}(?:\.\d+)?) (\d{2}:\d{2})$/, '$1+$2');
}

/**
 * The id of the group or block that was asked for.
 * @throws Problem bad-parameter when the stand at that moment has no such thing
 */
export function readThing(
  noun: 'group' | 'block',
  text: string | undefined,
  { folded: { stand }, names }: Look,
): string | undefined {
  if (text === undefined) return undefined;
  const found = findThing(stand, noun, text, names);
  if (!found.ok) throw badParameter({ field: noun, value: text, remedy: found.remedy });
  if ((noun === 'group' ? stand.groups : stand.blocks).has(found.value)) return found.value;
  throw badParameter({ field: noun, value: text, remedy: `no ${noun} of this logbook has that id` });
}
