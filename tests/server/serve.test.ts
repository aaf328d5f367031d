// The server on a real port, asked over the wire.
import { request } from 'node:http';
import { connect } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Served, serve } from '../../src/server/index.ts';
import { type House, house } from './desk.ts';

let woods: House;
let served: Served;
beforeAll(async () => {
  woods = await house();
  served = await serve({ app: woods.app, port: 0 });
});
afterAll(async () => {
  await served.close();
  await woods.end();
});

/** Asks with a Host header of one's own, which fetch does not allow. */
function askAs(host: string): Promise<number> {
  return new Promise((resolve, reject) => {
    request(served.url, { headers: { host } }, (answer) => {
      answer.resume();
      resolve(answer.statusCode ?? 0);
    })
      .on('error', reject)
      .end();
  });
}

describe('on a port', () => {
  it('answers at the address that it names, on this machine only', async () => {
    expect(served.url).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
    const answer = await fetch(served.url);
    expect(answer.status).toBe(200);
    expect(await answer.text()).toContain('Laurel Run woods');
  });

  it('takes entries and gives back their bytes', async () => {
    const head = (await (await fetch(new URL('/api/head', served.url))).json()) as { size: number };
    const sent = await fetch(new URL('/api/events', served.url), {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ kind: 'note-written', fields: { text: 'over the wire' } }),
    });
    expect(sent.status).toBe(201);
    const read = new URL(`/api/events?from=${head.size}`, served.url);
    const line = await (await fetch(read, { headers: { accept: 'application/x-ndjson' } })).text();
    expect(JSON.parse(line)).toMatchObject({ type: 'note-written', body: { text: 'over the wire' } });
    const again = await fetch(new URL('/api/events', served.url), {
      method: 'POST',
      headers: { 'content-type': 'application/x-ndjson' },
      body: line,
    });
    expect(await again.json()).toMatchObject({
      receipts: [{ outcome: 'already-recorded', position: head.size }],
    });
  });

  it('knows its own port: the same name with another one is refused', async () => {
    const { host, port } = new URL(served.url);
    expect(await askAs(host)).toBe(200);
    expect(await askAs(`localhost:${port}`)).toBe(200);
    expect(await askAs('127.0.0.1:1')).toBe(421);
    expect(await askAs('127.0.0.1')).toBe(421);
    expect(await askAs(`evil.example:${port}`)).toBe(421);
  });

  it('says so when the port is taken', async () => {
    const port = Number(new URL(served.url).port);
    await expect(serve({ app: woods.app, port })).rejects.toMatchObject({ code: 'EADDRINUSE' });
  });

  it('ends, and answers no more', async () => {
    const other = await serve({ app: woods.app, port: 0 });
    expect((await fetch(other.url)).status).toBe(200);
    await other.close();
    await expect(fetch(other.url)).rejects.toThrow();
  });

  it('is not held up at its end by a connection that was opened ahead and asks nothing', async () => {
    const other = await serve({ app: woods.app, port: 0 });
    const ahead = connect(other.port, '127.0.0.1');
    const cut = new Promise<void>((resolve) => ahead.once('close', () => resolve()));
    await new Promise<void>((resolve) => ahead.once('connect', () => resolve()));
    expect((await fetch(other.url)).status).toBe(200);
    await Promise.all([other.close(), cut]);
  }, 10_000);

  it('gives the whole answer to whoever asked before it ended', async () => {
    let answer: (given: Response) => void = () => undefined;
    const answered = new Promise<Response>((resolve) => (answer = resolve));
    let heard = (): void => undefined;
    const asked = new Promise<void>((resolve) => (heard = resolve));
    const slowly = () => {
      heard();
      return answered;
    };
    const other = await serve({ app: { fetch: slowly }, port: 0 });
    const got = fetch(other.url);
    await asked;
    const closed = other.close();
    answer(new Response('x'.repeat(1_000_000)));
    expect(await (await got).text()).toHaveLength(1_000_000);
    await closed;
  });
});
