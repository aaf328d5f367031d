// How a stem lies: measured, off its aim by so much, or not measured. What was meant is never taken for a measurement.
import { type JsonValue, readAzimuth, type TypingProblem } from '../../../../events/index.ts';
import type { Draft } from '../../engine/port.ts';
import { text } from '../../text/index.ts';
import { asText, numberParts } from '../values.ts';

export type Lay =
  | Readonly<{ ok: true; lay: JsonValue | undefined }>
  | Readonly<{ ok: false; problem: TypingProblem }>;

/**
 * The lay that a draft asks for. Off the aim by some degrees is kept as what was read, with the azimuth that follows
 * from it: "12 deg right of 45 mag" with the value 57 from the same north. Seen from the stump, right adds.
 */
export function layOf(draft: Draft): Lay {
  if (draft.layHow === 'measured') return { ok: true, lay: draft.lay ?? '' };
  if (draft.layHow !== 'off') return { ok: true, lay: undefined };
  const aimed = readAzimuth(asText(draft.aimed));
  const { number } = numberParts(asText(draft.offBy));
  const side = draft.offSide;
  if (number === '') return wrong('offBy', '', text.stems.felled.layOff.toLowerCase());
  if (!aimed.ok) return wrong('aimed', asText(draft.aimed), text.stems.felled.needsAim);
  if (side !== 'left' && side !== 'right') return wrong('offSide', '', text.stems.felled.needsSide);
  const turned = (Number(aimed.value.value) + (side === 'right' ? 1 : -1) * Number(number) + 720) % 360;
  const value = String(Math.round(turned * 100) / 100);
  return {
    ok: true,
    lay: { ...aimed.value, text: text.stems.felled.offText(number, side, aimed.value.text), value },
  };
}

function wrong(field: string, value: string, remedy: string): Lay {
  return { ok: false, problem: { field, value, remedy } };
}
