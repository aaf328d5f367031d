// Each way to ask wrongly gets problem details (RFC 9457): status, media type, a stable code, what to do.
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { problemCodes } from '../../src/server/problems.ts';
import { type House, house } from './desk.ts';

let woods: House;
beforeAll(async () => {
  woods = await house();
});
afterAll(() => woods.end());

type Details = {
  type: string;
  code: keyof typeof problemCodes;
  title: string;
  status: number;
  detail: string;
  instance: string;
  problems?: { field: string; value: string; remedy: string }[];
};

async function details(answer: Response): Promise<Details> {
  expect(answer.headers.get('content-type')).toBe('application/problem+json');
  const body = (await answer.json()) as Details;
  expect(body.type).toBe(`urn:gapledger:problem:${body.code}`);
  expect(problemCodes[body.code]).toEqual({ status: answer.status, title: body.title });
  expect(body.status).toBe(answer.status);
  expect(body.detail).toMatch(/[.?!]$/);
  return body;
}

describe('a parameter that cannot be used names itself, what it was and what to do', () => {
  const table: [address: string, field: string, remedy: RegExp][] = [
    ['/api/stand?at=soon', 'at', /write 2026-03-14/],
    ['/api/stand?at=', 'at', /write 2026-03-14/],
    ['/api/stand?at=2026-02-30', 'at', /no such day/],
    ['/api/stand?at=2026-13-01%2009:00', 'at', /no such day/],
    // Clocks in America/New_York went forward on 8 March 2026 and go back on 1 November 2026 (IANA tz database).
    ['/api/stand?at=2026-03-08%2002:30', 'at', /put forward.*-05:00|put forward.*-04:00/],
    ['/api/stand?at=2026-11-01%2001:30', 'at', /happened twice.*-04:00 or .*-05:00/],
    ['/api/stand?at=2026-03-19&at=2026-03-20', 'at', /string/],
    ['/api/stand?known-at=20', 'known-at', /19 entries/],
    ['/api/stand?known-at=-1', 'known-at', /write 2026-03-14/],
    ['/api/stand?known-at=many', 'known-at', /write 2026-03-14/],
    ['/api/stand?knownat=3', 'knownat', /no such parameter/],
    ['/api/stand?group=G9', 'group', /no group "G9".*did you mean G/],
    ['/api/stand?group=01970000-0000-7000-8000-000000000001', 'group', /no group of this logbook/],
    ['/api/stand?group=G1&known-at=2', 'group', /no group "G1"/],
    ['/api/findings?at=25:00', 'at', /no such day or time/],
    ['/api/findings?group=', 'group', /no group ""/],
    ['/api/findings?state=open', 'state', /no such parameter/],
    ['/api/events?from=-1', 'from', /whole number/],
    ['/api/events?from=1.5', 'from', /whole number/],
    ['/api/events?from=first', 'from', /whole number/],
    ['/api/events?limit=0', 'limit', /1 to 1000/],
    ['/api/events?limit=1001', 'limit', /up to 1000/],
    ['/api/events?limit=1e3', 'limit', /whole number/],
    ['/api/events?after=3', 'after', /no such parameter/],
    ['/api/head?size=3', 'size', /no such parameter/],
    ['/layers?crs=EPSG:2264', 'crs', /no such parameter/],
    ['/layers/stems.geojson?crs=EPSG:3857', 'crs', /web Mercator/],
    ['/layers/stems.geojson?crs=EPSG:4326', 'crs', /leave crs out for longitude and latitude/],
    ['/layers/stems.geojson?crs=EPSG:99999', 'crs', /./],
    ['/layers/stems.geojson?crs=', 'crs', /no EPSG code/],
    ['/layers/stems.geojson?srs=EPSG:2264', 'srs', /no such parameter/],
    ['/layers/stems.geojson?at=never', 'at', /write 2026-03-14/],
    ['/reports/harvest?group=nowhere', 'group', /no group "nowhere"/],
    ['/reports/harvest.json?known-at=99', 'known-at', /19 entries/],
    ['/reports/harvest.html?at=tomorrow', 'at', /write 2026-03-14/],
  ];
  it.each(table)('GET %s', async (address, field, remedy) => {
    const answer = await woods.ask(address);
    const { code, problems = [], instance } = await details(answer);
    expect(code).toBe('bad-parameter');
    expect(instance).toBe(address.split('?')[0]);
    expect(problems.map((problem) => problem.field)).toEqual([field]);
    expect(problems[0]?.remedy).toMatch(remedy);
  });
});

