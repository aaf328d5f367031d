// GET /api/groups/{group}/plan/map: the plan of a group as a map on paper, as SVG or PDF.
import { createRoute, z } from '@hono/zod-openapi';
import { fellingMap, renderFellingMap, renderFellingMapPdf } from '../../reports/index.ts';
import { text, unchanged, wanted } from '../answers.ts';
import type { App, Room } from '../environment.ts';
import { policyFor } from '../headers.ts';
import { readMoment } from '../moment.ts';
import { groupNamed, groupParam, planQuery, problemOfPlan, readersOf, readPlanQuery } from '../plan-query.ts';
import { plannerOf } from '../planner.ts';
import type { Request } from '../request.ts';
import { problemAnswers } from '../schemas/common.ts';
import { addRoute } from './add.ts';

const mediaTypes = { svg: 'image/svg+xml', pdf: 'application/pdf' } as const;
type MediaType = (typeof mediaTypes)[keyof typeof mediaTypes];

const route = createRoute({
  method: 'get',
  path: '/api/groups/{group}/plan/map',
  summary: 'A felling plan as a map to take along',
  description:
    'One page of A5 or half letter, larger where it has to be, in black and white: the stems in their order, aims with their bands, what is at risk, ways out, and the cautions. It is of the same plan as /api/groups/{group}/plan with the same query, and ends with it.',
  request: {
    params: groupParam,
    query: planQuery.extend({
      as: z
        .enum(['svg', 'pdf'])
        .optional()
        .openapi({ description: 'Which of the two, where no Accept can be sent; it goes before Accept.' }),
    }),
  },
  responses: {
    200: {
      description: 'The map.',
      content: {
        'image/svg+xml': { schema: z.string() },
        'application/pdf': { schema: z.string().openapi({ format: 'binary' }) },
      },
    },
    304: { description: 'Nothing was appended since.' },
    ...problemAnswers('bad-parameter', 'not-acceptable'),
  },
});

export function addPlanMap(app: App, room: Room): void {
  addRoute(app, route, async (context) => {
    const { as, ...query } = context.req.valid('query');
    const mediaType = as === undefined ? wanted(context, [mediaTypes.svg, mediaTypes.pdf]) : mediaTypes[as];
    const { moment: typedMoment, typed, by } = readPlanQuery(query);
    const moment = await readMoment(room, typedMoment);
    const made = await room.reading.look(moment, (look) => {
      const group = groupNamed(context.req.valid('param').group, look);
      try {
        const planner = plannerOf(room, context, look, by);
        const plan = room.plans.today({ look, moment, group, typed: { ...typed, planner } });
        return {
          map: fellingMap(plan, readersOf(look.folded.stand)),
          same: unchanged(
            context,
            look.head,
            `${mediaType} ${room.program} ${plan.when.slice(0, 10)} ${planner}`,
          ),
          name: `felling-map-${group.label.replaceAll(/[^\w-]+/g, '-')}`,
        };
      } catch (error) {
        throw problemOfPlan(error);
      }
    });
    return made.same ?? answer(context, mediaType, { ...made, program: room.program });
  });
}

type Made = Readonly<{ map: Parameters<typeof renderFellingMap>[0]; name: string; program: string }>;

async function answer(
  context: Request,
  mediaType: MediaType,
  { map, name, program }: Made,
): Promise<Response> {
  const ending = mediaType === 'application/pdf' ? 'pdf' : 'svg';
  context.header('Content-Disposition', `inline; filename="${name}.${ending}"`);
  if (ending === 'pdf') return text(context, mediaType, await renderFellingMapPdf(map, program));
  const drawn = renderFellingMap(map);
  context.header('Content-Security-Policy', policyFor(drawn));
  return text(context, mediaType, drawn);
}
