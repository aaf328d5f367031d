// The server reads along: other moments, other writers, and answers that need not be sent again.
import { v7 as newUuid } from 'uuid';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { LogbookError, openLogbook } from '../../src/log/store/index.ts';
import { readStand, recordDraft, sitDown, supplySealed } from '../../src/record/index.ts';
import { createApp } from '../../src/server/index.ts';
import { standJson } from '../../src/stand/index.ts';
import { phone, rowOf } from '../record/phone.ts';
import { type House, house, now } from './desk.ts';

let woods: House;
beforeEach(async () => {
  woods = await house();
});
afterEach(() => woods.end());

type StandAnswer = {
  head: { size: number; root: string };
  stems: { tag: string; status: string }[];
  groups: unknown[];
  blocks: unknown[];
};

async function stand(query = ''): Promise<StandAnswer> {
  const answer = await woods.ask(`/api/stand${query}`);
  expect(answer.status).toBe(200);
  return (await answer.json()) as StandAnswer;
}

const status = ({ stems }: StandAnswer, tag: string) => stems.find((stem) => stem.tag === tag)?.status;

describe('the stand', () => {
  it('is that of a fold from the first entry on, also after others wrote into the file', async () => {
    await stand();
    const other = await openLogbook(woods.path);
    const desk = sitDown(
      other,
      { device: newUuid(), counter: { last: 0 }, person: woods.desk.person ?? '' },
      woods.desk.outside,
    );
    for (const tag of ['A2', 'B9']) {
      const kind = tag === 'A2' ? 'stem-felled' : 'stem-marked';
      const fields = tag === 'A2' ? { stem: tag, came: 'down' } : { tag, mark: 'cut', group: 'G1' };
      expect((await recordDraft(desk, { kind, fields })).outcome).toBe('recorded');
      const seen = await stand();
      const rebuilt = standJson(await readStand(woods.log), {
        head: await woods.log.head(),
        names: new Map(),
      });
      expect(JSON.parse(JSON.stringify({ ...rebuilt, people: [] }))).toEqual({ ...seen, people: [] });
    }
    expect(status(await stand(), 'A2')).toBe('felled');
    await other.close();
  });

  it('is seen as it was at a moment, written locally or with an offset', async () => {
    expect(status(await stand(), 'A1')).toBe('hung-up');
    expect(status(await stand('?at=2026-03-19%2009:00'), 'A1')).toBe('standing');
    expect(status(await stand('?at=2026-03-19T09:00:00-04:00'), 'A1')).toBe('standing');
    expect(status(await stand('?at=2026-03-19T13:31:00Z'), 'A1')).toBe('hung-up');
    // 13:00+00:00 is 09:00 there; a plus that was not escaped arrives as a space.
    expect(status(await stand('?at=2026-03-19T13:00:00%2B00:00'), 'A1')).toBe('standing');
    expect(status(await stand('?at=2026-03-19T13:00:00+00:00'), 'A1')).toBe('standing');
    expect(status(await stand('?at=2026-03-19'), 'A1')).toBe('hung-up');
    expect((await stand('?at=2026-03-18')).stems).toEqual([]);
    expect(status(await stand('?at=yesterday'), 'A1')).toBe('hung-up');
  });

  it('is seen as it was known at a size, with the head that the log had then', async () => {
    const early = await stand('?known-at=6');
    expect(early.head).toEqual({ size: 6, root: await woods.log.rootAt(6) });
    expect(early.groups).toHaveLength(2);
    expect(early.stems).toEqual([]);
    expect((await stand('?known-at=2026-03-20T14:00:00Z')).head.size).toBe((await woods.log.head()).size);
    expect((await stand('?known-at=2026-03-19')).head.size).toBe(0);
  });

  it('of one group holds that group and the block it lies in', async () => {
    const one = await stand('?group=g2');
    expect(one.stems.map(({ tag }) => tag)).toEqual(['B1', 'B2']);
    expect(one.groups).toHaveLength(1);
    expect(one.blocks).toHaveLength(1);
  });

  it('is begun anew when the file was put back to an earlier state', async () => {
    // A log that forgets its last entries: what a restored backup looks like to a server that goes on.
    let cut = false;
    const size = 8;
    const log = {
      ...woods.log,
      head: async () => (cut ? { size, root: await woods.log.rootAt(size) } : woods.log.head()),
    };
    const app = createApp({ desk: { ...woods.desk, log }, program: 'gapledger 0.1.0', now: () => now });
    const seen = async () => (await (await app.request('/api/stand')).json()) as StandAnswer;
    expect((await seen()).stems).toHaveLength(5);
    cut = true;
    expect((await seen()).stems).toHaveLength(2);
  });

  it('holds nobody who was erased, and no contact', async () => {
    await woods.record('person-named', { name: 'Bo Reed', contact: '555-0100' });
    expect(JSON.stringify(await stand())).toContain('Bo Reed');
    expect(JSON.stringify(await stand())).not.toContain('555-0100');
    await woods.record('personal-data-erased', { person: 'Bo Reed', reason: 'asked for it' });
    expect(JSON.stringify(await stand())).not.toContain('Bo Reed');
    expect(await (await woods.ask('/')).text()).not.toContain('Bo Reed');
  });
});

