// What a file is asked about, one kind of doubt each, in files as people have them; and that nothing is recorded by asking.
import { expect, it } from 'vitest';
import { commitImport } from '../../../src/record/import/index.ts';
import { loadAll, readStand } from '../../../src/record/index.ts';
import { emptyWoods, woods } from '../woods.ts';
import { bringIn, codes, plan } from './bringing.ts';

const head = 'Tag,Species,DBH (in),Mark,Lat,Lon,Date';
const tree = (
  tag: string,
  more: Partial<Record<'species' | 'dbh' | 'lat' | 'lon' | 'date', string>> = {},
) => {
  const {
    species = 'white oak',
    dbh = '14.2',
    lat = '35.7125',
    lon = '-81.6850',
    date = '2026-03-02',
  } = more;
  return [tag, species, dbh, 'cut', lat, lon, date].join(',');
};
const table = (...rows: readonly string[]) => [head, ...rows].join('\n');

it('a table that says everything is not asked about, and each row becomes a mark with its values as written', async () => {
  const here = await woods();
  const made = await plan(here, 'tally.csv', table(tree('C1'), tree('C2', { lat: '35.71300', dbh: '9.0' })));
  expect(codes(made)).toEqual([]);
  await commitImport(here.desk, made);
  const { stand } = await readStand(here.log);
  const stem = [...stand.stems.values()].find(({ tag }) => tag === 'C2');
  expect(stem?.dbh).toEqual({ text: '9.0 in', value: '9.0', unit: 'in' });
  expect(stem?.position?.entered).toEqual({ how: 'fix', lat: '35.71300', lon: '-81.6850' });
});

const cases: readonly (readonly [code: string, text: string])[] = [
  ['axis-order', table(tree('C1', { lat: '-81.6850', lon: '35.7125' }))],
  ['axis-order', table(tree('C1', { lat: '-98.1', lon: '35.7125' }))],
  ['packed-degrees', table(tree('C1', { lat: '3542.750', lon: '-8141.100' }))],
  ['duplicate-tags', table(tree('C1'), tree('c1', { lat: '35.7126' }))],
  ['tag-in-use', table(tree('A12'))],
  ['identical-positions', table(tree('C1'), tree('C2'))],
  ['outside-block', table(tree('C1', { lat: '35.7225' }))],
  ['day-month', table(tree('C1', { date: '3/4/2026' }))],
  ['day-month', table(tree('C1', { date: '13/2/2026' }), tree('C2', { date: '2/14/2026', lat: '35.7126' }))],
  ['time-zone', table(tree('C1', { date: '2026-03-02 14:30' }))],
  ['date-in-future', table(tree('C1', { date: '2027-03-02' }))],
  ['sentinel-dbh', table(tree('C1', { dbh: '-999' }))],
  ['sentinel-dbh', table(tree('C1', { dbh: '9999' }))],
  ['sentinel-dbh', table(tree('C1', { dbh: '0' }))],
  ['sentinel-position', table(tree('C1', { lat: '0', lon: '0' }))],
  ['species', table(tree('C1', { species: 'zzyx' }))],
  ['species-mixed', table(tree('C1', { species: '802' }), tree('C2', { species: 'ACRU', lat: '35.7126' }))],
  ['size', table(tree('C1', { dbh: '142' }))],
  ['unreadable', table(tree('C1'), tree('C2', { dbh: 'thick', lat: '35.7126' }))],
  ['unreadable', table(tree('C1'), tree('C2', { lat: '' }))],
  ['unit-dbh', table(tree('C1')).replace('DBH (in)', 'DBH')],
  ['mark', table(tree('C1')).replace('Mark', 'Unread')],
  ['crs', table(tree('C1', { lat: '1217160', lon: '743500' })).replace('Lat,Lon', 'X,Y')],
  ['no-date', table(tree('C1', { date: '' }))],
];

it.each(cases)('it asks %s', async (code, text) => {
  const here = await woods();
  const before = await here.size();
  const made = await plan(here, 'tally.csv', text);
  expect(codes(made)).toContain(code);
  await expect(commitImport(here.desk, made)).rejects.toThrow(/is still open/);
  expect(await here.size()).toBe(before);
  for (const { choices } of made.doubts) expect(choices.length).toBeGreaterThan(0);
});

it('every answer that is offered closes its doubt', async () => {
  const here = await woods();
  for (const [code, text] of cases) {
    const { doubts } = await plan(here, 'tally.csv', text);
    for (const { answer } of doubts.find((doubt) => doubt.code === code)?.choices ?? []) {
      const again = await plan(here, 'tally.csv', text, { answers: [`${code}=${answer}`] });
      expect(codes(again), `${code}=${answer}`).not.toContain(code);
    }
  }
});

it('an answer in the wrong words closes nothing', async () => {
  const here = await woods();
  const made = await plan(here, 'tally.csv', table(tree('C1'), tree('C2')), {
    answers: ['identical-positions=yes'],
  });
  expect(codes(made)).toEqual(['identical-positions']);
});

