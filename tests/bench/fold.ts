// The fold of a whole logbook, from entries in memory to the stand with its findings, beside parsing the same
// entries as JSON and nothing else.
import { readEnvelope } from '../../src/log/entry/index.ts';
import { fold } from '../../src/stand/index.ts';
import { type BenchRow, interleaved } from './row.ts';

const goal = 150_000;

/** @param entries - as they are stored */
export async function benchFold(entries: readonly { bytes: Uint8Array }[]): Promise<BenchRow> {
  const decoder = new TextDecoder();
  const seconds = await interleaved(
    {
      ours: () => {
        const read = entries.map(({ bytes }, position) => Object.assign(readEnvelope(bytes), { position }));
        return () => fold(read);
      },
      bare: () => () => entries.map(({ bytes }) => JSON.parse(decoder.decode(bytes)) as unknown),
    },
    5,
  );
  const [measured, baseline] = [entries.length / seconds.ours, entries.length / seconds.bare];
  return {
    what: `fold ${entries.length.toLocaleString('en')} entries`,
    measured,
    unit: 'entries/s',
    against: 'bare JSON.parse of the same bytes',
    baseline,
    ratio: measured / baseline,
    goal: `≥ ${goal.toLocaleString('en')}/s`,
    met: measured >= goal,
  };
}