describe('a name or contact that comes after its entry', () => {
  const contacts = rowOf('Joan Calloway 555-0117');
  const late = async () => {
    const body = { accessPoint: { how: 'fix', lat: '35.95310', lon: '-81.74620' }, contacts: contacts.hash };
    const { bytes } = phone().write('emergency-card-set', body, { sealed: [contacts.hash] });
    const [receipt] = await woods.log.append([{ bytes }], new Date(now).toISOString(), {
      rowsMayFollow: () => true,
    });
    expect(receipt?.outcome).toBe('recorded');
  };
  const card = async () => (await woods.ask('/reports/emergency-card')).text();

  it('is shown as soon as it is there, with nothing else recorded', async () => {
    await late();
    expect(await card()).not.toContain('555-0117');
    const { size } = await woods.log.head();
    expect(await supplySealed(woods.log, contacts)).toBe('kept');
    expect(await card()).toContain('555-0117');
    expect((await woods.log.head()).size).toBe(size);
  });

  it('makes a page another one for whoever asks whether it changed', async () => {
    await late();
    const tag = (await woods.ask('/reports/harvest')).headers.get('etag') ?? '';
    const again = async () =>
      (await woods.ask('/reports/harvest', { headers: { 'if-none-match': tag } })).status;
    expect(await again()).toBe(304);
    await supplySealed(woods.log, contacts);
    expect(await again()).toBe(200);
  });
});

describe('entries in pages', () => {
  it('follow each other without a gap, by the link in the header and in the body', async () => {
    const ids: string[] = [];
    let next: string | null = '/api/events?limit=5';
    while (next !== null) {
      const answer: Response = await woods.ask(next);
      const page = (await answer.json()) as {
        entries: { id: string; position: number }[];
        next: string | null;
      };
      expect(answer.headers.get('link')).toBe(page.next === null ? null : `<${page.next}>; rel="next"`);
      expect(page.entries.map(({ position }) => position)).toEqual(
        page.entries.map((_, index) => ids.length + index),
      );
      ids.push(...page.entries.map(({ id }) => id));
      next = page.next;
    }
    expect(ids).toHaveLength((await woods.log.head()).size);
    expect(await (await woods.ask('/api/events?from=500')).json()).toMatchObject({ entries: [], next: null });
  });
});

