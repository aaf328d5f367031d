// What a question is: a code, a sentence, and the answers that there are to it.
import type { Event } from '../events/index.ts';

export type Question = Readonly<{
  code: string;
  sentence: string;
  choices: readonly { answer: string; label: string }[];
}>;

export type Asked = Readonly<{
  event: Event;
  happenedAt: { at: string; precision: 'instant' | 'minute' | 'day' };
  now: number;
  /** Names of people by the hash that an entry holds, with those just typed. */
  names?: ReadonlyMap<string, string>;
}>;

/** Words to record it all the same. */
export const anyway = (label = 'record it as typed') => ({ answer: 'anyway', label });
