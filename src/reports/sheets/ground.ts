// A traverse, what moved, and the zones that fit, as words and tables.
import type { System } from '../../measure/index.ts';
import type { MovedFigures, TraverseFigures, ZonesFigures } from '../../stand/index.ts';
import { lengthsIn } from './lengths.ts';
import { head, number, rounded, type Sheet, wordy } from './model.ts';

export function traverseSheet(figures: TraverseFigures): Sheet {
  const { unit, north, measured, adjusted, land, remarks } = figures;
  const { misclosure, perimeter } = measured;
  const area = (of: typeof measured) => `${rounded(of.area, 1)} ${unit}²`;
  const closure =
    misclosure.azimuth === undefined
      ? 'It closes exactly.'
      : `It misses its start by ${rounded(misclosure.distance, 2)} ${unit} towards ${rounded(misclosure.azimuth, 1)}°: 1 in ${rounded(misclosure.ratio, 0)}.`;
  const table = (caption: string, traverse: typeof measured) => ({
    caption,
    columns: [
      head('Leg'),
      number(`Azimuth (${north}), °`),
      number(`Level distance, ${unit}`),
      number('Latitude'),
      number('Departure'),
    ],
    rows: traverse.legs.map((leg, index) => [
      String(index + 1),
      rounded(leg.azimuth, 2),
      ...[leg.distance, leg.latitude, leg.departure].map((value) => rounded(value, 2)),
    ]),
  });
  return {
    title: 'Traverse',
    lead: [
      `Perimeter ${rounded(perimeter, 1)} ${unit}. ${closure}`,
      adjusted === null
        ? `Area as measured, not adjusted: ${area(measured)}, ${rounded(land.value, 3)} ${land.unit}.`
        : `Area as measured ${area(measured)}; adjusted by the compass rule ${area(adjusted)}, ${rounded(land.value, 3)} ${land.unit}.`,
    ],
    tables: [
      table('As measured; latitudes north, departures east', measured),
      ...(adjusted === null ? [] : [table('Adjusted by the compass rule (Bowditch)', adjusted)]),
    ],
    remarks: [...remarks, `Source: ${figures.source}.`],
  };
}

export function movedSheet({ sinceSize, rows, remarks }: MovedFigures, system: System): Sheet {
  const length = lengthsIn(system);
  const title = `What moved since the log held ${sinceSize} entries`;
  if (rows.length === 0) return { title, lead: ['Nothing moved.'], tables: [], remarks };
  return {
    title,
    lead: [],
    tables: [
      {
        caption: 'The farthest moved first',
        columns: [
          head('What'),
          number(`Moved, ${length.unit}`),
          number('Towards, ° true'),
          wordy('Because'),
          wordy('Not placed'),
        ],
        rows: rows.map(({ label, metres, azimuthTrue, because, why }) => [
          label,
          metres === null ? '–' : length.of(metres, 2),
          azimuthTrue === null ? '–' : rounded(azimuthTrue, 0),
          because,
          why,
        ]),
      },
    ],
    remarks,
  };
}

export function zonesSheet({ utm, statePlane, explained, remarks }: ZonesFigures): Sheet {
  const table = (caption: string, rows: ZonesFigures['utm']) => ({
    caption,
    columns: [head('Code'), wordy('Name'), wordy('Unit'), wordy('Against WGS 84')],
    rows: rows.map(({ code, name, unit, note }) => [code, name, unit, note]),
  });
  return {
    title: 'Zones that fit',
    lead: explained === null ? [] : [explained],
    tables: [
      ...(utm.length === 0 ? [] : [table('UTM', utm)]),
      ...(statePlane.length === 0 ? [] : [table('State Plane, the nearest middle first', statePlane)]),
    ],
    remarks,
  };
}