describe('addresses, methods and media types', () => {
  it.each([
    '/api/stands',
    '/layers/stems',
    '/layers/nothing.geojson',
    '/reports/harvest.pdf',
    '/api/',
    '/..%2f..%2fetc%2fpasswd',
  ])('GET %s is not there', async (address) => {
    const answer = await woods.ask(address);
    expect(answer.status).toBe(404);
    expect((await details(answer)).code).toBe('not-found');
  });

  it.each([
    ['DELETE', '/api/events', 'POST, GET, HEAD'],
    ['PUT', '/api/events', 'POST, GET, HEAD'],
    ['POST', '/api/stand', 'GET, HEAD'],
    ['POST', '/', 'GET, HEAD'],
    ['PATCH', '/layers/stems.geojson', 'GET, HEAD'],
    ['OPTIONS', '/api/events', 'POST, GET, HEAD'],
  ])('%s %s is refused and says what is allowed', async (method, address, allow) => {
    const answer = await woods.ask(address, { method });
    expect(answer.status).toBe(405);
    expect(answer.headers.get('allow')).toBe(allow);
    expect((await details(answer)).code).toBe('method-not-allowed');
  });

  it.each([
    ['/', 'application/json'],
    ['/api/events', 'text/html'],
    ['/api/stand', 'application/json;q=0'],
    ['/layers/stems.geojson', 'application/geopackage+sqlite3'],
    ['/reports/harvest', 'application/pdf'],
    ['/reports/harvest.html', 'application/json'],
  ])('%s is not to be had as %s', async (address, accept) => {
    const answer = await woods.ask(address, { headers: { accept } });
    expect(answer.status).toBe(406);
    expect((await details(answer)).code).toBe('not-acceptable');
  });

  it('asks what a browser asks for and gets the page; */* and families count', async () => {
    const browser = 'text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8';
    expect((await woods.ask('/', { headers: { accept: browser } })).status).toBe(200);
    const report = await woods.ask('/reports/harvest', { headers: { accept: browser } });
    expect(report.headers.get('content-type')).toContain('text/html');
    const data = await woods.ask('/reports/harvest', {
      headers: { accept: 'text/*;q=0.1, application/json' },
    });
    expect(data.headers.get('content-type')).toBe('application/json');
    const lines = await woods.ask('/api/events', {
      headers: { accept: 'application/x-ndjson, application/json;q=0.5' },
    });
    expect(lines.headers.get('content-type')).toBe('application/x-ndjson');
  });
});

describe('a body that cannot be taken', () => {
  const post = (headers: Record<string, string>, body: string | Uint8Array<ArrayBuffer>) =>
    woods.ask('/api/events', { method: 'POST', headers, body });
  const json = { 'content-type': 'application/json' };

  it.each([
    ['nothing at all', ''],
    ['half an object', '{"kind": "note-written"'],
    ['bytes that are no UTF-8', new Uint8Array([0x22, 0xff, 0xfe, 0x22])],
    ['a number', '7'],
    ['null', 'null'],
    ['an empty list', '[]'],
    ['a draft without fields', '{"kind":"note-written"}'],
    ['a draft with a member too many', '{"kind":"note-written","fields":{},"when":"now"}'],
    ['fields that are a list', '{"kind":"note-written","fields":[]}'],
    ['answers that are no list', '{"kind":"note-written","fields":{},"answers":"anyway"}'],
    ['501 drafts', JSON.stringify(Array(501).fill({ kind: 'note-written', fields: { text: 'x' } }))],
  ])('is refused when it is %s', async (_, body) => {
    const answer = await post(json, body);
    expect(answer.status).toBe(400);
    expect((await details(answer)).code).toBe('malformed-body');
  });

  it('says which draft of a list and which member is wrong', async () => {
    const answer = await post(
      json,
      '[{"kind":"note-written","fields":{"text":"rain"}},{"kind":7,"fields":{}}]',
    );
    const { problems = [] } = await details(answer);
    expect(problems.map(({ field }) => field)).toEqual(['1.kind']);
  });

  it.each([
    ['text/plain', 'a form elsewhere could send this without asking'],
    ['application/x-www-form-urlencoded', 'so could it this'],
    ['multipart/form-data; boundary=x', 'and this'],
    ['application/geo+json', 'JSON, but no draft'],
    ['application/json; charset=latin1', 'no UTF-8'],
    ['', 'nothing said'],
  ])('is not taken as "%s": %s', async (type) => {
    const answer = await post(type === '' ? {} : { 'content-type': type }, new TextEncoder().encode('{}'));
    expect(answer.status).toBe(415);
    expect(answer.headers.get('accept-post')).toBe('application/x-ndjson, application/json');
    expect((await details(answer)).code).toBe('unsupported-media-type');
  });

  it('is not taken compressed', async () => {
    const answer = await post({ ...json, 'content-encoding': 'gzip' }, 'x');
    expect(answer.status).toBe(415);
  });

  it('is not taken when it is larger than 8 MiB, whether or not it says so beforehand', async () => {
    const before = await (await woods.ask('/api/head')).text();
    const large = new Uint8Array(8 * 1024 * 1024 + 1).fill(0x20);
    const said = await post(
      { 'content-type': 'application/x-ndjson', 'content-length': String(large.length) },
      large,
    );
    expect(said.status).toBe(413);
    expect((await details(said)).detail).toContain('8388608 bytes');
    const stream = new ReadableStream({
      start(controller) {
        for (let part = 0; part < 9; part += 1) controller.enqueue(large.subarray(0, 1024 * 1024));
        controller.close();
      },
    });
    const unsaid = await woods.ask('/api/events', {
      method: 'POST',
      headers: { 'content-type': 'application/x-ndjson' },
      body: stream,
      duplex: 'half',
    } as RequestInit);
    expect(unsaid.status).toBe(413);
    expect(await (await woods.ask('/api/head')).text()).toBe(before);
  });
});
