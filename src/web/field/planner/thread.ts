// The thread that plans. Seconds of computing for a large group must not keep the page from being touched: somebody may
// have to reach the emergency card.
import { type PlanWork, planGroup } from '../../../felling/index.ts';
import type { PlanAnswer } from './index.ts';

addEventListener('message', ({ data }: MessageEvent<PlanWork>) => postMessage(answerTo(data)));

function answerTo({ gathered, asked }: PlanWork): PlanAnswer {
  try {
    // The tables of the model hold functions, which go to no other thread, and nobody is shown them.
    const { model: _tables, ...plan } = planGroup(gathered, asked);
    return { ok: true, plan };
  } catch (error) {
    return { ok: false, why: error instanceof Error ? error.message : String(error) };
  }
}
