// Bringing files in by command: what is shown, what is asked, what is recorded, and how it is taken out again. The files are
// real ones: GPX of gpxpy's tests and of hikes, and the SCBI forest plot. Licence and credit: LICENCE.txt beside them.
import { execFileSync } from 'node:child_process';
import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { needs } from '../needs.ts';
import { type Place, started } from './gapledger.ts';

type Planned = {
  wouldRecord: number;
  doubts: { code: string; choices: { answer: string }[] }[];
  entries: { kind: string }[];
  problems: unknown[];
};
type Stand = { json: <T>(words: readonly string[]) => T };

function withFile(place: Place, fixture: string, name = fixture.split('/').at(-1) ?? fixture): string {
  copyFileSync(fileURLToPath(new URL(`../../fixtures/${fixture}`, import.meta.url)), place.path(name));
  return name;
}

const size = ({ json }: Stand): number => json<{ head: { size: number } }>(['status']).head.size;

const tally =
  'Tag,Species,DBH (in),Mark,Date\nC1,white oak,14.2,cut,2026-03-02\nC2,red maple,9.0,leave,2026-03-02\n';

describe('gapledger import', () => {
  it('shows with --dry-run what it would record, and records the same without it', () => {
    const place = started();
    writeFileSync(place.path('tally.csv'), tally);
    const before = size(place);
    const shown = place.done(['import', 'tally.csv', '--dry-run']);
    expect(shown).toContain('Would record 3 entries in one batch');
    expect(shown).toContain('line 2: stem-marked mark cut, tag C1, species white oak, dbh 14.2 in');
    expect(shown).toMatch(/No doubt is open.*\nNothing was recorded\.\n$/);
    const planned = place.json<Planned>(['import', 'tally.csv', '--dry-run']);
    expect(planned).toMatchObject({ wouldRecord: 3, doubts: [], problems: [] });
    expect(size(place)).toBe(before);
    expect(place.done(['import', 'tally.csv'])).toContain('tally.csv: 2 entries recorded after entry');
    expect(size(place)).toBe(before + 3);
  });

  it('ends with exit code 2 and the answers there are while a doubt is open; each answer given closes one', () => {
    const place = started();
    writeFileSync(
      place.path('tally.csv'),
      tally.replace('DBH (in)', 'DBH').replaceAll('2026-03-02', '3/4/2026'),
    );
    const before = size(place);
    const asked = place.run(['import', 'tally.csv']);
    expect(asked.code).toBe(2);
    expect(asked.error).toContain('--answer unit-dbh=in: inches');
    expect(asked.error).toContain('--answer day-month=month-first');
    expect(asked.error).toMatch(/Nothing was recorded\.\n$/);
    const half = place.run(['import', 'tally.csv', '--answer', 'unit-dbh=in', '--json']);
    expect(half.code).toBe(2);
    expect((JSON.parse(half.out) as Planned).doubts.map(({ code }) => code)).toEqual(['day-month']);
    expect(size(place)).toBe(before);
    place.done(['import', 'tally.csv', '--answer', 'unit-dbh=in', 'day-month=month-first']);
    expect(size(place)).toBe(before + 3);
  });

  it('is taken out by one strike, and asks when the very same file comes again', () => {
    const place = started();
    writeFileSync(place.path('tally.csv'), tally);
    const { receipts } = place.json<{ receipts: { position: number }[] }>(['import', 'tally.csv']);
    const stems = () => place.json<{ stems: unknown[] }>(['stand']).stems.length;
    expect(stems()).toBe(2);
    const first = String(receipts[0]?.position);
    place.done(['record', 'entry-struck', '--strikes', first, '--reason', 'the wrong woods']);
    expect(stems()).toBe(0);
    // A struck import is out of the stand, so its file may come in again unasked.
    place.done(['import', 'tally.csv']);
    expect(stems()).toBe(2);
    const again = place.run(['import', 'tally.csv']);
    expect(again.code).toBe(2);
    expect(again.error).toContain('--answer imported-before=again');
    expect(again.error).toContain('--answer tag-in-use=leave-out');
    expect(place.done(['verify'])).toContain('Verified');
  });
});

