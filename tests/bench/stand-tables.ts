// The tables of a stand (before, removed, lost, left) from a folded logbook, beside adding up basal areas and nothing
// else. A block of some hundred acres, tallied stem by stem, has 100,000 stems.
import { basalArea } from '../../src/measure/index.ts';
import { fold, type LogEntry, standFigures } from '../../src/stand/index.ts';
import { deviceA, idOf, person } from '../log/invented.ts';
import { type BenchRow, interleaved } from './row.ts';

/** One second for 100,000 stems. */
const goal = 100_000;
const start = Date.parse('2026-01-05T13:00:00Z');
const species = ['QUAL', 'QUCO2', 'ACRU', 'PIST', 'TSCA', 'LITU', 'QUMO4', 'CATO6'];
const stemsOfGroup = 200;

export async function benchStandTables(count: number): Promise<BenchRow[]> {
  const folded = fold(stand(count));
  const stems = [...folded.stand.stems.values()];
  if (stems.length !== count) throw new Error('The stand of the bench is not whole.');
  const table = (by: 'class' | 'species' | 'group') => () => () =>
    standFigures(folded, { by, system: 'inch' });
  const seconds = await interleaved(
    {
      class: table('class'),
      species: table('species'),
      group: table('group'),
      bare: () => () => stems.reduce((sum, { dbh }) => sum + basalArea(Number(dbh?.value)), 0),
    },
    5,
  );
  const baseline = count / seconds.bare;
  return (['class', 'species', 'group'] as const).map((by) => {
    const measured = count / seconds[by];
    return {
      what: `stand table by ${by} of ${count.toLocaleString('en')} stems`,
      measured,
      unit: 'stems/s',
      against: 'basal areas added up',
      baseline,
      ratio: measured / baseline,
      goal: `≥ ${goal.toLocaleString('en')}/s`,
      met: measured >= goal,
    };
  });
}

/** Stems of all sizes and eight species in groups; of every ten, three are felled and one was found down. */
function stand(count: number): LogEntry[] {
  const entries: LogEntry[] = [];
  const write = (type: string, body: LogEntry['body']): void => {
    const at = new Date(start + entries.length * 1000).toISOString();
    const position = entries.length;
    const happenedAt = { at, precision: 'instant' } as const;
    const envelope = { id: idOf(position), v: 1, happenedAt, recordedAt: at, by: person, device: deviceA };
    entries.push({ ...envelope, type, seq: position + 1, body, position });
  };
  for (let index = 0; index < count; index += 1) {
    const group = idOf(Math.floor(index / stemsOfGroup), 'group');
    if (index % stemsOfGroup === 0) write('group-laid-out', { group, label: `G${index / stemsOfGroup}` });
    const stem = idOf(index, 'stem');
    // Steps that share no factor with the number of sizes visit all of them.
    const dbh = (1 + ((index * 37) % 290) / 10).toFixed(1);
    const code = species[index % species.length] ?? '';
    write('stem-marked', {
      stem,
      group,
      mark: index % 10 < 3 ? 'cut' : 'leave',
      tag: `A${index}`,
      species: { text: code, list: 'us', code },
      dbh: { text: `${dbh} in`, value: dbh, unit: 'in' },
    });
    if (index % 10 < 3) write('stem-felled', { stem, came: 'down' });
    if (index % 10 === 9) write('stem-found-down', { stem });
  }
  return entries;
}
