// Closing an opening asks what is still open in it, in the order of what can hurt somebody.
import { groupLabel, hazardWords, openIn, type Stand, saplingLabel, stemLabel } from '../stand/index.ts';
import { anyway, type Question } from './question.ts';

/** So many are named; the rest is counted. */
const most = 12;

export function stillOpen(group: string, stand: Stand): Question[] {
  const open = openIn(stand, group);
  const list = [
    ...open.hungUp.map((stem) => `${stemLabel(stem)} is hung up`),
    ...open.hazards.map((hazard) => `hazard not cleared: ${hazardWords(stand, hazard)}`),
    ...open.standing.map((stem) => `${stemLabel(stem)} is marked to be cut and stands`),
    ...[...open.uncheckedSaplings, ...open.uncheckedPatches].map(
      (thing) => `${saplingLabel(thing)} is not checked`,
    ),
  ];
  if (list.length === 0) return [];
  const rest = list.length > most ? `; and ${list.length - most} more` : '';
  return [
    {
      code: 'still-open',
      sentence: `Still open in ${groupLabel(stand.groups.get(group))}: ${list.slice(0, most).join('; ')}${rest}.`,
      choices: [anyway('close it all the same; each of these becomes a finding')],
    },
  ];
}
