// What a device has saved is taken in as it is; what cannot be read is kept aside, and the rest goes on.
import { describe, expect, it } from 'vitest';
import { readStand, receive } from '../../src/record/index.ts';
import { lastEntry, type Woods, woods } from './woods.ts';

const received = '2026-03-20T15:00:00.000Z';
const phone = '01970000-0000-7000-8000-0000000000d1';
const id = (number: number) => `01970000-0000-7000-8000-${number.toString(16).padStart(12, '0')}`;

/** A line as a phone writes it, spaces and all: bytes are stored as they come, not as we would write them. */
function line(number: number, body: unknown, more: Record<string, unknown> = {}): string {
  return JSON.stringify(
    {
      id: id(number),
      type: 'stem-marked',
      v: 1,
      happenedAt: { at: '2026-03-20T09:00:00.000-04:00', precision: 'instant' },
      recordedAt: '2026-03-20T09:00:00.000-04:00',
      by: id(0xaa),
      device: phone,
      seq: number,
      body,
      ...more,
    },
    Object.keys({
      body: 0,
      by: 0,
      device: 0,
      happenedAt: 0,
      at: 0,
      precision: 0,
      id: 0,
      recordedAt: 0,
      seq: 0,
      type: 0,
      v: 0,
      mark: 0,
      tag: 0,
      stem: 0,
      text: 0,
      twigs: 0,
    }).sort(),
  );
}

const take = (here: Woods, lines: readonly string[]) =>
  receive(
    here.log,
    lines.map((text) => ({ bytes: new TextEncoder().encode(text) })),
    received,
  );

const mark = (number: number, tag: string) => line(number, { mark: 'cut', tag, stem: id(0x5000 + number) });

describe('an outbox', () => {
  it('goes in byte for byte; a second time nothing is added', async () => {
    const here = await woods();
    const lines = [mark(1, 'P1'), mark(2, 'P2')];
    expect(await take(here, lines)).toMatchObject({ recorded: 2, already: 0 });
    const size = await here.size();
    expect(await take(here, lines)).toMatchObject({ recorded: 0, already: 2 });
    expect(await here.size()).toBe(size);
    const stored = await here.log.get(id(2));
    expect(new TextDecoder().decode(stored?.bytes)).toBe(lines[1]);
  });

  it('is not asked about: a tag in use and a felled leave tree are recorded and become findings', async () => {
    const here = await woods();
    expect(await take(here, [mark(1, 'A12')])).toMatchObject({ recorded: 1 });
    const codes = (await readStand(here.log)).findings.map(({ code }) => code);
    expect(codes).toContain('tag-used-twice');
  });

  it('keeps both where an id comes with other bytes', async () => {
    const here = await woods();
    await take(here, [mark(1, 'P1')]);
    const result = await take(here, [mark(1, 'P9'), mark(2, 'P2')]);
    expect(result).toMatchObject({ recorded: 1, conflicts: 1 });
    const [aside] = await here.log.aside();
    expect(new TextDecoder().decode(aside?.bytes)).toBe(mark(1, 'P9'));
    expect(new TextDecoder().decode((await here.log.get(id(1)))?.bytes)).toBe(mark(1, 'P1'));
  });

  it('keeps unreadable lines aside and takes the later ones', async () => {
    const here = await woods();
    const lines = ['{"id": broken', line(3, { mark: 'maybe', stem: id(0x5003) }), mark(4, 'P4')];
    const result = await take(here, lines);
    expect(result.receipts.map(({ outcome }) => outcome)).toEqual(['unreadable', 'unreadable', 'recorded']);
    expect((await here.log.aside()).map(({ bytes }) => new TextDecoder().decode(bytes))).toEqual(
      lines.slice(0, 2),
    );
    const [, second] = result.receipts;
    expect(second?.outcome === 'unreadable' ? second.issue : undefined).toMatchObject({ field: 'body.mark' });
  });

  it('takes in a kind and a version of a newer program, unread', async () => {
    const here = await woods();
    const result = await take(here, [
      line(5, { twigs: 'many' }, { type: 'slash-piled' }),
      line(6, { twigs: 'many' }, { v: 9 }),
    ]);
    expect(result).toMatchObject({ recorded: 2, unreadable: 0 });
    const { standings } = await readStand(here.log);
    expect([standings.get(id(5)), standings.get(id(6))]).toEqual(['not readable here', 'not readable here']);
    expect((await lastEntry(here.log)).v).toBe(9);
  });
});
