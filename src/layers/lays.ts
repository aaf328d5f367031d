// Lays: the lines along which felled stems lie. Only measured ones; where a stem was aimed is no lay.
import { isUnresolved, type Unresolved } from '../place/index.ts';
import { layLine, lengthOfLay, type Stem, stemLabel } from '../stand/index.ts';
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
  shape: shapeOf,
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
      const length = lengthOfLay(stem);
      return isUnresolved(length) ? undefined : length.metres;
    }),
    text('aimed', 'Azimuth it was aimed at, as entered.', ({ felling }) => felling?.details.aimed?.text),
    timeOf<Stem>('felled_at', 'When it was felled.', ({ felling }) => felling?.entry),
    ...entryTimes<Stem>(),
  ],
});

function shapeOf(stem: Stem, { locator }: View): Shape | Unresolved {
  const line = layLine(stem, locator);
  if (isUnresolved(line)) return line;
  const { points, words, stump } = line;
  return {
    points,
    via: `lay ${words} from the stump; stump: ${stump.via}`,
    standardError: stump.standardError,
  };
}
