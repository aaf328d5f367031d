// planner: makes felling plans in a thread of their own, so that the page can be touched meanwhile. Knows no screens.
import type { PlanSaid, PlanWork } from '../../../felling/index.ts';

/** Why there is no plan is a sentence with its remedy. */
export type PlanAnswer = Readonly<{ ok: true; plan: PlanSaid } | { ok: false; why: string }>;

/**
 * Has a plan made.
 * @param onAnswer is called once, unless it was stopped before
 * @returns what stops it
 */
export function makePlan(work: PlanWork, onAnswer: (answer: PlanAnswer) => void): () => void {
  const thread = new Worker(new URL('./thread.ts', import.meta.url), { type: 'module' });
  const end = (answer: PlanAnswer) => {
    thread.terminate();
    onAnswer(answer);
  };
  thread.onmessage = ({ data }: MessageEvent<PlanAnswer>) => end(data);
  thread.onerror = ({ message }) => end({ ok: false, why: message });
  thread.postMessage(work);
  return () => thread.terminate();
}
