// The cautions: what stands wherever felling is shown. This file is the text; docs/cautions.md is written
// from it (a test holds the two equal). Nothing here ever calls a tree, a side or a direction safe.

import type { Caution } from './caution.ts';
import { type StopCard, stopCards } from './stop-cards.ts';
import { planEndedCard } from './stop-plan.ts';

export type Cautions = Readonly<{ title: string; lead: string; points: readonly Caution[]; end: string }>;

export const cautions: Cautions = {
  title: 'Cautions',
  lead: 'Felling kills. A trained person on site decides; local law and training come first. What is written here is no instruction and never says that a tree, a side or a direction can be trusted.',
  points: [
    {
      text: 'Stop and get help when the tree, the weather, the ground or your own state differs from what was expected.',
      basis: 'common practice',
      source: 'No source.',
    },
    {
      text: 'Keep everybody else at least two tree lengths away from a tree that is being felled, and farther on slopes where stems can roll or slide.',
      basis: 'law',
      source:
        'US 29 CFR 1910.266(d)(6) and (h)(1), in the words of Washington WAC 296-305-07016 and of a code service; the paragraph numbers in (h)(1) are from memory.',
    },
    {
      text: 'Before cutting, clear a way out that leads back and to the side, about 45° from the line opposite to the fall.',
      basis: 'published advice',
      source:
        'Feller training and arborist glossaries give 45°; Washington WAC 296-305-07016(5)(b) asks for a way out diagonal to the felling line.',
    },
    {
      text: 'Go by that way once the back cut is made, at least 25 ft (7.6 m) from the stump and to the side.',
      basis: 'law',
      source:
        'Oregon OAR 437-007-0810 (25 ft); US 29 CFR 1910.266(h)(2) and Washington WAC 296-305-07016(5)(b) (leaving once the back cut is made; the US paragraph is from memory). Elsewhere the distance may be another.',
    },
    {
      text: 'Do not work or walk under a hung-up tree, and do not cut the tree that holds it. Mark it, keep everybody two tree lengths away, and get trained help.',
      basis: 'law',
      source:
        'Oregon OAR 437-007-0810 (no work under it, no cutting of the tree it is lodged in); US 29 CFR 1910.266(h)(1) counts lodged trees as danger trees (paragraph number from memory).',
    },
    {
      text: 'Never fell one tree onto another to bring it down, and never drop trees in a row like dominoes.',
      basis: 'law',
      source:
        'US 29 CFR 1910.266(h)(1)(ix) and Oregon OAR 437-007-0810 forbid domino felling. Both make a narrow exception for a danger or lodged tree; that is for trained people.',
    },
    {
      text: 'Dead, rotten, hollow, split or leaning trees do not fall as others do. Rot that nobody saw may be there all the same.',
      basis: 'common practice',
      source: 'No source.',
    },
    {
      text: 'Do not work alone without somebody who knows where you are and when to call for help.',
      basis: 'common practice',
      source: 'No source here; local law may demand more.',
    },
  ],
  end: 'A record that says nothing about a hazard does not say that there is none.',
};

/** The text of docs/cautions.md. */
export function cautionsMarkdown(): string {
  return [
    `# ${cautions.title}`,
    cautions.lead,
    listOf(cautions.points),
    cautions.end,
    '## Stop cards',
    'What comes before everything else when it has just been recorded. Whoever reads one is in the woods and may be alone.',
    ...[...Object.values(stopCards), planEndedCard].flatMap(cardMarkdown),
    '## Where they stand',
    'The first line of these cautions stands on every report, page and command that shows felling; all of them stand on every report and page, and on commands while something hung up or dangerous is open. Rules differ from place to place and change; ask your own authority what holds where you are.',
    '',
  ]
    .join('\n\n')
    .replace(/\n+$/, '\n');
}

function cardMarkdown({ title, because, points, end }: StopCard): string[] {
  return [`### ${title} ${because}`, listOf(points), end];
}

function listOf(points: readonly Caution[]): string {
  return points.map(({ text, basis, source }) => `- ${text}\n  _${capital(basis)}._ ${source}`).join('\n');
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
