// One question to the logbook, and every way in which its answer may fail to come. Only an answer in the logbook's own
// shape counts: a sign-in page of some network answers 200 too.
import type { JsonValue } from '../../../../events/index.ts';
import { text } from '../../text/index.ts';
import type { Outside } from '../outside.ts';

/** An object of JSON that came from outside. */
export type Json = Readonly<Record<string, JsonValue | undefined>>;

export type Answer =
  | Readonly<{ is: 'answered'; json: Json; sentAt: number; heardAt: number }>
  /** Nobody knows whether the question arrived. */
  | Readonly<{ is: 'no-answer'; why: string; broken?: true }>
  | Readonly<{ is: 'refused'; status: number; code: string; why: string; retryAfter: number | undefined }>;

/** Milliseconds until an answer is given up: two bars of signal take long for a photo. */
const longestAnswer = 60_000;

type Question = Readonly<{ method: 'GET' | 'POST' | 'PUT'; path: string; body?: unknown }>;

/**
 * Asks, and once more at once where the connection broke: a way on which every other answer gets lost must not keep
 * the second question of each exchange from ever being answered. For questions that may be asked twice.
 */
export async function ask(outside: Outside, token: string | undefined, question: Question): Promise<Answer> {
  const answer = await askOnce(outside, token, question);
  return 'broken' in answer ? askOnce(outside, token, question) : answer;
}

/** Asks one time; `broken` when the connection ended before its time. */
export async function askOnce(
  { fetch, api, now, later }: Outside,
  token: string | undefined,
  question: Question,
): Promise<Answer> {
  const patience = new AbortController();
  const callOff = later(longestAnswer, () => patience.abort());
  const sentAt = now();
  try {
    const response = await fetch(`${api}${question.path}`, {
      method: question.method,
      headers: {
        Accept: 'application/json',
        ...(question.body === undefined ? {} : { 'Content-Type': 'application/json' }),
        ...(token === undefined ? {} : { Authorization: `Bearer ${token}` }),
      },
      ...(question.body === undefined ? {} : { body: JSON.stringify(question.body) }),
      cache: 'no-store',
      credentials: 'omit',
      redirect: 'error',
      referrerPolicy: 'no-referrer',
      signal: patience.signal,
    });
    const json = asObject(parsed(await response.text()));
    if (response.ok) {
      return json === undefined
        ? { is: 'no-answer', why: text.engine.otherAnswer }
        : { is: 'answered', json, sentAt, heardAt: now() };
    }
    return refusal(response, json);
  } catch {
    const noAnswer = { is: 'no-answer', why: text.engine.noAnswer } as const;
    return patience.signal.aborted ? noAnswer : { ...noAnswer, broken: true };
  } finally {
    callOff();
  }
}

function refusal({ status, headers }: Response, json: Json | undefined): Answer {
  const { code, detail, title } = json ?? {};
  // Without problem details it was not the logbook that refused, but something on the way.
  if (typeof code !== 'string') return { is: 'no-answer', why: text.engine.otherAnswer };
  const seconds = Number(headers.get('retry-after') ?? Number.NaN);
  const why = [detail, title].find((sentence) => typeof sentence === 'string');
  return {
    is: 'refused',
    status,
    code,
    why: why ?? text.engine.refused(status),
    retryAfter: Number.isFinite(seconds) ? seconds * 1000 : undefined,
  };
}

function parsed(body: string): unknown {
  try {
    return JSON.parse(body);
  } catch {
    return undefined;
  }
}

export function asObject(value: unknown): Json | undefined {
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Json) : undefined;
}
