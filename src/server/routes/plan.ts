// GET /api/groups/{group}/plan: in which order and direction to fell a group, computed from what is recorded.
import { createRoute, z } from '@hono/zod-openapi';
import { cautions, comparePlan, FellingError, planAsked, planJson } from '../../felling/index.ts';
import { json, unchanged, wanted } from '../answers.ts';
import type { App, Room } from '../environment.ts';
import { momentQuery, readMoment, readThing } from '../moment.ts';
import { badParameter, Problem } from '../problems.ts';
import { problemAnswers } from '../schemas/common.ts';
import { addRoute } from './add.ts';

const typed = (description: string, example: string) =>
  z.string().optional().openapi({ description, example });
const atHand = (description: string) => z.enum(['yes', 'no']).optional().openapi({ description });

const query = momentQuery.extend({
  fix: typed('Aims that are settled.', 'A12=95 true'),
  place: typed('Places in the order that are settled.', 'A12=1'),
  before: typed('What has to be down first.', 'A12=A14'),
  last: typed('Stems to fell after all others.', 'A9'),
  slope: typed('How steep the ground is; with downhill.', '20 %'),
  downhill: typed('Which way is straight down.', '210 mag'),
  wind: typed('Mean wind in m/s; calm if left out.', '3'),
  wedges: atHand('Whether wedges are at hand.'),
  winch: atHand('Whether a winch is at hand, and somebody trained in it.'),
  people: typed('Where people work or stay, with ; between them.', 'landing at 135 mag, 400 ft from stake A'),
  notch: typed('Open face, conventional or humboldt; open face if left out.', 'humboldt'),
  assume: typed('Assumptions of the model that are not the usual ones.', 'directionError=8'),
});

const plan = z
  .looseObject({
    cautions: z.array(z.string()),
    adopted: z
      .looseObject({ ended: z.array(z.string()) })
      .nullable()
      .openapi({ description: 'The plan adopted last, and why it no longer holds.' }),
    plan: z.string().openapi({ description: 'What the plan is known by: a SHA-256.' }),
    version: z.string(),
    aside: z.array(z.looseObject({ stem: z.string(), label: z.string(), because: z.string() })),
    falls: z.array(
      z.looseObject({ stem: z.string(), label: z.string(), hangUp: z.number(), loss: z.number() }),
    ),
  })
  .openapi('FellingPlan', {
    description:
      'Lengths in metres, azimuths in degrees from true north. It computes consequences of what was entered and never says that a fall is without danger.',
  });

const route = createRoute({
  method: 'get',
  path: '/api/groups/{group}/plan',
  summary: 'A felling plan for a group',
  description:
    'Stems that no aim was found acceptable for come first, then the order of felling, each fall with its aim, what it puts at risk, and the ways out. Show the cautions with it.',
  request: { params: z.object({ group: z.string().openapi({ example: 'G1' }) }), query },
  responses: {
    200: { description: 'The plan.', content: { 'application/json': { schema: plan } } },
    304: { description: 'Nothing was appended since.' },
    ...problemAnswers('bad-parameter', 'not-acceptable'),
  },
});

export function addPlan(app: App, room: Room): void {
  addRoute(app, route, async (context) => {
    wanted(context, ['application/json']);
    const { group: name } = context.req.valid('param');
    const { at, 'known-at': knownAt, wedges, winch, ...asked } = context.req.valid('query');
    const moment = await readMoment(room, { at, 'known-at': knownAt });
    return room.reading.look(moment, (look) => {
      const { folded, head } = look;
      const group = folded.stand.groups.get(readThing('group', name, look) ?? '');
      if (group === undefined)
        throw badParameter({ field: 'group', value: name, remedy: 'there is no such group' });
      try {
        const when = new Date(room.now()).toISOString();
        const made = planAsked(
          folded.stand,
          group,
          { ...asked, wedges: wedges === 'yes', winch: winch === 'yes' },
          when,
        );
        const said = {
          cautions: [cautions.lead, ...cautions.points.map(({ text }) => text), cautions.end],
          adopted: comparePlan(folded, group.id) ?? null,
          ...planJson(made, folded),
        };
        return unchanged(context, head, room.program) ?? json(context, said);
      } catch (error) {
        if (!(error instanceof FellingError)) throw error;
        const { field, value, remedy, message } = error;
        throw new Problem('bad-parameter', message, { problems: [{ field, value, remedy }] });
      }
    });
  });
}
