// GET /api/openapi.json: the description of everything above, made from the routes and the kinds themselves.
import { createRoute, z } from '@hono/zod-openapi';
import { json, wanted } from '../answers.ts';
import type { App, Room } from '../environment.ts';
import { problemAnswers } from '../schemas/common.ts';
import { registerEnvelope } from '../schemas/envelope.ts';
import { registerKinds } from '../schemas/stored.ts';
import { addRoute } from './add.ts';

const route = createRoute({
  method: 'get',
  path: '/api/openapi.json',
  summary: 'This description',
  description: 'OpenAPI 3.1, generated from the routes and from the kinds of entries.',
  request: { query: z.strictObject({}) },
  responses: {
    200: {
      description: 'The description.',
      content: { 'application/json': { schema: z.looseObject({ openapi: z.string() }) } },
    },
    ...problemAnswers('bad-parameter', 'not-acceptable'),
  },
});

/** To be called after all other routes are there. */
export function addDocument(app: App, { program }: Room): void {
  registerEnvelope(app);
  registerKinds(app);
  let document: unknown;
  addRoute(app, route, (context) => {
    wanted(context, ['application/json']);
    document ??= app.getOpenAPI31Document({
      openapi: '3.1.0',
      info: {
        title: 'Gapledger',
        version: program.split(' ').at(-1) ?? program,
        description:
          'The logbook of one property. Everything answers on this machine only. Felling kills: nothing that is answered here says that a tree, a side or a direction can be trusted.',
        license: { name: 'Apache-2.0', url: 'https://www.apache.org/licenses/LICENSE-2.0' },
      },
      servers: [{ url: '/' }],
    });
    context.header('Cache-Control', 'no-cache');
    return json(context, document);
  });
}
