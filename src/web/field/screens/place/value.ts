// A position as a draft holds it -> the position of an entry. What is half measured names the part that is missing.
import { type JsonValue, lengthUnits, readAzimuth, readQuantity } from '../../../../events/index.ts';
import type { Draft } from '../../engine/port.ts';
import { text } from '../../text/index.ts';
import { asText, type Part } from '../values.ts';
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

/** The position that the draft holds; undefined when it was left for later. */
export function placeOf(draft: Draft): Part<JsonValue> {
  if (draft.where === 'tape') return tapeOf(draft);
  const fix = draft.position;
  return {
    ok: true,
    value: draft.where === 'fix' && typeof fix === 'object' && fix !== null ? fix : undefined,
  };
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

function tapeOf(draft: Draft): Part<JsonValue> {
  const [from, azimuthText, distanceText, slopeText] = tapeFields.map((name) => asText(draft[name]));
  if (!from) return missing('position', text.position.from);
  const azimuth = readAzimuth(azimuthText ?? '');
  if (!azimuth.ok)
    return azimuthText === ''
      ? missing('tapeAzimuth', text.position.azimuth)
      : wrong('tapeAzimuth', azimuthText ?? '', azimuth.remedy);
  const distance = readQuantity(distanceText ?? '', lengthUnits, undefined);
  if (!distance.ok)
    return distanceText === ''
      ? missing('tapeDistance', text.position.distance)
      : wrong('tapeDistance', distanceText ?? '', distance.remedy);
  const slope = slopeText ? readQuantity(slopeText, slopeUnits, undefined) : undefined;
  if (slope && !slope.ok) return wrong('tapeSlope', slopeText ?? '', slope.remedy);
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

function missing(field: string, what: string): Part<JsonValue> {
  return wrong(field, '', text.position.incomplete(what));
}

function wrong(field: string, value: string, remedy: string): Part<JsonValue> {
  return { ok: false, problem: { field, value, remedy } };
}
