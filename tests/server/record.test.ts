// What goes into the log over HTTP: the exact bytes of a device, and drafts that are asked about.
import { createHash } from 'node:crypto';
import { v7 as newUuid } from 'uuid';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { EventType, JsonObject } from '../../src/events/index.ts';
import { writeEntry } from '../../src/log/entry/index.ts';
import { type House, house } from './desk.ts';

let woods: House;
beforeEach(async () => {
  woods = await house();
});
afterEach(() => woods.end());

type LineReceipt = {
  line: number;
  outcome: string;
  id?: string;
  position?: number;
  aside?: number;
  issue?: { field: string; remedy: string };
};
type Answer = { receipts: LineReceipt[]; head: { size: number; root: string; text: string } };

const device = newUuid();
let seq = 0;

/** A line as a phone would send it: canonical bytes that this server did not write. */
function line(type: EventType, body: JsonObject, id = newUuid()): Uint8Array {
  seq += 1;
  return writeEntry({
    id,
    type,
    v: 1,
    happenedAt: { at: '2026-03-20T09:12:00-04:00', precision: 'minute' },
    recordedAt: '2026-03-20T09:12:31-04:00',
    by: newUuid(),
    device,
    seq,
    body,
  });
}

function lines(...parts: readonly (Uint8Array | string)[]): Uint8Array<ArrayBuffer> {
  return new Uint8Array(Buffer.concat(parts.map((part) => Buffer.from(part))));
}

async function send(body: Uint8Array<ArrayBuffer> | string): Promise<Answer> {
  const answer = await woods.ask('/api/events', {
    method: 'POST',
    headers: { 'content-type': 'application/x-ndjson' },
    body,
  });
  expect(answer.status).toBe(200);
  return (await answer.json()) as Answer;
}

