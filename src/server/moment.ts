// ?at=, ?known-at= and ?group=: which moment, with which knowledge, and of which group.
import { z } from '@hono/zod-openapi';
import { readTime } from '../events/index.ts';
import { findThing, type Moment } from '../record/index.ts';
import { instantOf } from '../stand/index.ts';
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

/** Parameters that are misspelt are refused: an answer about another moment than was asked for misleads. */
export const momentQuery = z.strictObject({ at: at.optional(), 'known-at': knownAt.optional() });
export const standQuery = momentQuery.extend({ group: group.optional() });
export type MomentQuery = z.infer<typeof momentQuery>;

/**
 * Reads the parameters against the logbook.
 * @throws Problem bad-parameter
 */
export async function readMoment({ reading, desk, now }: Room, query: MomentQuery): Promise<Moment> {
  const { at: atText, 'known-at': knownText } = query;
  if (atText === undefined && knownText === undefined) return {};
  const { zone, size } = await reading.look({}, ({ folded, head }) => ({
    zone: folded.stand.logbook?.body.zone ?? 'UTC',
    size: head.size,
  }));
  const read = (field: string, text: string) => instantIn(field, text, zone, new Date(now()).toISOString());
  return {
    ...(atText === undefined ? {} : { until: read('at', atText) }),
    ...(knownText === undefined ? {} : { size: await sizeOf(knownText) }),
  };

  async function sizeOf(text: string): Promise<number> {
    if (!/^\d+$/.test(text)) {
      const time = new Date(read('known-at', text)).toISOString();
      return Math.min(size, await desk.log.sizeReceivedBy(time));
    }
    if (Number(text) <= size) return Number(text);
    const remedy = `the logbook has ${size} entries; give a number up to that, or a time`;
    throw badParameter({ field: 'known-at', value: text, remedy });
  }
}

function instantIn(field: string, text: string, zone: string, now: string): number {
  // In a query an unescaped + is a space; before an offset it can have been nothing else.
  const written = text.replace(/(:\d{2}(?:\.\d+)?) (\d{2}:\d{2})$/, '$1+$2');
  const read = readTime(written, zone, now);
  if (read.ok) return instantOf(read.value);
  const choices = read.choices?.map(({ value }) => value.at).join(' or ');
  const remedy = choices === undefined ? read.remedy : `${read.remedy}; write ${choices}`;
  throw badParameter({ field, value: text, remedy });
}

/**
 * The id of the group that was asked for.
 * @throws Problem bad-parameter when the stand at that moment has no such group
 */
export function readGroup(text: string | undefined, { folded, names }: Look): string | undefined {
  if (text === undefined) return undefined;
  const found = findThing(folded.stand, 'group', text, names);
  if (!found.ok) throw badParameter({ field: 'group', value: text, remedy: found.remedy });
  if (folded.stand.groups.has(found.value)) return found.value;
  throw badParameter({ field: 'group', value: text, remedy: 'no group of this logbook has that id' });
}
