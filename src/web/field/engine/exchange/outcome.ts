// How an exchange ended.
import type { ExchangeState } from '../port.ts';
import type { Answer } from './asking.ts';

export type Outcome = Readonly<{
  is: Exclude<ExchangeState['is'], 'sending'>;
  why?: string;
  /** Milliseconds that the logbook asked to wait. */
  retryAfter?: number | undefined;
}>;

/** What an answer that is none means for the exchange. */
export function outcomeOf(answer: Exclude<Answer, { is: 'answered' }>): Outcome {
  if (answer.is === 'no-answer') return answer;
  if (answer.status === 401) return { is: 'not-paired', why: answer.why };
  return { is: 'refused', why: answer.why, retryAfter: answer.retryAfter };
}