describe('what an asker has already is not sent again', () => {
  it.each([
    '/',
    '/api/head',
    '/api/stand',
    '/api/findings?group=G1',
    '/api/events',
    '/layers',
    '/layers/stems.geojson',
    '/reports/harvest',
    '/api/stand?at=2026-03-19',
  ])('%s, until something is recorded', async (path) => {
    const first = await woods.ask(path);
    const tag = first.headers.get('etag') ?? '';
    expect(tag).toMatch(/^W\/"19-/);
    const again = await woods.ask(path, { headers: { 'if-none-match': `"other", ${tag}` } });
    expect(again.status).toBe(304);
    expect(await again.text()).toBe('');
    await woods.record('note-written', { text: 'more' });
    expect((await woods.ask(path, { headers: { 'if-none-match': tag } })).status).toBe(200);
  });

  it('but "yesterday" is another day tomorrow, and another media type another answer', async () => {
    expect((await woods.ask('/api/stand?at=yesterday')).headers.get('etag')).toBeNull();
    expect((await woods.ask('/api/stand?at=09:00')).headers.get('etag')).toBeNull();
    const tag = (await woods.ask('/reports/harvest.html')).headers.get('etag') ?? '';
    expect((await woods.ask('/reports/harvest.json', { headers: { 'if-none-match': tag } })).status).toBe(
      200,
    );
  });
});

describe('layers', () => {
  it('name their reference system and their file', async () => {
    const plain = await woods.ask('/layers/stems.geojson');
    expect(plain.headers.get('content-type')).toBe('application/geo+json');
    expect(plain.headers.get('content-crs')).toBe('<http://www.opengis.net/def/crs/OGC/1.3/CRS84>');
    expect(plain.headers.get('content-disposition')).toBe('inline; filename="stems.geojson"');
    expect(await plain.json()).not.toHaveProperty('crs');
    const feet = await woods.ask('/layers/stems.geojson?crs=epsg:2264');
    expect(feet.headers.get('content-type')).toBe('application/json');
    expect(feet.headers.get('content-crs')).toBe('<http://www.opengis.net/def/crs/EPSG/0/2264>');
    expect(feet.headers.get('content-disposition')).toBe('inline; filename="stems.epsg2264.geojson"');
    const collection = await feet.json();
    expect(collection).toMatchObject({ crs: { properties: { name: 'urn:ogc:def:crs:EPSG::2264' } } });
    expect(await (await woods.ask('/layers/stems.geojson?crs=working')).json()).toEqual(collection);
  });
});

describe('a logbook in trouble', () => {
  it.each([
    ['locked', 503, 'logbook-locked'],
    ['full', 507, 'disk-full'],
    ['read-only', 403, 'read-only'],
    ['input-output', 500, 'disk-error'],
    ['unreadable', 503, 'logbook-unavailable'],
    ['missing', 503, 'logbook-unavailable'],
  ] as const)('%s: %i %s, without the path of the file', async (code, expected, problem) => {
    const trouble = () =>
      Promise.reject(new LogbookError(code, '/var/ann/woods.logbook', 'something is the matter. Do this.'));
    const log = { ...woods.log, append: trouble, compose: trouble };
    const app = createApp({ desk: { ...woods.desk, log }, program: 'gapledger 0.1.0', now: () => now });
    const sent = await app.request('/api/events', {
      method: 'POST',
      headers: { 'content-type': 'application/x-ndjson' },
      body: '{}\n',
    });
    expect(sent.status).toBe(expected);
    expect(sent.headers.get('retry-after')).toBe(code === 'locked' ? '5' : null);
    const body = (await sent.json()) as { code: string; detail: string };
    expect(body).toMatchObject({ code: problem, detail: 'Something is the matter. Do this.' });
  });

  it('that does not answer is not waited for beyond half a minute', async () => {
    vi.useFakeTimers();
    try {
      const log = { ...woods.log, head: () => new Promise<never>(() => {}) };
      const app = createApp({ desk: { ...woods.desk, log }, program: 'gapledger 0.1.0', now: () => now });
      const asked = app.request('/api/stand');
      await vi.advanceTimersByTimeAsync(30_000);
      const answer = await asked;
      expect(answer.status).toBe(503);
      expect(answer.headers.get('retry-after')).toBe('5');
      expect(await answer.json()).toMatchObject({ code: 'timed-out' });
    } finally {
      vi.useRealTimers();
    }
  });
});