describe('files as people have them', () => {
  it('a census in millimetres with codes of its own is read by a mapping, which is remembered by name', () => {
    const place = started();
    const census = withFile(place, 'scbi/stems_60x80m_2013.csv', 'census.csv');
    const asked = ['--only', 'status=alive', '--own-list', 'scbi', '--at', '2013-10-01'];
    const answers = ['species=own-list', 'identical-positions=as-written', 'sentinel-dbh=leave-out'];
    const mapping = [
      '--column',
      'tag=tag+stemTag',
      '--set',
      'mark=leave',
      '--crs',
      'EPSG:26917',
      '--map',
      'census',
    ];
    place.done(['import', census, ...asked, ...mapping, '--answer', ...answers]);
    expect(place.json<{ stems: unknown[] }>(['stand']).stems).toHaveLength(407);
    // Two rows of another day, read by the name alone.
    const [heading = '', ...rows] = readFileSync(place.path(census), 'utf8').split('\n');
    const alive = rows.filter((row) => /\balive\b/.test(row)).slice(0, 2);
    writeFileSync(place.path('next.csv'), [heading, ...alive].join('\n'));
    const { doubts } = place.json<Planned>(['import', 'next.csv', ...asked, '--map', 'census', '--dry-run']);
    expect(doubts.map(({ code }) => code)).toEqual(['species', 'tag-in-use']);
  });

  it('the coordinates of 2008 that put a whole plot into one square are questioned and not recorded', () => {
    const place = started();
    const bad = withFile(place, 'scbi/KNOWN_BAD_utm_400rows.csv', 'bad.csv');
    const before = size(place);
    const words = ['import', bad, '--set', 'mark=leave', '--crs', 'EPSG:26917', '--at', '2008-10-01'];
    const { code, out } = place.run([...words, '--answer', 'species=own-list', '--json']);
    expect(code).toBe(2);
    expect((JSON.parse(out) as Planned).doubts.map((doubt) => doubt.code)).toEqual([
      'identical-positions',
      'crowded',
    ]);
    expect(size(place)).toBe(before);
  });

  it('corners, outline, streams, road and fence of a plot go in one after the other', () => {
    const place = started();
    const at = ['--at', '2013-10-01'];
    const bring = (fixture: string, ...words: string[]) =>
      place.done(['import', withFile(place, `scbi/${fixture}`), ...at, ...words]);
    const east = ['--column', 'label=Point', 'x=UTM Zone 17S Easting', 'y=UTM Zone 17S Northing'];
    bring('utm_plot_corners.csv', '--as', 'stakes', '--crs', 'EPSG:26917', ...east);
    bring(
      'ForestGEO_grid_outline.geojson',
      '--as',
      'boundary',
      '--set',
      'name=Plot',
      '--answer',
      'boundary-from=map',
    );
    const features = ['--as', 'features'];
    bring('SCBI_streams_clipped_to_plot.geojson', ...features, '--set', 'what=stream');
    bring(
      'SCBI_roads_clipped_to_plot.geojson',
      ...features,
      '--set',
      'what=road',
      '--column',
      'label=ROAD_NAME',
    );
    bring('deer_exclosure_2011.geojson', ...features, '--set', 'what=structure', 'label=deer exclosure');
    const said = place.done(['figures', 'buffers', '--width', '30 m']);
    expect(said).toContain('deer exclosure');
    expect(said).toContain('stream 4');
    expect(said).not.toContain('Stems in them');
    expect(place.done(['verify'])).toContain('Verified');
  });

  it.skipIf(!needs('ogr2ogr')).each(['EPSG:26917', 'EPSG:2283'])(
    'a shapefile that GDAL wrote in %s needs nobody to say its system',
    (crs) => {
      const place = started();
      const origin = fileURLToPath(
        new URL('../../fixtures/scbi/SCBI_roads_clipped_to_plot.geojson', import.meta.url),
      );
      execFileSync('ogr2ogr', [place.path('roads.shp'), origin, '-t_srs', crs], { stdio: 'pipe' });
      const words = ['--as', 'features', '--set', 'what=road', '--at', '2013-10-01', '--dry-run'];
      expect(place.json(['import', 'roads.shp', ...words])).toMatchObject({ crs, doubts: [], problems: [] });
    },
  );

  it('waypoints become stakes, and a track the walked edge of an opening', () => {
    const place = started();
    const points = withFile(place, 'gpx/cerknicko-jezero.gpx');
    expect(place.run(['import', points]).code).toBe(2);
    const { entries } = place.json<Planned>(['import', points, '--as', 'stakes', '--answer', 'no-date=now']);
    expect(new Set(entries.map(({ kind }) => kind))).toEqual(new Set(['stake-set']));
    const track = withFile(place, 'gpx/Mojstrovka.gpx');
    place.done(['record', 'group-laid-out', '--label', 'G1']);
    const edge = ['import', track, '--as', 'edge', '--set', 'group=G1'];
    expect(place.done(edge)).toContain('1 entry recorded');
  });
});

