// Bringing in a table of stems, from its bytes to the durable batch with all that is asked on the way, beside splitting the
// same table into cells and nothing else.
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { v7 as newUuid } from 'uuid';
import { createLogbook } from '../../src/log/store/index.ts';
import { importing, openBook, sitDown } from '../../src/record/index.ts';
import { type BenchRow, interleaved, type Work } from './row.ts';

const goal = 2000;
const opened = Date.parse('2026-03-20T10:00:00-04:00');

/** Stems on a lattice of 8 m in UTM, so that none is crowded; a few species; sizes from 4 to 30 inches. */
function table(count: number): Uint8Array {
  const species = ['white oak', 'red maple', 'scarlet oak', 'yellow-poplar', 'American beech'];
  const side = Math.ceil(Math.sqrt(count));
  const rows = Array.from({ length: count }, (_, index) => {
    const [east, north] = [300_000 + (index % side) * 8, 3_950_000 + Math.floor(index / side) * 8];
    return `T${index},${species[index % species.length]},${4 + (index % 260) / 10},leave,${east}.0,${north}.0,2026-03-02`;
  });
  return new TextEncoder().encode(['Tag,Species,DBH (in),Mark,X,Y,Date', ...rows].join('\n'));
}

/** @param folder - on the disk whose speed counts */
export async function benchImport(folder: string, count: number): Promise<BenchRow> {
  const bytes = table(count);
  const { planImport, commitImport } = await importing();
  let number = 0;
  const ours: Work = async () => {
    number += 1;
    const log = await createLogbook(join(folder, `import-${number}`));
    const outside = { now: () => opened, newId: () => newUuid(), newSalt: () => new Uint8Array(16) };
    const seat = { device: newUuid(), counter: { last: 0 } };
    const book = await openBook(sitDown(log, seat, outside), {
      logbook: { name: 'Bench', zone: 'America/New_York', units: 'us', crs: 'EPSG:26917' },
      person: { name: 'Bench', part: 'owner' },
    });
    if (!book.ok) throw new Error('The logbook of the bench was not opened.');
    const desk = sitDown(log, { ...seat, person: book.person }, outside);
    return async () => {
      const plan = await planImport(desk, { name: 'stems.csv', bytes }, { crs: 'EPSG:26917' });
      const { receipts } = await commitImport(desk, plan);
      if (receipts.length !== count + 1) throw new Error('The import of the bench is not whole.');
      await log.close();
      for (const ending of ['', '-wal', '-shm'])
        rmSync(join(folder, `import-${number}${ending}`), { force: true });
    };
  };
  const bare: Work = () => () => parse(Buffer.from(bytes), { columns: true });
  const seconds = await interleaved({ ours, bare }, 3);
  const [measured, baseline] = [count / seconds.ours, count / seconds.bare];
  return {
    what: `import ${count.toLocaleString('en')} stems from a table`,
    measured,
    unit: 'stems/s',
    against: 'the same table split into cells',
    baseline,
    ratio: measured / baseline,
    goal: `≥ ${goal.toLocaleString('en')}/s`,
    met: measured >= goal,
  };
}
