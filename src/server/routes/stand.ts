// GET /api/stand and /api/findings: the stand at any moment, and what an auditor would ask about.
import { createRoute, z } from '@hono/zod-openapi';
import { type Finding, type Folded, isAboutRecord, standJson, viewGroup } from '../../stand/index.ts';
import { json, unchanged, wanted } from '../answers.ts';
import type { App, Room } from '../environment.ts';
import { readMoment, readThing, standQuery } from '../moment.ts';
import { problemAnswers } from '../schemas/common.ts';
import { finding, stand } from '../schemas/stand.ts';
import { addRoute } from './add.ts';

const standRoute = createRoute({
  method: 'get',
  path: '/api/stand',
  summary: 'The stand',
  description: 'Everything as it is now, as it was at a moment, or as it was known then.',
  request: { query: standQuery },
  responses: {
    200: { description: 'The stand.', content: { 'application/json': { schema: stand } } },
    304: { description: 'Nothing was appended since.' },
    ...problemAnswers('bad-parameter', 'not-acceptable'),
  },
});

const findings = z.strictObject({ size: z.int().min(0), findings: z.array(finding) }).openapi('Findings');

const findingsRoute = createRoute({
  method: 'get',
  path: '/api/findings',
  summary: 'Findings',
  description: 'What an auditor would ask about, in the order of happening, each with what to do.',
  request: { query: standQuery },
  responses: {
    200: { description: 'The findings.', content: { 'application/json': { schema: findings } } },
    304: { description: 'Nothing was appended since.' },
    ...problemAnswers('bad-parameter', 'not-acceptable'),
  },
});

export function addStand(app: App, room: Room): void {
  addRoute(app, standRoute, async (context) => {
    wanted(context, ['application/json']);
    const query = context.req.valid('query');
    return room.reading.look(await readMoment(room, query), (look) => {
      const group = readThing('group', query.group, look);
      const { folded, names, head } = look;
      return (
        unchanged(context, head, `${room.program} ${names.size}`) ??
        json(context, standJson(folded, { head, names, ...(group === undefined ? {} : { group }) }))
      );
    });
  });
  addRoute(app, findingsRoute, async (context) => {
    wanted(context, ['application/json']);
    const query = context.req.valid('query');
    return room.reading.look(await readMoment(room, query), (look) => {
      const group = readThing('group', query.group, look);
      const { folded, head } = look;
      const shown = findingsOf(folded, group).map((one) => findingJson(one, folded));
      return unchanged(context, head, room.program) ?? json(context, { size: head.size, findings: shown });
    });
  });
}

function findingsOf({ stand: all, findings: found }: Folded, id: string | undefined): readonly Finding[] {
  const group = id === undefined ? undefined : all.groups.get(id);
  return group === undefined ? found : viewGroup(all, found, group).findings;
}

function findingJson(one: Finding, { entries: known }: Folded) {
  const { code, sentence, remedy, at, about, settled, entries } = one;
  const settledBy = settled === undefined ? undefined : known.get(settled);
  return {
    code,
    sentence,
    remedy,
    at,
    about,
    concerns: isAboutRecord(one) ? 'record' : 'woods',
    state: settled === undefined ? 'open' : 'settled',
    settledBy: settledBy?.position ?? settledBy?.id ?? null,
    entries: entries.map((id) => known.get(id)?.position ?? id),
  };
}