it('an answer to what was not asked is told', async () => {
  const made = await plan(await woods(), 'tally.csv', table(tree('C1')), { answers: ['day-mnth=day-first'] });
  expect(made.passedOver.join()).toContain('the answer day-mnth=day-first: nothing asked for it');
});

it('a boundary is asked how it is known, since trees near its line are judged by that', async () => {
  const here = await emptyWoods();
  const square =
    '{"type":"Polygon","coordinates":[[[-81.69,35.71],[-81.68,35.71],[-81.68,35.72],[-81.69,35.71]]]}';
  const asked = { as: 'boundary', set: ['name=North cove'], at: '2026-03-02' };
  expect(codes(await plan(here, 'b.geojson', square, asked))).toEqual(['boundary-from']);
  const made = await plan(here, 'b.geojson', square, { ...asked, answers: ['boundary-from=assumed'] });
  expect(made.entries[1]?.body).toMatchObject({ name: 'North cove', boundaryFrom: 'assumed' });
});

it('packed degrees and exchanged axes are put right as answered', async () => {
  const here = await woods();
  const packed = await plan(here, 'a.csv', table(tree('C1', { lat: '3542.750', lon: '-8141.100' })), {
    answers: ['packed-degrees=unpack'],
  });
  // 35° 42.750' is 35.7125°, 81° 41.100' is 81.685°.
  expect(packed.entries[1]?.body).toMatchObject({ position: { lat: '35.712500000', lon: '-81.685000000' } });
  const swapped = await plan(here, 'b.csv', table(tree('C1', { lat: '-81.6850', lon: '35.7125' })), {
    answers: ['axis-order=swap'],
  });
  expect(swapped.entries[1]?.body).toMatchObject({ position: { lat: '35.7125', lon: '-81.6850' } });
});

it('a decimal comma is asked about, since 14,250 may be fourteen and a quarter or fourteen thousand', async () => {
  const here = await woods();
  const text = table(tree('C1')).replaceAll(',', ';').replace('14.2', '14,2');
  expect(codes(await plan(here, 'tally.csv', text))).toEqual(['decimal-comma']);
  const made = await plan(here, 'tally.csv', text, { answers: ['decimal-comma=decimal'] });
  expect(made.entries[1]?.body).toMatchObject({ dbh: { value: '14.2', unit: 'in' } });
});

it('things that are known and all stand 100 m off in one direction raise the question of the datum', async () => {
  const here = await woods();
  for (const [index, label] of ['B1', 'B2', 'B3'].entries())
    await here.record('stake-set', { label, position: `35.713${index}, -81.6850` });
  const text =
    'Stake,Lat,Lon,Date\nB1,35.7139,-81.6850,2026-03-02\nB2,35.7140,-81.6850,2026-03-02\nB3,35.7141,-81.6850,2026-03-02';
  expect(codes(await plan(here, 'stakes.csv', text))).toEqual(['tag-in-use', 'datum-offset']);
});

it('a file that was brought in before is known by its hash, whatever it is called now', async () => {
  const here = await woods();
  await bringIn(here, 'tally.csv', table(tree('C1')));
  const made = await plan(here, 'copy.csv', table(tree('C1')));
  expect(codes(made)).toEqual(['imported-before', 'tag-in-use']);
});

it('an import is one batch; striking its first entry takes all of it out, and striking the strike brings it back', async () => {
  const here = await woods();
  const before = await here.size();
  const { envelopes } = await bringIn(here, 'tally.csv', table(tree('C1'), tree('C2', { lat: '35.7126' })));
  expect(await here.size()).toBe(before + 3);
  const [first] = envelopes;
  const strike = await here.record('entry-struck', { strikes: first?.id, reason: 'wrong file' });
  const tags = async () => [...(await readStand(here.log)).stand.stems.values()].map(({ tag }) => tag);
  expect(await tags()).toEqual(['A12', 'A13', 'L3']);
  const { standings } = await readStand(here.log);
  expect(envelopes.map(({ id }) => standings.get(id))).toEqual(['struck', 'struck', 'struck']);
  // A tag of a struck import is free again: the slice that a mark is decided on knows of the strike.
  await here.record('stem-marked', { mark: 'cut', tag: 'C1', group: 'G1' });
  await here.record('entry-struck', { strikes: strike, reason: 'it was the right file' });
  expect((await tags()).filter((tag) => tag === 'C1')).toHaveLength(2);
  expect((await loadAll(here.log)).length).toBe(await here.size());
});

it('a mapping is remembered by its name, with what holds for every row, and read again from the log', async () => {
  const here = await emptyWoods();
  const odd = 'nr;art;bhd\n7;QUAL;36\n';
  const typed = {
    columns: ['tag=nr', 'species=art', 'dbh=bhd cm'],
    set: ['mark=cut'],
    at: '2026-03-02',
    map: 'old sheet',
  };
  await bringIn(here, 'one.csv', odd, typed);
  const made = await plan(here, 'two.csv', 'nr;art;bhd\n8;ACRU;41\n', { map: 'old sheet', at: '2026-03-03' });
  expect(codes(made)).toEqual([]);
  expect(made.entries[1]?.body).toMatchObject({ tag: '8', mark: 'cut', dbh: { value: '41', unit: 'cm' } });
});
