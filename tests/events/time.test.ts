// Times as people write them. What a change of clocks does to a local time is held against the laws that
// set the changes and against the zoneinfo module of Python, which reads the IANA database by itself.
import { execFileSync } from 'node:child_process';
import { describe, expect, it, test } from 'vitest';
import { isZone, momentIn, readTime } from '../../src/events/index.ts';
import { needs } from '../needs.ts';

const now = '2026-03-06T23:30:00-05:00';

function read(text: string, zone = 'America/New_York') {
  const reading = readTime(text, zone, now);
  return reading.ok ? reading.value : reading;
}

test('where the logbook names a zone that this machine does not know, times are read and written in UTC', () => {
  expect(read('2026-03-14 09:30', 'Mars/Base')).toEqual({
    at: '2026-03-14T09:30:00+00:00',
    precision: 'minute',
  });
  expect(read('today', 'Mars/Base')).toEqual({ at: '2026-03-07T00:00:00+00:00', precision: 'day' });
  expect(momentIn('Mars/Base', Date.UTC(2026, 2, 7, 4, 30))).toBe('2026-03-07T04:30:00.000+00:00');
});

describe('a time as entered', () => {
  it.each([
    ['2026-03-14 09:30', '2026-03-14T09:30:00-04:00', 'minute'],
    ['2026-03-04 9:05', '2026-03-04T09:05:00-05:00', 'minute'],
    ['2026-03-04T09:05:07', '2026-03-04T09:05:07-05:00', 'instant'],
    ['2026-03-04 09:05:07.250', '2026-03-04T09:05:07.250-05:00', 'instant'],
    ['2026-03-04', '2026-03-04T00:00:00-05:00', 'day'],
    ['today', '2026-03-06T00:00:00-05:00', 'day'],
    ['yesterday', '2026-03-05T00:00:00-05:00', 'day'],
    ['yesterday 14:00', '2026-03-05T14:00:00-05:00', 'minute'],
    ['09:30', '2026-03-06T09:30:00-05:00', 'minute'],
    ['2026-03-04T14:05:07Z', '2026-03-04T14:05:07Z', 'instant'],
    ['2026-03-04 14:05 +05:45', '2026-03-04T14:05:00+05:45', 'minute'],
  ] as const)('%s is %s, known to the %s', (text, at, precision) => {
    expect(read(text)).toEqual({ at, precision });
  });

  it('"today" is the day in the woods, not where the clock counts from', () => {
    // Half past eleven at night in New York is the next morning in Kathmandu (UTC+05:45).
    expect(readTime('today', 'Asia/Kathmandu', now)).toEqual({
      ok: true,
      value: { at: '2026-03-07T00:00:00+05:45', precision: 'day' },
    });
  });

  it.each(['2026-02-30', '2026-13-01 09:00', '2026-03-04 24:30', '2026-03-04 09:61'])(
    '%s is in no calendar',
    (text) => {
      expect(read(text)).toMatchObject({ ok: false, remedy: 'there is no such day or time in the calendar' });
    },
  );

  it.each(['', 'tomorrow', '3/4/2026', '2026-03-04 9h30', 'last week'])(
    '"%s" is refused with the ways to write it',
    (text) => expect(read(text)).toMatchObject({ ok: false, remedy: /^write 2026-03-14/ }),
  );
});

type Change = {
  zone: string;
  law: string;
  skipped: [string, string, string];
  twice: [string, string, string];
};
const changes: Change[] = [
  {
    zone: 'America/New_York',
    law: 'Energy Policy Act of 2005 (US), section 110: second Sunday of March, first Sunday of November, 2 am',
    skipped: ['2026-03-08 02:30', '2026-03-08T01:30:00-05:00', '2026-03-08T03:30:00-04:00'],
    twice: ['2026-11-01 01:30', '2026-11-01T01:30:00-04:00', '2026-11-01T01:30:00-05:00'],
  },
  {
    zone: 'Europe/Berlin',
    law: 'Directive 2000/84/EC: last Sundays of March and October, 01:00 UTC',
    skipped: ['2026-03-29 02:15', '2026-03-29T01:15:00+01:00', '2026-03-29T03:15:00+02:00'],
    twice: ['2026-10-25 02:15', '2026-10-25T02:15:00+02:00', '2026-10-25T02:15:00+01:00'],
  },
  {
    zone: 'Australia/Adelaide',
    law: 'Daylight Saving Act 1971 (South Australia): first Sundays of October and April; UTC+09:30',
    skipped: ['2026-10-04 02:30', '2026-10-04T01:30:00+09:30', '2026-10-04T03:30:00+10:30'],
    twice: ['2026-04-05 02:30', '2026-04-05T02:30:00+10:30', '2026-04-05T02:30:00+09:30'],
  },
  {
    zone: 'Australia/Lord_Howe',
    law: 'Standard Time Act 1987 (New South Wales): half an hour at Lord Howe Island, first Sundays of October and April',
    skipped: ['2026-10-04 02:15', '2026-10-04T01:45:00+10:30', '2026-10-04T02:45:00+11:00'],
    twice: ['2026-04-05 01:45', '2026-04-05T01:45:00+11:00', '2026-04-05T01:45:00+10:30'],
  },
];

