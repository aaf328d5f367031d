// How good answers are sent: which media type is wanted, what a cache may keep, JSON and other text.
import { parseAccept } from 'hono/utils/accept';
import type { TreeHead } from '../log/entry/index.ts';
import { Problem } from './problems.ts';
import type { Request } from './request.ts';

/**
 * The offered media type that the request wants most (RFC 9110 section 12.5.1); the first without a wish.
 * @throws Problem not-acceptable
 */
export function wanted<const T extends string>({ req }: Request, offered: readonly [T, ...T[]]): T {
  const header = req.header('accept');
  if (header === undefined || header.trim() === '') return offered[0];
  const ranges = parseAccept(header).map(({ type, q }) => ({ type: type.toLowerCase(), q }));
  const weight = (offer: string): number => {
    const exact = ranges.find(({ type }) => type === offer);
    const family = ranges.find(({ type }) => type === `${offer.split('/')[0]}/*`);
    return (exact ?? family ?? ranges.find(({ type }) => type === '*/*'))?.q ?? 0;
  };
  const best = Math.max(...offered.map(weight));
  const choice = offered.find((offer) => weight(offer) === best);
  if (choice !== undefined && best > 0) return choice;
  throw new Problem('not-acceptable', `This is offered as ${offered.join(' or ')}; ask for that in Accept.`, {
    offered,
  });
}

/** An answer in some text format. */
export function text(
  context: Request,
  mediaType: string,
  body: string | Uint8Array<ArrayBuffer>,
  status: 200 | 201 = 200,
): Response {
  context.header('Content-Type', mediaType);
  return context.body(body, status);
}

export function json(context: Request, body: unknown, status: 200 | 201 = 200): Response {
  return text(context, 'application/json', JSON.stringify(body), status);
}

/** Times without a date mean another moment tomorrow, so what they gave must not be taken for the same. */
const dated = /^(?:\d{4}-\d{2}-\d{2}.*|\d+)$/;

/**
 * Marks an answer with the head of the log that it was made from (RFC 9110 section 8.8.3): the same address at
 * the same head is answered with the same thing. Gives the answer 304 when the asker has that already.
 * @param variant what else the answer depends on: media type, version of the program
 */
export function unchanged(context: Request, head: TreeHead, variant: string): Response | undefined {
  context.header('Cache-Control', 'private, no-cache');
  context.header('Vary', 'Accept');
  const moments = ['at', 'known-at', 'since'].map((name) => context.req.query(name));
  if (moments.some((moment) => moment !== undefined && !dated.test(moment))) return undefined;
  const tag = `W/"${head.size}-${head.root.slice(0, 32)}-${variant.replaceAll(/[^\w.+-]/g, '-')}"`;
  context.header('ETag', tag);
  const known =
    context.req
      .header('if-none-match')
      ?.split(',')
      .map((part) => part.trim()) ?? [];
  return known.includes('*') || known.includes(tag) ? context.body(null, 304) : undefined;
}
