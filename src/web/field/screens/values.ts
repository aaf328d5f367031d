// Values that are typed in several parts: a lean, a time, a number with its unit.
import { type HappenedEntered, type JsonValue, readTime, type TypingProblem } from '../../../events/index.ts';
import type { Draft } from '../engine/port.ts';
import { text } from '../text/index.ts';

export type Part<T extends JsonValue | HappenedEntered> =
  | Readonly<{ ok: true; value: T | undefined }>
  | Readonly<{ ok: false; problem: TypingProblem }>;

/** A lean as the log has it typed, from how far the crown leans out and which way. */
export function leanOf(draft: Draft): Part<string> {
  const [leanOffset, leanAzimuth] = [asText(draft.leanOffset), asText(draft.leanAzimuth)];
  if (leanOffset === '' && leanAzimuth === '') return { ok: true, value: undefined };
  const missing = leanOffset === '' ? 'leanOffset' : 'leanAzimuth';
  if (leanOffset === '' || leanAzimuth === '')
    return {
      ok: false,
      problem: { field: missing, value: '', remedy: text.fields.called(missing).toLowerCase() },
    };
  return { ok: true, value: `${leanOffset} at ${leanAzimuth}` };
}

/** When it happened, as somebody typed it by the phone's clock; undefined is now. */
export function timeOf({ when = '' }: Draft): Part<HappenedEntered> {
  if (typeof when !== 'string' || when === '') return { ok: true, value: undefined };
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const reading = readTime(when.replace('T', ' '), zone, new Date().toISOString());
  if (reading.ok) return { ok: true, value: reading.value };
  return { ok: false, problem: { field: 'happenedAt', value: when, remedy: reading.remedy } };
}

/** A value of a draft as text; empty when it is none or something made of parts. */
export function asText(value: JsonValue | undefined): string {
  return typeof value === 'string' || typeof value === 'number' ? String(value) : '';
}

/** A number and its unit as they stand in a draft: "14.2 in". */
export function numberParts(value: string): Readonly<{ number: string; unit: string | undefined }> {
  const [, number = '', unit = ''] = /^([\d.]*)\s*(.*)$/.exec(value) ?? [];
  return { number, unit: unit === '' ? undefined : unit };
}
