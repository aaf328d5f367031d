// /api/sealed/{hash}: erasable rows one by one. Photos come here after their entries, and are looked at from here.
import { createRoute, z } from '@hono/zod-openapi';
import { readSealedJson } from '../../log/entry/index.ts';
import { entryNaming, supplySealed } from '../../record/index.ts';
import { json } from '../answers.ts';
import type { App, Room } from '../environment.ts';
import { readJsonBody } from '../json-body.ts';
import { Problem } from '../problems.ts';
import { hash, problemAnswers } from '../schemas/common.ts';
import { supplied, suppliedRow } from '../schemas/exchange.ts';
import { addRoute } from './add.ts';

const params = z.strictObject({
  hash: hash.openapi({ description: 'SHA-256(salt ‖ bytes), as the entry has it.' }),
});

const put = createRoute({
  method: 'put',
  path: '/api/sealed/{hash}',
  summary: 'Give a row that an entry names',
  description:
    'The bytes of a photo whose entry is in the log already. Giving it again changes nothing, and what was erased stays erased.',
  request: {
    params,
    body: {
      required: true,
      content: { 'application/json': { schema: { $ref: '#/components/schemas/SuppliedRow' } } },
    },
  },
  responses: {
    200: { description: 'What became of it.', content: { 'application/json': { schema: supplied } } },
    ...problemAnswers(
      'bad-parameter',
      'malformed-body',
      'cross-site',
      'read-only',
      'row-not-named',
      'too-large',
      'unsupported-media-type',
      'row-changed',
      'disk-error',
      'disk-full',
    ),
  },
});

const get = createRoute({
  method: 'get',
  path: '/api/sealed/{hash}',
  summary: 'The bytes of a row',
  description:
    'Pictures and plain text come as such; anything else comes as bytes to be saved. Nothing is cached, for a row can be erased.',
  request: { params },
  responses: {
    200: {
      description: 'The bytes.',
      content: {
        'image/*': { schema: { type: 'string', format: 'binary' } },
        'text/plain': { schema: { type: 'string' } },
        'application/octet-stream': { schema: { type: 'string', format: 'binary' } },
      },
    },
    ...problemAnswers('bad-parameter', 'row-not-named', 'row-not-here'),
  },
});

/** What a browser may show: pictures in which nothing can run, and text. */
const shown = /^image\/(?:jpeg|png|webp|avif|gif|heic|heif)$/;

export function addSealed(app: App, room: Room): void {
  const { log } = room.desk;
  app.openAPIRegistry.register('SuppliedRow', suppliedRow);

  addRoute(app, put, async (context) => {
    const { hash: name } = context.req.valid('param');
    const row = readSealedJson(name, await readJsonBody(context.req, suppliedRow, 'row'));
    if (row === undefined)
      throw new Problem('malformed-body', 'salt and bytes are base64 with padding (RFC 4648 section 4).');
    const outcome = await room.inTurn(() => supplySealed(log, row));
    if (outcome === 'not-named') throw notNamed(name);
    if (outcome === 'changed')
      throw new Problem(
        'row-changed',
        `Salt and bytes do not have the hash ${name}. Send them as the device sealed them; nothing was kept.`,
      );
    context.header('Cache-Control', 'no-store');
    return json(context, { outcome });
  });

  addRoute(app, get, async (context) => {
    const { hash: name } = context.req.valid('param');
    const row = await log.sealed(name);
    if (row === undefined)
      throw (await entryNaming(log, name)) === undefined ? notNamed(name) : await gone(name);
    context.header('Cache-Control', 'no-store');
    const [essence = ''] = row.mediaType.toLowerCase().split(';');
    if (shown.test(essence)) context.header('Content-Type', essence);
    else if (essence === 'text/plain') context.header('Content-Type', 'text/plain; charset=utf-8');
    else {
      context.header('Content-Type', 'application/octet-stream');
      context.header('Content-Disposition', 'attachment');
    }
    return context.body(new Uint8Array(row.bytes));
  });

  async function gone(name: string): Promise<Problem> {
    const [missing] = await log.missingRows([name]);
    return new Problem(
      'row-not-here',
      missing === undefined
        ? 'This row was erased; the entry that names it stays.'
        : 'This row has not come yet; the device that made it sends it when there is time.',
    );
  }
}

function notNamed(name: string): Problem {
  return new Problem('row-not-named', `No entry in the log names the row ${name}. Send the entry first.`);
}
