// The felling plan over HTTP: the cautions come with it, and it fells first what stands in the way of the others.
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { House } from './desk.ts';
import { houseInLine, planFrom } from './in-line.ts';

let woods: House;
beforeEach(async () => {
  woods = await houseInLine('A', 'B', 'C');
});
afterEach(() => woods.end());

const planOf = (query = '') => planFrom(woods, query);

describe('a plan for three stems in line, all aimed along the line', () => {
  const along = '?fix=A=0%20true,B=0%20true,C=0%20true';

  it('fells the last one first: then nothing stands in the way of the others', async () => {
    const { falls, aside, cautions } = await planOf(along);
    // Case "three in line" of the model (docs/felling-model.md): the order C, B, A hangs up with a chance of 0.
    expect(falls.map(({ label }) => label)).toEqual(['C', 'B', 'A']);
    for (const { hangUp } of falls) expect(hangUp).toBe(0);
    expect(aside).toEqual([]);
    expect(cautions[0]).toContain('Felling kills.');
  });

  it('is refused in the order that fells one onto another', async () => {
    const { falls, aside } = await planOf(`${along}&before=A=B,B=C`);
    // In the order A, B, C the sum of the chances is 0.95 with boles that always hold; half of that is over the limit.
    expect(falls.map(({ label }) => label)).not.toContain('A');
    expect(aside.map(({ label }) => label)).toContain('A');
  });

  it('does not plan for a stem that another one hangs in, nor for what hangs', async () => {
    await woods.record('stem-felled', { stem: 'C', came: 'hung-up', hungOn: 'B' });
    const { falls, aside } = await planOf();
    expect(falls).toEqual([]);
    expect(aside.find(({ label }) => label === 'B')?.because).toContain('hangs in it');
  });

  it('is refused for a group that is closed, with the remedy', async () => {
    for (const stem of ['C', 'B', 'A']) await woods.record('stem-felled', { stem, came: 'down' });
    await woods.record('opening-closed', { group: 'G1' });
    const answer = await woods.ask('/api/groups/G1/plan');
    expect(answer.status).toBe(400);
    expect(await answer.json()).toMatchObject({ problems: [{ field: 'group', value: 'G1' }] });
  });
});

describe('the map of that plan', () => {
  const along = '?fix=A=0%20true,B=0%20true,C=0%20true';

  it.each([
    ['', {}, 'image/svg+xml', '<?xml'],
    ['', { accept: 'application/pdf' }, 'application/pdf', '%PDF-'],
    ['&as=pdf', { accept: 'text/html' }, 'application/pdf', '%PDF-'],
    ['&as=svg', { accept: 'application/pdf' }, 'image/svg+xml', '<?xml'],
  ])('%j with %j is %s', async (query, headers, mediaType, start) => {
    const answer = await woods.ask(`/api/groups/G1/plan/map${along}${query}`, { headers });
    expect(answer.status).toBe(200);
    expect(answer.headers.get('content-type')).toBe(mediaType);
    expect(answer.headers.get('content-disposition')).toMatch(
      /^inline; filename="felling-map-G1\.(svg|pdf)"$/,
    );
    expect((await answer.text()).startsWith(start)).toBe(true);
  });

  it('has the stems in the order of the plan, and is not sent again while nothing was appended', async () => {
    const answer = await woods.ask(`/api/groups/G1/plan/map${along}`);
    const drawn = await answer.text();
    // The worked case again: C falls first.
    expect(
      [...drawn.matchAll(/<title>(\d): (\w)<\/title>/g)].map(([, at, label]) => `${at}${label}`),
    ).toEqual(['1C', '2B', '3A']);
    const again = { headers: { 'if-none-match': answer.headers.get('etag') ?? '' } };
    expect((await woods.ask(`/api/groups/G1/plan/map${along}`, again)).status).toBe(304);
    await woods.record('stem-felled', { stem: 'C', came: 'down' });
    expect((await woods.ask('/api/groups/G1/plan/map', again)).status).toBe(200);
  });

  it('is refused as the plan is, and as neither SVG nor PDF', async () => {
    expect((await woods.ask('/api/groups/G1/plan/map?fix=A=95')).status).toBe(400);
    expect((await woods.ask('/api/groups/G9/plan/map')).status).toBe(400);
    expect((await woods.ask('/api/groups/G1/plan/map?as=png')).status).toBe(400);
    expect((await woods.ask('/api/groups/G1/plan/map', { headers: { accept: 'image/png' } })).status).toBe(
      406,
    );
  });
});
