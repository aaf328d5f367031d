// GET /reports/emergency-card: where help is met, whom to call and what is dangerous, to print or as data. It tells which
// call is overdue at the moment of asking, so it is made anew each time and kept by no cache.
import { createRoute, z } from '@hono/zod-openapi';
import { emergencyCard, renderEmergencyCard } from '../../reports/index.ts';
import { json, text, wanted } from '../answers.ts';
import type { App, Room } from '../environment.ts';
import { policyFor } from '../headers.ts';
import { blockQuery, readMoment, readThing } from '../moment.ts';
import { numbersOf } from '../reading.ts';
import type { Request } from '../request.ts';
import { hash, problemAnswers } from '../schemas/common.ts';
import { addRoute } from './add.ts';

const fact = z.looseObject({ text: z.string(), known: z.boolean() });
const card = z
  .looseObject({
    report: z.literal('emergency-card'),
    format: z.literal(1),
    title: z.string(),
    madeAt: z.string(),
    evidence: z.looseObject({ size: z.int().min(0), root: hash }),
    callFirst: fact,
    place: z.looseObject({
      decimalDegrees: fact,
      degreesMinutes: fact,
      utm: fact,
      datum: fact,
      entered: fact,
    }),
    wayIn: fact,
    signal: fact,
    nearestHelp: fact,
    contacts: fact,
    call: z.looseObject({ state: z.enum(['overdue', 'expected', 'none']), facts: z.array(fact) }),
    dangers: z.array(fact),
  })
  .openapi('EmergencyCard');

const asHtml = { 'text/html': { schema: z.string() } };
const asJson = { 'application/json': { schema: card } };
type Query = z.infer<typeof blockQuery>;

function route(ending: string, content: object) {
  return createRoute({
    method: 'get',
    path: `/reports/emergency-card${ending}`,
    summary: 'Emergency card',
    description:
      'Where help is met, in two notations of coordinates and UTM, the way in, whom to call, what is dangerous now, and whether a call is overdue. One page of paper.',
    request: { query: blockQuery },
    responses: {
      200: { description: 'The card, as it is at the moment of asking.', content },
      ...problemAnswers('bad-parameter', 'not-acceptable'),
    },
  });
}

export function addEmergencyCard(app: App, room: Room): void {
  addRoute(app, route('', { ...asHtml, ...asJson }), (context) => {
    const mediaType = wanted(context, ['text/html', 'application/json']);
    return answer(context, room, context.req.valid('query'), mediaType);
  });
  addRoute(app, route('.html', asHtml), (context) => {
    wanted(context, ['text/html']);
    return answer(context, room, context.req.valid('query'), 'text/html');
  });
  addRoute(app, route('.json', asJson), (context) => {
    wanted(context, ['application/json']);
    return answer(context, room, context.req.valid('query'), 'application/json');
  });
}

async function answer(
  context: Request,
  room: Room,
  query: Query,
  mediaType: 'text/html' | 'application/json',
): Promise<Response> {
  const moment = await readMoment(room, query);
  return room.reading.look(moment, (look) => {
    const { at, 'known-at': knownAt } = query;
    const block = readThing('block', query.block, look);
    const made = emergencyCard(look.folded, {
      head: look.head,
      madeAt: new Date(room.now()).toISOString(),
      program: room.program,
      names: look.names,
      positions: numbersOf(look),
      ...(moment.until === undefined ? {} : { until: moment.until }),
      ...(at === undefined ? {} : { at }),
      ...(knownAt === undefined ? {} : { knownAt }),
      ...(block === undefined ? {} : { block }),
    });
    context.header('Cache-Control', 'no-store');
    context.header('Vary', 'Accept');
    if (mediaType === 'application/json') return json(context, made);
    const page = renderEmergencyCard(made);
    context.header('Content-Security-Policy', policyFor(page));
    return text(context, 'text/html; charset=utf-8', page);
  });
}
