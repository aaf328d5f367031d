// The file route: a phone's outbox goes in at the desk, and a copy of the logbook goes out to the phone.
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { type ExchangeLine, readExchangeLine } from '../../src/log/entry/index.ts';
import { fileOf, markOf, phone, rowOf } from '../record/phone.ts';
import { started } from './gapledger.ts';

type Log = { kind: string; entry: { id: string; device: string; position: number } }[];
type Status = { head: { text: string }; rowsAwaited?: number };

function linesOf(file: string): ExchangeLine[] {
  return readFileSync(file, 'utf8')
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => {
      const reading = readExchangeLine(line);
      if (!reading.ok) throw new Error(JSON.stringify(reading.issue));
      return reading.line;
    });
}

it('from a phone to the desk and back: every entry arrives with its signature, its rows and its receipt', () => {
  const { done, json, path } = started();
  const jo = phone();
  const person = phone().device;
  const name = rowOf('Jo Sawyer');
  const picture = rowOf(Uint8Array.of(0xff, 0xd8, 0xff), 'image/jpeg');
  const outbox: ExchangeLine[] = [
    {
      ...jo.write('person-named', { person, name: name.hash }, { sealed: [name.hash], by: person }),
      sealed: [name],
    },
    jo.write('device-paired', { device: jo.device, label: "Jo's phone", publicKey: jo.publicKey, person }),
    jo.write('stem-marked', markOf('P1'), { by: person }),
    {
      ...jo.write(
        'photo-taken',
        { photo: picture.hash, mediaType: 'image/jpeg' },
        { sealed: [picture.hash] },
      ),
      sealed: [picture],
    },
  ];
  writeFileSync(path('outbox.jsonl'), fileOf(outbox));
  expect(done(['record', '--from', 'outbox.jsonl', '--dry-run'])).toMatch(
    /4 would be recorded, 0 already recorded, 0 in conflict, 0 unreadable\. Nothing was recorded\.\nline 1: would be recorded\./,
  );
  expect(json<Log>(['log'])).toHaveLength(2);
  expect(done(['record', '--from', 'outbox.jsonl'])).toContain('4 recorded');
  expect(done(['record', '--from', 'outbox.jsonl'])).toContain('0 recorded, 4 already recorded');
  expect(done(['log'])).toContain("Jo's phone paired for Jo Sawyer, signs its entries");

  expect(done(['log', '--copy', 'copy.jsonl'])).toContain('copy.jsonl: 6 entries. Head: 6:');
  const copy = linesOf(path('copy.jsonl'));
  expect(copy.map(({ receipt }) => receipt?.position)).toEqual([0, 1, 2, 3, 4, 5]);
  expect(copy.slice(2).map(({ bytes, signature }) => [bytes, signature])).toEqual(
    outbox.map(({ bytes, signature }) => [bytes, signature]),
  );
  expect(copy[2]?.sealed?.map(({ bytes }) => Buffer.from(bytes).toString())).toEqual(['Jo Sawyer']);
  expect(copy[5]?.sealed, 'photos are not in a copy').toBeUndefined();
  expect(readdirSync(path('.')).filter((file) => file.includes('.part-'))).toEqual([]);
  // The copy brings nothing that is new here.
  expect(done(['record', '--from', 'copy.jsonl'])).toContain('0 recorded, 6 already recorded');
});

it('a copy is whole or not made', () => {
  const { run, path } = started();
  const { code, error } = run(['log', '--copy', 'copy.jsonl', '--last', '1']);
  expect([code, error]).toEqual([2, expect.stringContaining('a copy holds all entries')]);
  expect(existsSync(path('copy.jsonl'))).toBe(false);
  expect(run(['log', '--copy', '/dev/null/copy.jsonl']).code).toBe(1);
});

it('a photo that has not come yet is awaited, not missed, and counted until it is here', () => {
  const { done, json, path, run } = started();
  const picture = rowOf(Uint8Array.of(0xff, 0xd8, 0xff), 'image/jpeg');
  const line = phone().write(
    'photo-taken',
    { photo: picture.hash, mediaType: 'image/jpeg' },
    { sealed: [picture.hash] },
  );
  writeFileSync(path('outbox.jsonl'), fileOf([line]));
  done(['record', '--from', 'outbox.jsonl']);
  expect(json<Status>(['status'])).toMatchObject({ rowsAwaited: 1 });
  expect(done(['status'])).toContain('1 photo has not come yet');
  expect(run(['verify'])).toMatchObject({
    code: 0,
    out: expect.stringContaining('1 photo has not come yet') as string,
  });
  done(['backup', 'backup.logbook']);
  writeFileSync(path('again.jsonl'), fileOf([{ ...line, sealed: [picture] }]));
  done(['record', '--from', 'again.jsonl']);
  expect(done(['status'])).not.toContain('has not come yet');
  expect(done(['verify'])).not.toContain('has not come yet');
});

it('verify names the first entry with a wrong signature, counts the others, and ends with 3', () => {
  const { done, json, path, run } = started();
  const jo = phone();
  const person = phone().device;
  const forged = phone(jo.device).write('note-written', { text: 'forged' });
  // Before the logbook knows the key, nobody can tell; afterwards verify can.
  writeFileSync(
    path('forged.jsonl'),
    fileOf([
      { ...forged, signature: { ...jo.sign(forged.bytes), signature: forged.signature?.signature ?? '' } },
    ]),
  );
  done(['record', '--from', 'forged.jsonl']);
  expect(run(['verify']).code).toBe(0);
  done([
    'record',
    'device-paired',
    '--device',
    jo.device,
    '--label',
    "Jo's phone",
    '--public-key',
    jo.publicKey,
    '--person',
    'Ann Weaver',
  ]);
  writeFileSync(path('good.jsonl'), fileOf([jo.write('note-written', { text: 'rain' }, { by: person })]));
  done(['record', '--from', 'good.jsonl']);
  const { code, error } = run(['verify']);
  expect([code, error]).toEqual([3, expect.stringMatching(/^entry 2: .*signature/)]);
  const { out } = run(['verify', '--json']);
  expect(JSON.parse(out)).toMatchObject({
    ok: false,
    problems: [{ position: 2, what: 'signature' }],
    notes: { signatures: { signed: 2, unsigned: 3, keyUnknown: 0 } },
  });
  expect(json<Log>(['log'])).toHaveLength(5);
});
