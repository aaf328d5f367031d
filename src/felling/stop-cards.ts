// The stop cards: what stands before everything else when something has just gone otherwise than meant. Short, for
// somebody who reads it beside the stump. They send people away and to help; none calls anything in order again.
import type { Caution } from './caution.ts';

export type StopReason = 'hung-up' | 'lay-far-off' | 'more-rot';

export type StopCard = Readonly<{
  title: string;
  /** What has just been recorded, in one sentence. */
  because: string;
  points: readonly Caution[];
  end: string;
}>;

export const keepAway: Caution = {
  text: 'Keep everybody two tree lengths away, and farther where stems can roll or slide.',
  basis: 'law',
  source:
    'US 29 CFR 1910.266(d)(6) and (h)(1), in the words of Washington WAC 296-305-07016 and of a code service; the paragraph numbers in (h)(1) are from memory.',
};
export const getHelp: Caution = {
  text: 'Get trained help before anything else is cut. Local law says who may do what comes next.',
  basis: 'law',
  source:
    'US 29 CFR 1910.266(h)(1)(ii) has a supervisor consulted where conditions are unfamiliar or unusually hazardous; elsewhere the rule may be another.',
};
export const dangerTree: Pick<Caution, 'basis' | 'source'> = {
  basis: 'law',
  source:
    'US 29 CFR 1910.266(h)(1): a danger tree is felled, removed or avoided, and otherwise marked (paragraph number from memory).',
};
export const end =
  'If somebody is hurt, call for help first: the emergency card holds the way in and whom to call. This card is no instruction; a trained person on site decides.';

/** One card for each reason to stop. */
export const stopCards: Readonly<Record<StopReason, StopCard>> = {
  'hung-up': {
    title: 'Stop.',
    because: 'It hangs in another tree and can come down at any moment.',
    points: [
      {
        text: 'Keep out from under it. Leave the saw and the tools where they lie.',
        basis: 'law',
        source:
          'Oregon OAR 437-007-0810 (no work under a lodged tree). Leaving the tools is common practice, no source.',
      },
      keepAway,
      {
        text: 'Do not cut the tree that holds it, and do not fell another one onto it.',
        basis: 'law',
        source:
          'Oregon OAR 437-007-0810 (the tree it is lodged in); US 29 CFR 1910.266(h)(1)(ix) and the same Oregon rule (domino felling). Both make a narrow exception for a danger or lodged tree; that is for trained people.',
      },
      {
        text: 'Mark it so that nobody walks in, and tell everybody who works here.',
        basis: 'law',
        source:
          'Oregon OAR 437-007 has it marked with ribbon if it is left; US 29 CFR 1910.266(h)(1) has danger trees marked (paragraph number from memory).',
      },
      getHelp,
    ],
    end,
  },
  'lay-far-off': {
    title: 'Stop.',
    because: 'It lies far off the line that it was aimed along.',
    points: [
      {
        text: 'Look up before you move: it may have broken limbs and tops that now hang.',
        basis: 'common practice',
        source: 'No source.',
      },
      keepAway,
      {
        text: 'Fell nothing else until you know why: lean, rot, wind, hinge or another tree.',
        basis: 'common practice',
        source: 'No source.',
      },
      {
        text: 'What was meant for the next stems counts no longer; the next one may turn as this one did.',
        basis: 'common practice',
        source: 'No source.',
      },
      getHelp,
    ],
    end,
  },
  'more-rot': {
    title: 'Stop.',
    because: 'There is more rot than anybody had noted.',
    points: [
      {
        text: 'A hinge in rotten wood may not hold, and the stem may split or go where nobody aimed it.',
        basis: 'common practice',
        source: 'No source.',
      },
      {
        text: 'Take its neighbours for rotten too until they have been looked at, roots and tops as well.',
        basis: 'common practice',
        source: 'No source.',
      },
      { text: 'If one of them is half cut, keep away from it and mark it as a hazard.', ...dangerTree },
      keepAway,
      getHelp,
    ],
    end,
  },
};
