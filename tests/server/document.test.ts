// The OpenAPI document is held against the standard by a library that knows nothing of this project, and every
// answer against the schema that the document gives for it (JSON Schema 2020-12, by Ajv).
import { Validator } from '@seriousme/openapi-schema-validator';
import { Ajv2020 } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import { v7 as newUuid } from 'uuid';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { kindTypes } from '../../src/events/index.ts';
import { layers } from '../../src/layers/index.ts';
import { exchangeJson } from '../../src/log/entry/index.ts';
import { phone } from '../record/phone.ts';
import { type House, house } from './desk.ts';

type Document = {
  paths: Record<string, Record<string, { responses: Record<string, { content?: object }> }>>;
};

let woods: House;
let document: Document;
let ajv: Ajv2020;

beforeAll(async () => {
  woods = await house();
  document = (await (await woods.ask('/api/openapi.json')).json()) as Document;
  ajv = new Ajv2020({ strict: false, allErrors: true });
  addFormats.default(ajv);
  ajv.addSchema(document, 'document');
});
afterAll(() => woods.end());

/** What is wrong with an answer by the document; an answer that the document does not foresee is wrong. */
async function faults(answer: Response, path: string, method = 'get'): Promise<unknown> {
  const mediaType = answer.headers.get('content-type')?.split(';')[0] ?? '';
  const content = document.paths[path]?.[method]?.responses[String(answer.status)]?.content ?? {};
  if (!Object.hasOwn(content, mediaType))
    return `${method} ${path}: ${answer.status} ${mediaType} is not foreseen`;
  const escaped = [path, mediaType].map((part) => part.replaceAll('~', '~0').replaceAll('/', '~1'));
  const pointer = `document#/paths/${escaped[0]}/${method}/responses/${answer.status}/content/${escaped[1]}/schema`;
  const check = ajv.compile({ $ref: pointer });
  const body: unknown = /[/+]json$/.test(mediaType) ? await answer.json() : await answer.text();
  return check(body) ? undefined : check.errors;
}

describe('the description of the server', () => {
  it('is an OpenAPI 3.1 document by an independent validator', async () => {
    const validator = new Validator();
    const result = await validator.validate(structuredClone(document));
    expect(result.errors).toBeUndefined();
    expect(result.valid).toBe(true);
    expect(validator.version).toBe('3.1');
  });

  it('describes the body and the draft of every kind of entry', () => {
    const { schemas } = (document as unknown as { components: { schemas: object } }).components;
    const names = Object.keys(schemas);
    for (const type of kindTypes)
      expect(names).toEqual(expect.arrayContaining([`Body.${type}`, `Entry.${type}`, `Draft.${type}`]));
  });

  it('has only references that lead somewhere', () => {
    const references = [...JSON.stringify(document).matchAll(/"\$ref":"([^"]+)"/g)].map(
      ([, pointer]) => pointer ?? '',
    );
    expect(references.length).toBeGreaterThan(100);
    for (const pointer of new Set(references))
      expect(() => ajv.compile({ $ref: `document${pointer}` }), pointer).not.toThrow();
  });
});