describe.each(changes)('in $zone ($law)', ({ zone, skipped, twice }) => {
  const choices = (text: string) => {
    const reading = readTime(text, zone, now);
    return reading.ok ? undefined : reading.choices?.map(({ value }) => value.at);
  };

  it('a time that the clocks passed over is asked back with the times before and after', () => {
    expect(choices(skipped[0])).toEqual([skipped[1], skipped[2]]);
    expect(readTime(skipped[0], zone, now)).toMatchObject({ remedy: /did not happen that day/ });
  });

  it('a time that came twice is asked back with both', () => {
    expect(choices(twice[0])).toEqual([twice[1], twice[2]]);
    expect(readTime(twice[0], zone, now)).toMatchObject({ remedy: /happened twice that day/ });
  });

  it('with its offset it is taken', () => {
    expect(readTime(twice[1], zone, now)).toEqual({
      ok: true,
      value: { at: twice[1], precision: 'instant' },
    });
  });
});

test('a day that a zone skipped whole has a start all the same (Samoa, 30 December 2011)', () => {
  // IANA tz database, file australasia: Pacific/Apia went from UTC-10 to UTC+14 at the end of 29 December 2011.
  expect(readTime('2011-12-31', 'Pacific/Apia', now)).toMatchObject({ ok: true });
  expect(readTime('2011-12-30 12:00', 'Pacific/Apia', now)).toMatchObject({
    ok: false,
    remedy: /did not happen/,
  });
});

test('a day whose midnight the clocks passed over ends when it ends, 24 hours after what is written', () => {
  // IANA tz database, file southamerica: America/Santiago puts its clocks forward at 24:00 on 5 September 2026.
  const reading = readTime('2026-09-06', 'America/Santiago', now);
  expect(reading).toEqual({ ok: true, value: { at: '2026-09-06T00:00:00-03:00', precision: 'day' } });
  const end = Date.parse('2026-09-06T00:00:00-03:00') + 86_400_000;
  expect(momentIn('America/Santiago', end)).toBe('2026-09-07T00:00:00.000-03:00');
});

test('zones are known by their IANA names', () => {
  expect(isZone('America/New_York')).toBe(true);
  expect(isZone('Australia/Lord_Howe')).toBe(true);
  expect(isZone('Wakulla/Springs')).toBe(false);
  expect(isZone('')).toBe(false);
});

test('a moment is written with the offset that the zone has then', () => {
  expect(momentIn('America/New_York', Date.UTC(2026, 0, 15, 12))).toBe('2026-01-15T07:00:00.000-05:00');
  expect(momentIn('America/New_York', Date.UTC(2026, 6, 15, 12))).toBe('2026-07-15T08:00:00.000-04:00');
  expect(momentIn('America/St_Johns', Date.UTC(2026, 0, 15, 12))).toBe('2026-01-15T08:30:00.000-03:30');
});

// Every quarter of an hour of the days round the changes of 2026. Python tells a gap by a time that
// does not come back from UTC as it went, and a fold by offsets that differ (PEP 495).
const program = `
import json, sys
from datetime import datetime, timedelta, timezone
from zoneinfo import ZoneInfo
answers = []
for name, text in json.load(sys.stdin):
    zone = ZoneInfo(name)
    local = datetime.fromisoformat(text)
    moments = [local.replace(tzinfo=zone, fold=fold).astimezone(timezone.utc) for fold in (0, 1)]
    back = [moment.astimezone(zone).replace(tzinfo=None) for moment in moments]
    if back[0] != local: answers.append('gap')
    elif moments[0] != moments[1]: answers.append('twice')
    else: answers.append(moments[0].isoformat())
print(json.dumps(answers))
`;

describe.skipIf(!needs('python3'))('Python reads local times as we do', () => {
  it.each([
    'America/New_York',
    'America/St_Johns',
    'America/Santiago',
    'Europe/London',
    'Europe/Lisbon',
    'Asia/Kathmandu',
    'Asia/Kolkata',
    'Australia/Adelaide',
    'Australia/Lord_Howe',
    'Pacific/Chatham',
  ])('in %s', (zone) => {
    const texts = quartersRoundChanges();
    const input = JSON.stringify(texts.map((text) => [zone, text]));
    const answers = JSON.parse(
      execFileSync('python3', ['-c', program], { input, encoding: 'utf8' }),
    ) as string[];
    const ours = texts.map((text) => {
      const reading = readTime(text, zone, now);
      if (reading.ok) return new Date(reading.value.at).toISOString().replace('.000Z', '+00:00');
      return /twice/.test(reading.remedy) ? 'twice' : 'gap';
    });
    expect(ours).toEqual(answers);
    expect(answers.length).toBeGreaterThan(800);
    if (!zone.startsWith('Asia')) expect(new Set(answers)).toContain('gap');
  });
});

/** Local times of the Sundays, and of the days before them, in the months in which clocks are changed. */
function quartersRoundChanges(): string[] {
  const texts: string[] = [];
  for (let day = Date.UTC(2026, 0, 1); day < Date.UTC(2027, 0, 1); day += 86_400_000) {
    const date = new Date(day);
    const month = date.getUTCMonth() + 1;
    if (![3, 4, 9, 10, 11].includes(month) || (date.getUTCDay() !== 0 && date.getUTCDay() !== 6)) continue;
    for (let quarter = 0; quarter < 20; quarter += 1)
      texts.push(new Date(day + quarter * 900_000).toISOString().slice(0, 16).replace('T', ' '));
  }
  return texts;
}
