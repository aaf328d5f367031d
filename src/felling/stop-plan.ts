// The stop card of an adopted plan that no longer holds. What ended it stands on the card as well, sentence by sentence.
import { dangerTree, end, getHelp, keepAway, type StopCard } from './stop-cards.ts';

export const planEndedCard: StopCard = {
  title: 'The plan no longer holds. Stop.',
  because: 'Something is otherwise than it was computed from.',
  points: [
    {
      text: 'Fell nothing more by it: its order, its aims and its chances count no longer.',
      basis: 'common practice',
      source: 'No source.',
    },
    { text: 'If a stem is notched or half cut, keep away from it and mark it as a hazard.', ...dangerTree },
    keepAway,
    {
      text: 'Look again at every stem that stands, and up into it, before anything is planned anew.',
      basis: 'common practice',
      source: 'No source.',
    },
    getHelp,
  ],
  end,
};
