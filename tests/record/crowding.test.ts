/** Stems that stand closer than stems do: the published coordinates without their quadrat offset, and real woods. */
import { describe, expect, test } from 'vitest';
import { knownBadDrafts, liveStems } from '../../fixtures/scbi/census.ts';
import { crowdingQuestions } from '../../src/record/index.ts';
import { fold } from '../../src/stand/index.ts';
import { pen, uuid } from '../stand/entries.ts';

type Stem = Readonly<{ easting: number; northing: number; dbh?: string }>;
const bad = (): Stem[] =>
  knownBadDrafts().map(({ fields }) => {
    const [, easting = '', northing = ''] = /^EPSG:26917 (\S+), (\S+)$/.exec(String(fields.position)) ?? [];
    return { easting: Number(easting), northing: Number(northing), dbh: String(fields.dbh) };
  });
const census = (): Stem[] =>
  liveStems().map(({ utm_e, utm_n, dbh_mm }) => ({
    easting: Number(utm_e),
    northing: Number(utm_n),
    dbh: `${dbh_mm} mm`,
  }));

/** What is asked when these stems come as one import; `before` stand in the logbook already. */
function asked(stems: readonly Stem[], before: readonly Stem[] = [], crs = 'EPSG:26917') {
  const write = pen();
  const entries = [
    write('logbook-opened', { name: 'Woods', zone: 'America/New_York', units: 'metric', crs }),
  ];
  const imported = new Set<string>();
  for (const [index, { easting, northing, dbh }] of [...before, ...stems].entries()) {
    const stem = uuid(0x51_0000 + index);
    if (index >= before.length) imported.add(stem);
    const [value = '', unit = ''] = (dbh ?? '').split(' ');
    entries.push(
      write('stem-marked', {
        stem,
        mark: 'leave',
        tag: String(index),
        position: { how: 'grid', crs: 'EPSG:26917', easting: String(easting), northing: String(northing) },
        ...(dbh === undefined ? {} : { dbh: { text: dbh, value, unit } }),
      }),
    );
  }
  return crowdingQuestions(fold(entries), imported).map(({ sentence }) => sentence);
}

const moved = (stems: readonly Stem[], east: number, north: number) =>
  stems.map((stem) => ({ ...stem, easting: stem.easting + east, northing: stem.northing + north }));

describe('coordinates whose quadrat offset was left out', () => {
  test('are questioned, with how many stems stand in how small a square', () => {
    const [sentence = '', ...more] = asked(bad());
    expect(more).toEqual([]);
    // All 400 lie within 20.2 × 20.2 m (counted in the file), so a square of 20 m holds nearly all of them.
    const count = Number(/^(\d+) stems stand in one square of 20 × 20 m/.exec(sentence)?.[1]);
    expect(count).toBeGreaterThan(370);
    expect(count).toBeLessThanOrEqual(400);
    expect(sentence).toMatch(/Was an offset between quadrats left out/);
  });

  test('are questioned wherever the square falls, for it is not laid on a fixed grid', () => {
    for (const [east, north] of [
      [5, 0],
      [0, 7],
      [10, 10],
      [13.4, 16.7],
    ] as const) {
      expect(asked(moved(bad(), east, north))).toHaveLength(1);
    }
  });

  test('are questioned when the logbook works in US survey feet', () => {
    expect(asked(bad(), [], 'EPSG:2264')).toHaveLength(1);
  });

  test('are questioned by their number alone where no DBH was taken', () => {
    expect(asked(bad().map(({ easting, northing }) => ({ easting, northing })))).toHaveLength(1);
  });

  test('are questioned by their basal area where there are too few for a crowd', () => {
    const large = bad().filter(({ dbh = '' }) => Number.parseFloat(dbh) >= 100);
    expect(large.length).toBeLessThan(250);
    expect(asked(large)).toHaveLength(1);
  });
});

describe('what woods do carry', () => {
  test('the real census of the same plot is not questioned: 101 stems at most in any such square', () => {
    expect(asked(census())).toEqual([]);
  });

  test('the same rows spread over their quadrats are not questioned', () => {
    // Each further row one quadrat on, as the offset would have put stems of different quadrats apart.
    const spread = bad().map((stem, index) => ({ ...stem, easting: stem.easting + 20 * (index % 40) }));
    expect(asked(spread)).toEqual([]);
  });

  test('a crowd that stands in the logbook already is not asked about again with every import', () => {
    expect(asked(moved(census(), 0, 2000), bad())).toEqual([]);
  });

  test('five giants on one spot are no crowd: 1.2 m² of basal area each, 150 m² per hectare', () => {
    const giants = [0, 3, 6, 9, 12].map((north) => ({
      easting: 747600,
      northing: 4308700 + north,
      dbh: '124 cm',
    }));
    const far = moved(census(), 0, 2000).slice(0, 50);
    expect(asked([...giants, ...far])).toEqual([]);
  });
});
