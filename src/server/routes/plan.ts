// GET /api/groups/{group}/plan: in which order and direction to fell a group, computed from what is recorded.
import { createRoute, z } from '@hono/zod-openapi';
import { cautions, comparePlan, planJson } from '../../felling/index.ts';
import { planComparedJson } from '../../reports/index.ts';
import { json, unchanged, wanted } from '../answers.ts';
import type { App, Room } from '../environment.ts';
import { readMoment } from '../moment.ts';
import { groupNamed, groupParam, planQuery, problemOfPlan, readPlanQuery } from '../plan-query.ts';
import { plannerOf } from '../planner.ts';
import { problemAnswers } from '../schemas/common.ts';
import { addRoute } from './add.ts';

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
    after: z
      .looseObject({
        crossings: z.looseObject({ expected: z.number() }),
        rolling: z.array(z.looseObject({ stem: z.string(), label: z.string(), chance: z.number() })),
        once: z.looseObject({ added: z.number(), once: z.number(), ratio: z.number() }),
      })
      .openapi({
        description:
          'Once they are down: what comes to lie across what, where a bole may break, what can roll and what is below it, the loss if nothing is lost twice.',
      }),
    measureFirst: z
      .looseObject({ lookedAt: z.number(), plannedAnew: z.number() })
      .optional()
      .openapi({ description: 'With measure-next: the measurement that would change the plan most, first.' }),
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
  request: { params: groupParam, query: planQuery },
  responses: {
    200: { description: 'The plan.', content: { 'application/json': { schema: plan } } },
    304: { description: 'Nothing was appended since.' },
    ...problemAnswers('bad-parameter', 'not-acceptable'),
  },
});

export function addPlan(app: App, room: Room): void {
  addRoute(app, route, async (context) => {
    wanted(context, ['application/json']);
    const { moment: typedMoment, typed, by } = readPlanQuery(context.req.valid('query'));
    const moment = await readMoment(room, typedMoment);
    return room.reading.look(moment, (look) => {
      const { folded, head } = look;
      const group = groupNamed(context.req.valid('param').group, look);
      try {
        const planner = plannerOf(room, context, look, by);
        const made = room.plans.today({ look, moment, group, typed: { ...typed, planner } });
        const compared = comparePlan(folded, group.id);
        const said = {
          cautions: [cautions.lead, ...cautions.points.map(({ text }) => text), cautions.end],
          adopted: compared === undefined ? null : planComparedJson(compared, folded),
          ...planJson(made, folded),
        };
        const version = `${room.program} ${made.when.slice(0, 10)} ${planner}`;
        return unchanged(context, head, version) ?? json(context, said);
      } catch (error) {
        throw problemOfPlan(error);
      }
    });
  });
}