describe('what cannot be brought in', () => {
  const bytes = (text: string) => new TextEncoder().encode(text);
  it.each<
    readonly [what: string, content: Uint8Array | undefined, words: readonly string[], sentence: string]
  >([
    ['a file that is not there', undefined, [], 'there is no such file'],
    ['an empty file', new Uint8Array(), [], 'Nothing was recorded'],
    [
      'a picture',
      new Uint8Array([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0, 0, 13]),
      [],
      'Nothing was recorded',
    ],
    ['XML with entities', bytes('<!DOCTYPE gpx [<!ENTITY a "a">]><gpx/>'), [], 'document type'],
    [
      'JSON that is no GeoJSON',
      bytes('{"type":"Feature","geometry":{"type":"Point"}}'),
      [],
      'no valid GeoJSON',
    ],
    [
      'a mapping to a column that is not there',
      bytes(tally),
      ['--column', 'tag=Nr'],
      'the file has no such column',
    ],
    ['a thing that there is none of', bytes(tally), ['--as', 'trees'], 'write one of stems, stakes'],
    ['a table as a boundary', bytes(tally), ['--as', 'boundary'], 'the file holds nothing for it'],
    ['an answer without its question', bytes(tally), ['--answer', 'yes'], 'write it as it is proposed'],
    ['a system of coordinates that is not shipped', bytes(tally), ['--crs', 'EPSG:1'], 'EPSG:1'],
    ['a person nobody named', bytes(tally), ['--by', 'Nobody'], '--by "Nobody"'],
  ])('%s: exit code 2 and a sentence; the log stays as it is', (_what, content, words, sentence) => {
    const place = started();
    if (content !== undefined) writeFileSync(place.path('file'), content);
    const before = size(place);
    const { code, out, error } = place.run(['import', 'file', ...words]);
    expect(`${code} ${error}`).toMatch(/^2 /);
    expect(error).toContain(sentence);
    expect(out).toBe('');
    expect(size(place)).toBe(before);
  });

  it('without a logbook it ends with exit code 5', () => {
    const place = started();
    writeFileSync(place.path('tally.csv'), tally);
    expect(place.run(['import', 'tally.csv', '--logbook', 'none.logbook']).code).toBe(5);
  });
});

describe('the tally sheet', () => {
  const headingOf = (place: Place, words: readonly string[]): string => {
    const { path } = place.json<{ path: string }>(['sheet', ...words]);
    const [, line = ''] =
      /the first line is: (.*?) \(a column/.exec(readFileSync(place.path(path), 'utf8')) ?? [];
    return line.replaceAll('&quot;', '"');
  };

  it.each([
    ['us', 'A1,white oak,14.2,leave,72,A,135,42,fine crown', 'in'],
    ['metric', 'A1,white oak,36.1,leave,22,A,135,12.8,fine crown', 'cm'],
  ])('with the usual %s columns comes back without a mapping or a doubt', (units, row, unit) => {
    const place = started();
    place.done(['record', 'stake-set', '--label', 'A', '--position', '35.7121, -81.6834']);
    writeFileSync(place.path('typed.csv'), `${headingOf(place, ['--units', units])}\n${row}\n`);
    const words = ['import', 'typed.csv', '--at', '2026-03-14'];
    expect(place.json<Planned>([...words, '--dry-run'])).toMatchObject({
      doubts: [],
      problems: [],
      wouldRecord: 3,
    });
    place.done(words);
    const { stems } = place.json<{ stems: { tag: string; dbh: { unit: string } }[] }>(['stand']);
    expect(stems).toMatchObject([{ tag: 'A1', dbh: { unit } }]);
  });

  it('with columns of one’s own comes back with what they are read as; a column that is not read is named', () => {
    const place = started();
    const own = ['Tree no', 'Sp', 'Girth band', 'DBH (cm)', 'Mark', 'Reason'];
    const heading = headingOf(place, ['--columns', ...own]);
    expect(heading).toBe(own.join(','));
    writeFileSync(place.path('typed.csv'), `${heading}\n7,QUAL,b,36.5,cut,hollow\n`);
    const said = place.done(['import', 'typed.csv', '--at', '2026-03-14']);
    expect(said).toContain('columns that are not read: Girth band');
    const { stems } = place.json<{ stems: object[] }>(['stand']);
    expect(stems).toMatchObject([{ tag: '7', mark: 'cut', dbh: { value: '36.5', unit: 'cm' } }]);
  });

  it.each([
    [['--rows', '40'], '--rows "40"'],
    [['--units', 'imperial'], '--units "imperial"'],
    [['--columns', ...Array.from({ length: 15 }, (_, at) => `c${at}`)], '--columns'],
  ])('%j is refused, and no sheet is written', (words, sentence) => {
    const { code, error } = started().run(['sheet', ...words]);
    expect(code).toBe(2);
    expect(error).toContain(sentence);
  });
});
