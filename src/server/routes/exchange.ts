// /api/exchange: a phone sends what it saved and is told what became of each line; and it reads what is in the log.
import { createRoute } from '@hono/zod-openapi';
import { type ExchangeJson, exchangeJson, headText } from '../../log/entry/index.ts';
import type { Incoming } from '../../log/store/index.ts';
import { devicesIn, exchangeIncoming, exchangeLines, receive } from '../../record/index.ts';
import { json, text, unchanged, wanted } from '../answers.ts';
import type { App, Room } from '../environment.ts';
import { readJsonBody } from '../json-body.ts';
import { Problem } from '../problems.ts';
import type { Caller } from '../request.ts';
import { problemAnswers } from '../schemas/common.ts';
import { exchanged, exchangeLine, exchangePage, exchangeWanted, mostLines } from '../schemas/exchange.ts';
import { pageOfLog } from '../schemas/query.ts';
import { addRoute } from './add.ts';

const send = createRoute({
  method: 'post',
  path: '/api/exchange',
  summary: 'Send entries of a device',
  description: `Takes in up to ${mostLines} exchange lines of the device that asks, each as it was written; sending one again changes nothing. What cannot be read, has the id of another entry, or lacks the signature of a device that has a key is kept aside and named in its receipt. A device that may only record sends its own entries and neither pairs nor revokes devices.`,
  request: {
    // Read by hand, so that what is wrong with it gets the same problems as everything else that is sent.
    body: {
      required: true,
      content: { 'application/json': { schema: { $ref: '#/components/schemas/ExchangeWanted' } } },
    },
  },
  responses: {
    200: { description: 'What became of each line.', content: { 'application/json': { schema: exchanged } } },
    ...problemAnswers(
      'malformed-body',
      'cross-site',
      'foreign-device',
      'read-only',
      'too-large',
      'unsupported-media-type',
      'disk-error',
      'disk-full',
    ),
  },
});

const read = createRoute({
  method: 'get',
  path: '/api/exchange',
  summary: 'Read entries as exchange lines',
  description:
    'Entries in the order of the log with their receipts and signatures, and the names and contacts that they name; photos are asked for one by one. As application/x-ndjson each line is one exchange line, and the address of the next page is in the Link header.',
  request: { query: pageOfLog(mostLines) },
  responses: {
    200: {
      description: 'A page of entries.',
      content: {
        'application/json': { schema: exchangePage },
        'application/x-ndjson': { schema: { type: 'string' } },
      },
    },
    304: { description: 'Nothing was appended since.' },
    ...problemAnswers('bad-parameter', 'not-acceptable'),
  },
});

export function addExchange(app: App, room: Room): void {
  const { desk, program, now } = room;
  app.openAPIRegistry.register('ExchangeWanted', exchangeWanted);
  app.openAPIRegistry.register('ExchangeLine', exchangeLine);

  addRoute(app, send, async (context) => {
    const { device, lines } = await readJsonBody(context.req, exchangeWanted, 'exchange');
    const batch = lines.map(exchangeIncoming);
    const caller = context.get('caller');
    mustBeOwn(caller, device, batch);
    const { receipts, recorded } = await room.inTurn(() =>
      receive(desk.log, batch, new Date(now()).toISOString(), { unattended: caller.role !== 'keeper' }),
    );
    if (recorded > 0) await room.recorded();
    const head = await desk.log.head();
    context.header('Cache-Control', 'no-store');
    return json(context, {
      receipts: receipts.map((receipt, index) => ({ line: index + 1, ...receipt })),
      serverTime: new Date(now()).toISOString(),
      head: { ...head, text: headText(head) },
      logbook: desk.log.facts().logbook,
      lastSeq: await desk.log.lastSeq(device),
      program,
    });
  });

  addRoute(app, read, async (context) => {
    const mediaType = wanted(context, ['application/json', 'application/x-ndjson']);
    const { from = 0, limit = 100 } = context.req.valid('query');
    const head = await desk.log.head();
    const same = unchanged(context, head, `${mediaType} ${program}`);
    if (same) return same;
    const to = Math.min(head.size, from + limit);
    const lines: ExchangeJson[] = [];
    if (from < to)
      for await (const page of exchangeLines(desk.log, { from, to })) lines.push(...page.map(exchangeJson));
    const next = from < to && to < head.size ? to : null;
    if (next !== null) context.header('Link', `</api/exchange?from=${next}&limit=${limit}>; rel="next"`);
    return mediaType === 'application/json'
      ? json(context, { size: head.size, head: { ...head, text: headText(head) }, lines, next })
      : text(context, mediaType, lines.map((line) => `${JSON.stringify(line)}\n`).join(''));
  });
}

/** Who may only record speaks for no other device: a file of that one goes in at the desk, where somebody looks on. */
function mustBeOwn({ role, device: own }: Caller, device: string, batch: readonly Incoming[]): void {
  if (role === 'keeper' || own === undefined) return;
  const other = [device, ...devicesIn(batch)].find((one) => one !== own);
  if (other === undefined) return;
  throw new Problem(
    'foreign-device',
    `This device may send its own entries only, and not those of device ${other}. Save those as a file and take it in at the desk: "gapledger record --from FILE". Nothing was recorded.`,
    { device: other },
  );
}