describe('every answer fits its description', () => {
  const reads = [
    '/api/head',
    '/api/stand',
    '/api/findings',
    '/api/events',
    '/api/exchange',
    '/api/openapi.json',
    '/layers',
    '/reports/harvest.json',
    '/reports/harvest.html',
    '/reports/harvest',
    '/reports/emergency-card.json',
    '/reports/emergency-card.html',
    '/reports/emergency-card',
    ...layers.map(({ name }) => `/layers/${name}.geojson`),
  ];
  it.each(reads)('GET %s', async (path) => {
    const answer = await woods.ask(path);
    expect(answer.status).toBe(200);
    expect(await faults(answer, path)).toBeUndefined();
  });

  it.each(layers.map(({ name }) => `/layers/${name}.geojson`))('GET %s in the working CRS', async (path) => {
    const answer = await woods.ask(`${path}?crs=EPSG:2264`);
    expect(answer.status).toBe(200);
    expect(await faults(answer, path)).toBeUndefined();
  });

  it('an empty logbook, one group, another moment, the exact bytes', async () => {
    const bare = await house({ empty: true });
    for (const path of ['/api/stand', '/api/findings', '/api/events', '/layers', '/reports/harvest.json'])
      expect(await faults(await bare.ask(path), path), path).toBeUndefined();
    await bare.end();
    for (const query of ['group=G1', 'at=2026-03-19%2009:00', 'known-at=0', 'known-at=5'])
      expect(await faults(await woods.ask(`/api/stand?${query}`), '/api/stand'), query).toBeUndefined();
    const bytes = await woods.ask('/api/events', { headers: { accept: 'application/x-ndjson' } });
    expect(await faults(bytes, '/api/events')).toBeUndefined();
  });

  it('problems', async () => {
    expect(await faults(await woods.ask('/api/stand?at=soon'), '/api/stand')).toBeUndefined();
    expect(await faults(await woods.ask('/api/events?limit=0'), '/api/events')).toBeUndefined();
    expect(
      await faults(await woods.ask('/api/head', { headers: { accept: 'text/html' } }), '/api/head'),
    ).toBeUndefined();
    expect(
      await faults(await woods.ask('/api/head', { headers: { host: 'evil.example' } }), '/api/head'),
    ).toBeUndefined();
  });

  it('receipts, problems and questions of what is recorded', async () => {
    const post = (type: string, body: string) =>
      woods.ask('/api/events', { method: 'POST', headers: { 'content-type': type }, body });
    const draft = (kind: string, fields: object) =>
      post('application/json', JSON.stringify({ kind, fields }));
    const recorded = await draft('note-written', { text: 'rain' });
    expect(recorded.status).toBe(201);
    expect(await faults(recorded, '/api/events', 'post')).toBeUndefined();
    const problems = await draft('stem-marked', { mark: 'cut', species: 'oak' });
    expect(problems.status).toBe(422);
    expect(await faults(problems, '/api/events', 'post')).toBeUndefined();
    const questions = await draft('stem-felled', { stem: 'A3', came: 'down' });
    expect(questions.status).toBe(409);
    expect(await faults(questions, '/api/events', 'post')).toBeUndefined();
    const first = await (
      await woods.ask('/api/events?limit=1', { headers: { accept: 'application/x-ndjson' } })
    ).text();
    const lines = await post(
      'application/x-ndjson',
      `${first}${first.replace('Laurel', 'Another')}nothing\n`,
    );
    expect(lines.status).toBe(200);
    expect(await faults(lines, '/api/events', 'post')).toBeUndefined();
    const other = await post('text/plain', 'hello');
    expect(await faults(other, '/api/events', 'post')).toBeUndefined();
  });

  it('what a phone exchanges', async () => {
    const send = (method: string, path: string, body: unknown) =>
      woods.ask(path, {
        method,
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
      });
    const asked = { deviceTime: '2026-03-20T14:00:00Z', device: newUuid() };
    const exchanged = await send('POST', '/api/exchange', {
      ...asked,
      lines: [exchangeJson(phone().write('note-written', { text: 'rain' })), { twig: 1 }],
    });
    expect(exchanged.status).toBe(200);
    expect(await faults(exchanged, '/api/exchange', 'post')).toBeUndefined();
    const problem = await send('POST', '/api/exchange', asked);
    expect(problem.status).toBe(400);
    expect(await faults(problem, '/api/exchange', 'post')).toBeUndefined();
    const lines = await woods.ask('/api/exchange', { headers: { accept: 'application/x-ndjson' } });
    expect(await faults(lines, '/api/exchange')).toBeUndefined();
    const row = await send('PUT', `/api/sealed/${'0'.repeat(64)}`, {
      salt: '',
      bytes: '',
      mediaType: 'image/png',
    });
    expect(row.status).toBe(404);
    expect(await faults(row, '/api/sealed/{hash}', 'put')).toBeUndefined();
    const none = await woods.ask(`/api/sealed/${'0'.repeat(64)}`);
    expect(await faults(none, '/api/sealed/{hash}')).toBeUndefined();
  });

  it('would be found wrong if it did not fit: the check itself is no rubber stamp', async () => {
    const broken = new Response(JSON.stringify({ size: -1, root: 'x' }), {
      headers: { 'content-type': 'application/json' },
    });
    expect(await faults(broken, '/api/head')).toBeDefined();
    expect(
      await faults(new Response('{}', { headers: { 'content-type': 'text/plain' } }), '/api/head'),
    ).toBeDefined();
  });
});
