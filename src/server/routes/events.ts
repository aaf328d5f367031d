// GET /api/events and /api/head: the log itself, entry by entry, as it was written.
import { createRoute, z } from '@hono/zod-openapi';
import { headText, portableSha256, readEnvelope, toHex } from '../../log/entry/index.ts';
import type { Stored } from '../../log/store/index.ts';
import { json, text, unchanged, wanted } from '../answers.ts';
import type { App, Room } from '../environment.ts';
import { hash, head, problemAnswers } from '../schemas/common.ts';
import { pageOfLog } from '../schemas/query.ts';
import { entrySchema } from '../schemas/stored.ts';
import { addRoute } from './add.ts';

const mostEntries = 1000;

const item = z.strictObject({
  position: z.int().min(0),
  receivedAt: z.string(),
  id: z.uuid(),
  hash: hash.openapi({ description: 'SHA-256 of the bytes of the entry.' }),
  signed: z.boolean(),
  entry: z.record(z.string(), z.unknown()).openapi({ type: 'object', ...entrySchema }),
});
const page = z
  .strictObject({
    size: z.int().min(0).openapi({ description: 'How many entries the log has.' }),
    entries: z.array(item),
    next: z.string().nullable().openapi({ description: 'Address of the next page; null on the last.' }),
  })
  .openapi('Entries');

const events = createRoute({
  method: 'get',
  path: '/api/events',
  summary: 'Read entries in the order of the log',
  description:
    'As application/x-ndjson each line is the exact bytes of one entry. As JSON each entry comes with its receipt and hash. The address of the next page is in the Link header and, in JSON, in "next".',
  request: { query: pageOfLog(mostEntries) },
  responses: {
    200: {
      description: 'A page of entries.',
      content: {
        'application/json': { schema: page },
        'application/x-ndjson': { schema: z.string() },
      },
    },
    304: { description: 'Nothing was appended since.' },
    ...problemAnswers('bad-parameter', 'not-acceptable'),
  },
});

const headRoute = createRoute({
  method: 'get',
  path: '/api/head',
  summary: 'The tree head',
  description:
    'Size and root of the log. Kept elsewhere, it proves later that nothing before it was changed.',
  request: { query: z.strictObject({}) },
  responses: {
    200: { description: 'The head.', content: { 'application/json': { schema: head } } },
    304: { description: 'Nothing was appended since.' },
    ...problemAnswers('bad-parameter', 'not-acceptable'),
  },
});

export function addEvents(app: App, { desk, program }: Room): void {
  addRoute(app, events, async (context) => {
    const mediaType = wanted(context, ['application/json', 'application/x-ndjson']);
    const { from = 0, limit = 100 } = context.req.valid('query');
    const now = await desk.log.head();
    const same = unchanged(context, now, `${mediaType} ${program}`);
    if (same) return same;
    const to = Math.min(now.size, from + limit);
    const stored: Stored[] = [];
    if (from < to) for await (const some of desk.log.read({ from, to })) stored.push(...some);
    const next = to < now.size && from < to ? `/api/events?from=${to}&limit=${limit}` : null;
    if (next !== null) context.header('Link', `<${next}>; rel="next"`);
    return mediaType === 'application/json'
      ? json(context, { size: now.size, entries: stored.map(itemOf), next })
      : text(context, mediaType, joined(stored));
  });
  addRoute(app, headRoute, async (context) => {
    wanted(context, ['application/json']);
    const now = await desk.log.head();
    return unchanged(context, now, program) ?? json(context, { ...now, text: headText(now) });
  });
}

function itemOf({ position, receivedAt, id, bytes, signature }: Stored) {
  return {
    position,
    receivedAt,
    id,
    hash: toHex(portableSha256(bytes)),
    signed: signature !== undefined,
    entry: readEnvelope(bytes),
  };
}

/** The bytes of the entries, each with a newline after it. */
function joined(stored: readonly Stored[]): Uint8Array<ArrayBuffer> {
  const all = new Uint8Array(stored.reduce((sum, { bytes }) => sum + bytes.length + 1, 0));
  let at = 0;
  for (const { bytes } of stored) {
    all.set(bytes, at);
    at += bytes.length + 1;
    all[at - 1] = 0x0a;
  }
  return all;
}
