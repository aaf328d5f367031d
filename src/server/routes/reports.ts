// GET /reports/harvest: the harvest report, to read and print or as data.
import { createRoute, z } from '@hono/zod-openapi';
import type { z as zod } from 'zod';
import { readMethod } from '../../record/index.ts';
import { harvestReport, renderHtml } from '../../reports/index.ts';
import type { StandingMethod } from '../../stand/index.ts';
import { json, text, unchanged, wanted } from '../answers.ts';
import type { App, Room } from '../environment.ts';
import { policyFor } from '../headers.ts';
import { readMoment, readThing, standQuery } from '../moment.ts';
import { badParameter } from '../problems.ts';
import { type Look, numbersOf } from '../reading.ts';
import type { Request } from '../request.ts';
import { hash, problemAnswers } from '../schemas/common.ts';
import { addRoute } from './add.ts';

const report = z
  .looseObject({
    report: z.literal('harvest'),
    format: z.literal(1),
    title: z.string(),
    madeAt: z.string(),
    program: z.string(),
    evidence: z.looseObject({ size: z.int().min(0), root: hash }),
    blocks: z.array(z.looseObject({ id: z.uuid(), name: z.string() })),
    groups: z.array(z.looseObject({ label: z.string() })),
  })
  .openapi('HarvestReport');

const asHtml = { 'text/html': { schema: z.string() } };
const asJson = { 'application/json': { schema: report } };
const reportQuery = standQuery.extend({
  rule: z
    .string()
    .optional()
    .openapi({ description: 'Prints the standing volume by this rule; see /api/figures/volume.' }),
  'form-class': z
    .string()
    .optional()
    .openapi({ description: 'With a rule for board feet: form class in percent.' }),
  form: z
    .string()
    .optional()
    .openapi({ description: 'With rule cubic-feet or cubic-metres: form factor or shape.' }),
  equation: z
    .string()
    .optional()
    .openapi({ description: 'With rule cubic-feet or cubic-metres, in place of a form: honer.' }),
});
type Query = zod.infer<typeof reportQuery>;

function route(ending: string, content: object) {
  return createRoute({
    method: 'get',
    path: `/reports/harvest${ending}`,
    summary: 'Harvest report',
    description:
      'What was marked, felled, left and found, group by group, with the tree head on every printed page.',
    request: { query: reportQuery },
    responses: {
      200: { description: 'The report.', content },
      304: { description: 'Nothing was appended since.' },
      ...problemAnswers('bad-parameter', 'not-acceptable'),
    },
  });
}

export function addReports(app: App, room: Room): void {
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
  return room.reading.look(moment, async (look) => {
    const group = readThing('group', query.group, look);
    const same = unchanged(context, look.head, `${mediaType} ${room.program} ${look.names.size}`);
    if (same) return same;
    const made = reportOf(look, room, query, group);
    if (mediaType === 'application/json') return json(context, made);
    const page = await renderHtml(made);
    context.header('Content-Security-Policy', policyFor(page));
    return text(context, 'text/html; charset=utf-8', page);
  });
}

/** The report on what is seen, made now. */
export function reportOf(look: Look, { program, now }: Room, query: Query, group?: string) {
  const { folded, head, names } = look;
  const { at, 'known-at': knownAt } = query;
  return harvestReport(folded, {
    head,
    madeAt: new Date(now()).toISOString(),
    program,
    names,
    positions: numbersOf(look),
    ...(at === undefined ? {} : { at }),
    ...(knownAt === undefined ? {} : { knownAt }),
    ...(group === undefined ? {} : { group }),
    ...volumeWanted(query),
  });
}

/** @throws Problem bad-parameter for a volume that is asked for wrongly */
function volumeWanted(query: Query): { volume?: StandingMethod } {
  const { rule, form, equation, 'form-class': formClass } = query;
  if ((rule ?? form ?? equation ?? formClass) === undefined) return {};
  const read = readMethod({ rule, formClass, form, equation });
  if (read.ok) return { volume: read.value };
  const { field, value, remedy } = read;
  throw badParameter({ field: field === 'formClass' ? 'form-class' : field, value, remedy });
}
