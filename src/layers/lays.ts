// Lays: the lines along which felled stems lie. Only measured ones; where a stem was aimed is no lay.
import { destination, isUnresolved, metres, toTrueAzimuth, type Unresolved } from '../place/index.ts';
import { type Stem, stemLabel } from '../stand/index.ts';
import {
  azimuthColumns,
  entryTimes,
  figure,
  groupColumns,
  lengthColumns,
  speciesColumns,
  text,
  timeOf,
} from './columns.ts';
import { defineLayer, type Shape, type View } from './layer.ts';

export const lays = defineLayer<Stem>({
  name: 'lays',
  title: 'Lays of felled stems',
  help: 'From the stump along the azimuth that was measured after the fall, as long as the stem was measured to lie, else as its total height.',
  geometry: 'LineString',
  subjects: ({ stand }) => [...stand.stems.values()].filter(({ felling }) => felling !== undefined),
  label: stemLabel,
  shape: layLine,
  columns: [
    text('tag', 'Tag or number of the stem.', ({ tag }) => tag),
    ...speciesColumns<Stem>(({ species }) => species),
    ...groupColumns<Stem>(),
    ...azimuthColumns<Stem>('lay', 'Direction in which the stem lies.', ({ id, felling }, { locator }) => {
      const stump = locator.stem(id);
      if (felling?.lay === undefined || isUnresolved(stump)) return undefined;
      return { azimuth: felling.lay, at: stump.at, when: felling.at.at };
    }),
    ...lengthColumns<Stem>(
      'lay_length',
      'm',
      'Length of the stem on the ground.',
      ({ felling }) => felling?.layLength,
    ),
    text('length_from', 'Whether the line is as long as the measured stem or as its total height.', (stem) =>
      stem.felling?.layLength === undefined ? 'total height' : 'measured on the ground',
    ),
    figure('drawn_length_m', 'm', 2, 'Length of the line.', (stem) => {
      const length = lengthOf(stem);
      return isUnresolved(length) ? undefined : length.metres;
    }),
    text('aimed', 'Azimuth it was aimed at, as entered.', ({ felling }) => felling?.details.aimed?.text),
    timeOf<Stem>('felled_at', 'When it was felled.', ({ felling }) => felling?.entry),
    ...entryTimes<Stem>(),
  ],
});

function layLine(stem: Stem, { locator }: View): Shape | Unresolved {
  const { felling } = stem;
  if (stem.status === 'hung-up') return { why: 'It is hung up and does not lie on the ground; keep away.' };
  if (felling?.lay === undefined) return { why: 'Its lay was not measured.' };
  const stump = locator.stem(stem.id);
  if (isUnresolved(stump)) return stump;
  const azimuth = toTrueAzimuth(felling.lay, stump.at, felling.at.at, locator.declination);
  if (isUnresolved(azimuth)) return azimuth;
  const length = lengthOf(stem);
  if (isUnresolved(length)) return length;
  return {
    points: [stump.at, destination(stump.at, azimuth.value, length.metres)],
    via: `lay ${azimuth.words} from the stump; stump: ${stump.via}`,
    standardError: stump.standardError,
  };
}

function lengthOf({ felling, height }: Stem): { readonly metres: number } | Unresolved {
  if (felling?.layLength !== undefined) return metres(felling.layLength, 'length on the ground');
  if (height !== undefined) return metres(height, 'total height');
  return { why: 'Neither its length on the ground nor its total height was measured.' };
}
