// A position as a draft holds it -> the position of an entry. What is half measured names every part that is missing.
import {
  type JsonValue,
  lengthUnits,
  readAzimuth,
  readQuantity,
  type TypingProblem,
} from '../../../../events/index.ts';
import type { Draft } from '../../engine/port.ts';
import { text } from '../../text/index.ts';
import { asText } from '../values.ts';
import type { Mean } from './averaging.ts';

/** Names of the parts in a draft. */
const tapeFields = ['tapeFrom', 'tapeAzimuth', 'tapeDistance', 'tapeSlope'] as const;

/** The draft without any position. */
export const nowhere: Draft = {
  where: '',
  position: '',
  tapeFrom: '',
  tapeAzimuth: '',
  tapeDistance: '',
  tapeSlope: '',
};

const slopeUnits = ['%', 'deg'] as const;

export type Place =
  | Readonly<{ ok: true; value: JsonValue | undefined }>
  | Readonly<{ ok: false; problems: readonly TypingProblem[] }>;

/** The position that the draft holds; undefined when it was left for later. */
export function placeOf(draft: Draft): Place {
  if (draft.where === 'tape') return tapeOf(draft);
  const fix = draft.position;
  return {
    ok: true,
    value: draft.where === 'fix' && typeof fix === 'object' && fix !== null ? fix : undefined,
  };
}

/** Whether something is wrong with the place, and with the place alone: without one the entry can be kept. */
export function isAboutPlace({ field }: TypingProblem): boolean {
  const [first = field] = field.split('.');
  return first === 'position' || tapeFields.some((name) => name === first);
}

/** A mean of fixes as the log keeps a fix: what the phone said, how well, when and how often. */
export function fixOf({ lat, lon, accuracy, at, fixes }: Mean, seconds: number): JsonValue {
  const metres = accuracy < 10 ? accuracy.toFixed(1) : accuracy.toFixed(0);
  return {
    how: 'fix',
    lat: lat.toFixed(7),
    lon: lon.toFixed(7),
    accuracy: { text: `${metres} m`, value: metres, unit: 'm' },
    fixedAt: new Date(at).toISOString(),
    source: text.position.source(fixes, seconds),
  };
}

function tapeOf(draft: Draft): Place {
  const [from = '', azimuthText = '', distanceText = '', slopeText = ''] = tapeFields.map((name) =>
    asText(draft[name]),
  );
  const azimuth = readAzimuth(azimuthText);
  const distance = readQuantity(distanceText, lengthUnits, undefined);
  const slope = slopeText === '' ? undefined : readQuantity(slopeText, slopeUnits, undefined);
  const problems = [
    from === '' ? missing('tapeFrom') : undefined,
    unread('tapeAzimuth', azimuthText, azimuth),
    unread('tapeDistance', distanceText, distance),
    slope && unread('tapeSlope', slopeText, slope),
  ].filter((problem) => problem !== undefined);
  if (!azimuth.ok || !distance.ok || slope?.ok === false || problems.length > 0)
    return { ok: false, problems };
  const [noun, id = ''] = from.split(':');
  return {
    ok: true,
    value: {
      how: 'offset',
      from: noun === 'stem' ? { stem: id } : { stake: id },
      azimuth: azimuth.value,
      distance: distance.value,
      ...(slope === undefined ? {} : { slope: slope.value }),
    },
  };
}

type Reading = Readonly<{ ok: true } | { ok: false; remedy: string }>;

function unread(field: string, value: string, reading: Reading): TypingProblem | undefined {
  if (reading.ok) return undefined;
  return value === '' ? missing(field) : { field, value, remedy: reading.remedy };
}

function missing(field: string): TypingProblem {
  return { field, value: '', remedy: text.position.incomplete };
}
