// Stems in line behind each other, 6 m apart, as in the worked case "three in line" of the felling model (docs/felling-model.md):
// where all fall along the line, the last one has to go first.
import { type House, house } from './desk.ts';

/** What a stem of the line is like; each leans north. */
export const inLine = { mark: 'cut', group: 'G1', dbh: '40 cm', height: '20 m', lean: '1 m at 0 true' };

const places = { A: '1 m', B: '7 m', C: '13 m' } as const;

/** A desk whose logbook holds a stake, a group and the named stems of the line. */
export async function houseInLine(...tags: readonly (keyof typeof places)[]): Promise<House> {
  const woods = await house({ empty: true });
  await woods.record('stake-set', { label: 'S', position: '35.9532, -81.7461' });
  await woods.record('group-laid-out', { label: 'G1' });
  for (const tag of tags)
    await woods.record('stem-marked', {
      ...inLine,
      tag,
      position: `0 true, ${places[tag]} from stake S`,
    });
  return woods;
}
