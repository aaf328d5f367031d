// Stems in line behind each other, 6 m apart, as in the worked case "three in line" of the felling model (docs/felling-model.md):
// where all fall along the line, the last one has to go first.
import { expect } from 'vitest';
import { type House, house } from './desk.ts';

/** What a stem of the line is like; each leans north. */
export const inLine = { mark: 'cut', group: 'G1', dbh: '40 cm', height: '20 m', lean: '1 m at 0 true' };

/** A stem beside the line whose height nobody measured. */
export const unmeasured = {
  mark: 'cut',
  tag: 'D',
  group: 'G1',
  dbh: '30 cm',
  position: '90 true, 9 m from stake S',
};

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

export type PlanAnswer = Readonly<{
  cautions: string[];
  adopted: { ended: string[] } | null;
  aside: { label: string; because: string; remedies: string[] }[];
  falls: { label: string; hangUp: number; loss: number }[];
}>;

/** The plan of the group, which has to be given. */
export async function planFrom(woods: House, query: string): Promise<PlanAnswer> {
  const answer = await woods.ask(`/api/groups/G1/plan${query}`);
  expect(answer.status, await answer.clone().text()).toBe(200);
  return (await answer.json()) as PlanAnswer;
}
