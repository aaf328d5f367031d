// Local time without Intl, held against Temporal, which has its zones from Intl.
import { expect, test } from 'vitest';
import { localTime } from '../../cli/terminal/local-time.ts';
import { momentIn } from '../../src/events/index.ts';

const moments = ['2026-01-15T17:04:05.678Z', '2026-07-15T04:00:00.000Z', '2026-03-08T07:00:00.000Z'].map(
  Date.parse,
);

test('every listed zone has the offset that Temporal finds, in winter, in summer and when clocks change', () => {
  const zones = Intl.supportedValuesOf('timeZone');
  expect(zones.length).toBeGreaterThan(300);
  for (const zone of zones)
    for (const moment of moments) expect(localTime(zone, moment), zone).toBe(momentIn(zone, moment));
});

test('a zone that is not listed as it is written is left to Intl, and local time stays as it was', () => {
  const before = new Date(0).toString();
  expect(localTime('america/new_york', 0)).toBeUndefined();
  expect(localTime('Nowhere/Else', 0)).toBeUndefined();
  expect(localTime('Asia/Kathmandu', 0) ?? localTime('Asia/Katmandu', 0)).toBe(
    '1970-01-01T05:30:00.000+05:30',
  );
  expect(new Date(0).toString()).toBe(before);
});
