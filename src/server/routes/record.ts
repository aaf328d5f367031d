// POST /api/events: the one address that writes. Entries come as bytes from a device, drafts as typed text.
import { createRoute, z } from '@hono/zod-openapi';
import { headText } from '../../log/entry/index.ts';
import { outboxLines, receive } from '../../record/index.ts';
import { json } from '../answers.ts';
import type { App, Room } from '../environment.ts';
import { Problem } from '../problems.ts';
import type { Request } from '../request.ts';
import { head, lineReceipt, problemAnswers, receipts } from '../schemas/common.ts';
import { draftSchema } from '../schemas/stored.ts';
import { addRoute } from './add.ts';
import { mostDrafts, readDrafts, recordDrafts } from './record-drafts.ts';

/** A body holds at most this many bytes. */
export const largestBody = 8 * 1024 * 1024;
const taken = ['application/x-ndjson', 'application/json'] as const;

const received = z.strictObject({ receipts: z.array(lineReceipt), head }).openapi('Received');
const drafted = z.strictObject({ receipts, head }).openapi('Recorded');

const record = createRoute({
  method: 'post',
  path: '/api/events',
  summary: 'Record entries',
  description: `Entries of a device go in as application/x-ndjson: each line is the canonical bytes of one entry and is kept as it is, whatever it contradicts; what cannot be read, or has the id of another entry, is kept aside and named in its receipt. Sending a line again changes nothing. Empty lines are passed over. Drafts go in as application/json, one or a list of up to ${mostDrafts} that is recorded together or not at all: they are read as typed text, and may come back with problems (422) or questions (409). A body holds at most ${largestBody} bytes.`,
  request: {
    body: {
      required: true,
      content: {
        'application/x-ndjson': {
          schema: { type: 'string', description: 'One entry a line (see Entry.*).' },
        },
        'application/json': {
          schema: {
            anyOf: [draftSchema, { type: 'array', minItems: 1, maxItems: mostDrafts, items: draftSchema }],
          },
        },
      },
    },
  },
  responses: {
    200: { description: 'What became of each line.', content: { 'application/json': { schema: received } } },
    201: { description: 'The drafts are recorded.', content: { 'application/json': { schema: drafted } } },
    ...problemAnswers(
      'malformed-body',
      'cross-site',
      'read-only',
      'questions',
      'too-large',
      'unsupported-media-type',
      'bad-draft',
      'disk-error',
      'disk-full',
    ),
  },
});

export function addRecord(app: App, room: Room): void {
  addRoute(app, record, async (context) => {
    const mediaType = mediaTypeOf(context);
    const body = new Uint8Array(await context.req.arrayBuffer());
    return mediaType === 'application/json'
      ? takeDrafts(context, room, body)
      : takeLines(context, room, body);
  });
}

function mediaTypeOf({ req }: Request): (typeof taken)[number] {
  const [essence, ...parameters] = (req.header('content-type') ?? '').toLowerCase().split(';');
  const mediaType = taken.find((one) => one === essence?.trim());
  const encoded = req.header('content-encoding');
  const charsets = parameters.filter((part) => /^\s*charset=/.test(part) && !/=\s*"?utf-8"?\s*$/.test(part));
  if (mediaType !== undefined && encoded === undefined && charsets.length === 0) return mediaType;
  throw new Problem(
    'unsupported-media-type',
    'Send entries as application/x-ndjson or drafts as application/json, in UTF-8 and not compressed.',
    {},
    { 'Accept-Post': taken.join(', ') },
  );
}

async function takeLines(context: Request, room: Room, body: Uint8Array): Promise<Response> {
  const { desk, inTurn, now } = room;
  const lines = outboxLines(body);
  const batch = lines.map(({ incoming }) => incoming);
  const { receipts: given, recorded } = await inTurn(() =>
    receive(desk.log, batch, new Date(now()).toISOString()),
  );
  if (recorded > 0) await room.recorded();
  const numbered = given.map((receipt, index) => ({ line: lines[index]?.number ?? index + 1, ...receipt }));
  return json(context, { receipts: numbered, head: await headOf(room) });
}

async function takeDrafts(context: Request, room: Room, body: Uint8Array): Promise<Response> {
  const { drafts, isList } = readDrafts(body);
  const given = await room.inTurn(() => recordDrafts(room, drafts, isList));
  await room.recorded();
  return json(context, { receipts: given, head: await headOf(room) }, 201);
}

async function headOf({ desk }: Room) {
  const now = await desk.log.head();
  return { ...now, text: headText(now) };
}
