// Reading what is typed for figures of the ground: a traverse, what moved, zones.
import { lengthUnits, readAzimuth, readPosition, readQuantity, slopeUnits } from '../../events/index.ts';
import { horizontalDistance, isLengthUnit, lengthIn } from '../../measure/index.ts';
import { isUnresolved, type Leg, type LonLat } from '../../place/index.ts';
import { type Folded, locate, type TraverseAsked, type ZonesAsked } from '../../stand/index.ts';
import { readId, readScope } from './scope.ts';
import { type FiguresTyped, type Read, wrong } from './typed.ts';

const legShape =
  /^(\d+(?:\.\d+)?\s*(?:°|deg)?\s*(?:mag(?:netic)?|true|grid(?:\s+EPSG:\d{4,6})?)?)[\s,]+(.+?)(?:,?\s*slope\s+(.+))?$/i;

/** `45 true 200 ft; 135 true 150 ft, slope 12 %; …`: at least three legs, all from one north. */
export function readTraverse(folded: Folded, typed: FiguresTyped, now: string): Read<TraverseAsked> {
  const scope = readScope(folded.stand, { units: typed.units }, now);
  if (!scope.ok) return scope;
  const unit = scope.value.system === 'inch' ? 'ft' : 'm';
  if (typed.adjust !== undefined && typed.adjust !== 'yes')
    return wrong('adjust', typed.adjust, 'write yes, or leave it out');
  const parts = (typed.legs ?? '')
    .split(';')
    .map((part) => part.trim())
    .filter(Boolean);
  if (parts.length < 3)
    return wrong(
      'legs',
      typed.legs,
      'give at least three legs, such as "45 true 200 ft; 135 true 150 ft; 270 true 250 ft"',
    );
  const legs: Leg[] = [];
  const norths = new Set<string>();
  for (const [index, part] of parts.entries()) {
    const leg = readLeg(part, unit);
    if (!leg.ok) return wrong('legs', part, `leg ${index + 1}: ${leg.remedy}`);
    legs.push(leg.leg);
    norths.add(leg.north);
  }
  const [north = ''] = norths;
  if (norths.size > 1)
    return wrong('legs', [...norths].join(', '), 'count all azimuths of a traverse from the same north');
  return { ok: true, value: { legs, unit, north, adjust: typed.adjust === 'yes' } };
}

type LegRead = { ok: true; leg: Leg; north: string } | { ok: false; remedy: string };

function readLeg(text: string, unit: 'ft' | 'm'): LegRead {
  const [, azimuthText, distanceText, slopeText] = legShape.exec(text) ?? [];
  if (azimuthText === undefined || distanceText === undefined)
    return { ok: false, remedy: 'write azimuth and distance, such as 45 true 200 ft' };
  const azimuth = readAzimuth(azimuthText);
  if (!azimuth.ok) return azimuth;
  const taped = readQuantity(distanceText, lengthUnits, unit);
  if (!taped.ok) return taped;
  const { value, unit: written } = taped.value;
  if (!isLengthUnit(written) || !(Number(value) > 0)) return { ok: false, remedy: 'a leg is longer than 0' };
  const along = lengthIn(Number(value), written, unit);
  const slope = slopeText === undefined ? undefined : readQuantity(slopeText, slopeUnits, undefined);
  if (slope && !slope.ok) return { ok: false, remedy: `slope: ${slope.remedy}` };
  if (slope?.value.unit === 'deg' && Math.abs(Number(slope.value.value)) >= 90)
    return { ok: false, remedy: 'a slope is below 90 deg' };
  const distance = slope
    ? horizontalDistance(along, {
        value: Number(slope.value.value),
        unit: slope.value.unit === 'deg' ? 'deg' : '%',
      })
    : along;
  const { reference, crs, value: degrees } = azimuth.value;
  return {
    ok: true,
    leg: { azimuth: Number(degrees), distance },
    north: crs === undefined ? reference : `${reference} ${crs}`,
  };
}

/** How many entries the log held: a whole number, not more than it holds now. */
export function readSinceSize({ entries }: Folded, { sinceSize: text }: FiguresTyped): Read<number> {
  if (text === undefined || !/^\d{1,12}$/.test(text.trim()))
    return wrong('sinceSize', text, 'write how many entries the log held then, such as 120');
  const size = Number(text);
  return size > entries.size
    ? wrong('sinceSize', text, `the log holds ${entries.size} entries`)
    : { ok: true, value: size };
}

/** A block by its boundary, a place by its coordinates; of neither, everything that has a place. */
export function readZones(folded: Folded, typed: FiguresTyped): Read<ZonesAsked> {
  const { stand } = folded;
  const zone = typed.zone === undefined ? {} : { zone: typed.zone };
  const locator = locate(stand);
  if (typed.point !== undefined) {
    const read = readPosition(typed.point, stand.logbook?.body.units ?? 'us', () => ({
      ok: false,
      remedy: 'write a fix such as "35.7121, -81.6834", or coordinates with their EPSG code',
    }));
    if (!read.ok) return wrong('point', typed.point, read.remedy);
    const found = locator.resolve({ entered: read.value, when: '', entry: '' });
    return isUnresolved(found)
      ? wrong('point', typed.point, found.why)
      : { ok: true, value: { places: [found.at], ...zone } };
  }
  const block = typed.block === undefined ? undefined : readId(stand, 'block', typed.block);
  if (block?.ok === false) return block;
  const blocks = [...stand.blocks.values()].filter(({ id }) => block === undefined || id === block.value);
  const corners = blocks.flatMap(({ boundary = [] }) => locator.ring(boundary, '').ring);
  const stakes: LonLat[] = [...stand.stakes.keys()].flatMap((id) => {
    const found = locator.stake(id);
    return isUnresolved(found) ? [] : [found.at];
  });
  const places = corners.length > 0 ? corners : stakes;
  if (places.length === 0 && typed.zone === undefined)
    return wrong(
      'point',
      undefined,
      'no block has a boundary and no stake a place; give one, such as "35.7121, -81.6834"',
    );
  return { ok: true, value: { places, ...zone } };
}
