// Assumptions on learning the direction error from falls that were measured.
import { type Assumption, guess } from './assumption.ts';

/** A function, so that nothing is made where nothing is planned. */
export const learnAssumptions = () =>
  ({
    directionErrorFloor: guess(
      4,
      '°',
      1,
      45,
      'No direction error below this is taken for anybody, however well their falls went, unless somebody records that it is meant.',
    ),
    learnFrom: guess(
      15,
      'falls',
      5,
      1000,
      "So many measured falls of one person it takes before a direction error of that person's own is offered.",
    ),
    learnLevel: guess(
      0.8,
      'chance',
      0.5,
      0.99,
      'The direction error that is offered is at least as large as the true one with this chance, by the model.',
    ),
  }) as const satisfies Record<string, Assumption>;