async function draft(body: unknown) {
  const answer = await woods.ask('/api/events', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  return { status: answer.status, body: (await answer.json()) as Answer & Record<string, never> };
}

const size = async () => (await woods.log.head()).size;
const exactly = async (from: number) =>
  new Uint8Array(
    await (
      await woods.ask(`/api/events?from=${from}`, { headers: { accept: 'application/x-ndjson' } })
    ).arrayBuffer(),
  );

describe('entries of a device', () => {
  it('come out byte for byte as they went in', async () => {
    const before = await size();
    const body = lines(
      line('note-written', { text: 'Zwölf Eichen – “gut” \u{1f333}' }),
      '\n',
      line('note-written', { text: '\u2028 and a \\ and a "' }),
      '\n',
    );
    const { receipts, head } = await send(body);
    expect(receipts.map(({ line: number, outcome, position }) => ({ number, outcome, position }))).toEqual([
      { number: 1, outcome: 'recorded', position: before },
      { number: 2, outcome: 'recorded', position: before + 1 },
    ]);
    expect(head).toEqual({
      ...(await woods.log.head()),
      text: expect.stringMatching(/^21:[0-9a-f]{64}$/) as string,
    });
    expect(Buffer.from(await exactly(before)).equals(Buffer.from(body))).toBe(true);
    const page = (await (await woods.ask(`/api/events?from=${before}`)).json()) as {
      entries: { hash: string; entry: unknown }[];
    };
    const hashes = Buffer.from(body)
      .toString()
      .trimEnd()
      .split('\n')
      .map((text) => createHash('sha256').update(text).digest('hex'));
    expect(page.entries.map(({ hash }) => hash)).toEqual(hashes);
    expect(page.entries[0]?.entry).toEqual(JSON.parse(Buffer.from(body).toString().split('\n')[0] ?? ''));
  });

  it('sent again change nothing, and say where they are', async () => {
    const body = lines(line('note-written', { text: 'twice' }), '\n');
    const first = await send(body);
    const again = await send(body);
    expect(again.receipts[0]).toEqual({ ...first.receipts[0], outcome: 'already-recorded' });
    expect(again.head).toEqual(first.head);
  });

  it('with the id of another entry are shown as a conflict and kept aside', async () => {
    const id = newUuid();
    const first = line('note-written', { text: 'one' }, id);
    const second = line('note-written', { text: 'two' }, id);
    const { receipts } = await send(lines(first, '\n', second));
    expect(receipts[1]).toMatchObject({ line: 2, outcome: 'conflict', id, position: receipts[0]?.position });
    const [aside] = await woods.log.aside();
    expect(Buffer.from(aside?.bytes ?? []).equals(Buffer.from(second))).toBe(true);
    expect(receipts[1]?.aside).toBe(aside?.number);
  });

  it('that cannot be read are named by line and kept aside, and the others go in', async () => {
    const before = await size();
    const { receipts } = await send(
      lines(
        'nonsense\n\n',
        line('note-written', { text: 'good' }),
        '\r\n',
        line('stem-marked', { mark: 'maybe' }),
        '\n',
      ),
    );
    expect(receipts.map(({ line: number, outcome }) => [number, outcome])).toEqual([
      [1, 'unreadable'],
      [3, 'recorded'],
      [4, 'unreadable'],
    ]);
    expect(receipts[0]?.issue?.field).toBe('entry');
    expect(receipts[2]?.issue?.field).toMatch(/^body\./);
    expect(receipts[2]?.issue?.remedy).not.toBe('');
    expect(await woods.log.aside()).toHaveLength(2);
    expect(await size()).toBe(before + 1);
  });

  it('go in whatever they contradict, and become findings', async () => {
    const stems = (await (await woods.ask('/api/stand')).json()) as { stems: { id: string; tag: string }[] };
    const stem = stems.stems.find(({ tag }) => tag === 'A3')?.id ?? '';
    await send(line('stem-felled', { stem, came: 'down' }) as Uint8Array<ArrayBuffer>);
    const { findings } = (await (await woods.ask('/api/findings?group=G1')).json()) as {
      findings: { code: string }[];
    };
    expect(findings.map(({ code }) => code)).toContain('leave-tree-felled');
  });

  it('none at all is no error and no entry', async () => {
    const before = await woods.log.head();
    expect(await send('\n\n')).toMatchObject({ receipts: [], head: before });
    expect(woods.remembered()).toBe(0);
  });
});

describe('drafts', () => {
  it('are read as typed text and recorded', async () => {
    const { status, body } = await draft({
      kind: 'stem marked',
      fields: { mark: 'cut', tag: 'C7', species: 'northern red oak', dbh: '14.50 in' },
    });
    expect(status, JSON.stringify(body)).toBe(201);
    expect(body.receipts).toHaveLength(1);
    const { stems } = (await (await woods.ask('/api/stand')).json()) as {
      stems: { tag: string; dbh: { text: string; unit: string } }[];
    };
    expect(stems.find(({ tag }) => tag === 'C7')?.dbh).toMatchObject({ text: '14.50 in', unit: 'in' });
    expect(woods.remembered()).toBe(1);
  });

  it('with something wrong come back with every problem and are not recorded', async () => {
    const before = await size();
    const { status, body } = await draft({
      kind: 'stem-marked',
      fields: { species: 'oak', dbh: 'thick', tagg: 'x' },
    });
    expect(status).toBe(422);
    const problems = (body as unknown as { problems: { field: string; choices?: unknown[] }[] }).problems;
    expect(problems.map(({ field }) => field).sort()).toEqual(['dbh', 'mark', 'species', 'tagg']);
    expect(problems.find(({ field }) => field === 'species')?.choices?.length).toBeGreaterThan(1);
    expect(await size()).toBe(before);
  });

  it('that raise a question come back with it, and go in with the answer', async () => {
    const asked = { kind: 'stem-felled', fields: { stem: 'A3', came: 'down' } };
    const first = await draft(asked);
    expect(first.status).toBe(409);
    const { questions } = first.body as unknown as {
      questions: { code: string; choices: { answer: string }[] }[];
    };
    expect(questions.map(({ code }) => code)).toEqual(['holds-hung-up', 'leave-tree']);
    const answer = questions[0]?.choices[0]?.answer;
    expect((await draft({ ...asked, answers: [answer] })).status).toBe(201);
  });

  it('in a list are recorded together, a later one naming what an earlier one brought in', async () => {
    const { status, body } = await draft([
      { kind: 'group-laid-out', fields: { label: 'G7', block: 'Lower bench' } },
      { kind: 'stem-marked', fields: { mark: 'cut', tag: 'D1', group: 'G7' } },
      { kind: 'stem-felled', fields: { stem: 'D1', came: 'down' } },
    ]);
    expect(status, JSON.stringify(body)).toBe(201);
    expect(body.receipts.map(({ outcome }) => outcome)).toEqual(['recorded', 'recorded', 'recorded']);
    const one = (await (await woods.ask('/api/stand?group=G7')).json()) as {
      stems: { tag: string; status: string }[];
    };
    expect(one.stems).toMatchObject([{ tag: 'D1', status: 'felled' }]);
  });

  it('in a list are not recorded at all when one of them is wrong, and it is named', async () => {
    const before = await woods.log.head();
    const { status, body } = await draft([
      { kind: 'note-written', fields: { text: 'first' } },
      { kind: 'note-writen', fields: { text: 'second' } },
    ]);
    expect(status).toBe(422);
    expect(body).toMatchObject({
      draft: 1,
      problems: [{ field: 'kind', remedy: expect.stringContaining('note-written') as string }],
    });
    expect(await woods.log.head()).toEqual(before);
  });

  it('sent at the same time do not both take a free tag', async () => {
    const mark = () => draft({ kind: 'stem-marked', fields: { mark: 'cut', tag: 'E1' } });
    const statuses = (await Promise.all([mark(), mark(), mark()])).map(({ status }) => status);
    expect(statuses).toEqual([201, 409, 409]);
  });

  it('cannot make the server read a file of this machine', async () => {
    const { status, body } = await draft({
      kind: 'photo-taken',
      fields: { photo: '/etc/hostname', of: 'the stump' },
    });
    expect(status).toBe(422);
    expect(JSON.stringify(body)).toContain('command line');
    expect(JSON.stringify(body)).not.toContain('secret');
  });
});
