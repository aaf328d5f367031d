// Saplings and patches of regeneration that are protected, and how they came through.

import { isUnresolved, type Unresolved } from '../place/index.ts';
import { outlineOf, type Patch, type Sapling, saplingLabel, words } from '../stand/index.ts';
import {
  areaColumns,
  entryTimes,
  groupColumns,
  lengthColumns,
  speciesColumns,
  stemName,
  text,
  timeOf,
} from './columns.ts';
import { defineLayer, type Shape, type Told, type View } from './layer.ts';
import { pointShape } from './view.ts';

const unchecked = 'empty when nobody has looked since it was protected';

function checkColumns<Subject extends Sapling | Patch>(): Told<Subject>[] {
  return [
    text('condition', `How it was at the last check; ${unchecked}.`, ({ checks }) => {
      const last = checks.at(-1);
      return last === undefined ? undefined : words(last.condition);
    }),
    timeOf<Subject>('checked_at', 'When it was last checked.', ({ checks }) => checks.at(-1)?.entry),
    text('harmed_by', 'The stem that harmed it, by the last check.', ({ checks }, view) =>
      stemName(view, checks.at(-1)?.by),
    ),
  ];
}

export const saplings = defineLayer<Sapling>({
  name: 'saplings',
  title: 'Protected saplings',
  help: 'Saplings that are to come through the felling unharmed, with the last check.',
  geometry: 'Point',
  subjects: ({ stand }) => stand.saplings.values(),
  label: saplingLabel,
  shape: (sapling, { locator }) => pointShape(locator.resolve(sapling.position)),
  columns: [
    ...speciesColumns<Sapling>(({ species }) => species),
    ...groupColumns<Sapling>(),
    ...lengthColumns<Sapling>('height', 'm', 'Height.', ({ height }) => height),
    ...lengthColumns<Sapling>('diameter', 'cm', 'Diameter, where it was taken.', ({ diameter }) => diameter),
    text('beside', 'The stem it grows against.', ({ beside }, view) => stemName(view, beside)),
    ...checkColumns<Sapling>(),
    ...entryTimes<Sapling>(),
  ],
});

/** Patches have a layer of their own: they are areas. One without an edge is left out and listed, not drawn as a point. */
export const patches = defineLayer<Patch>({
  name: 'patches',
  title: 'Protected regeneration patches',
  help: 'Areas of regeneration that are to be kept and whose edge was taken, with the last check.',
  geometry: 'Polygon',
  subjects: ({ stand }) => stand.patches.values(),
  label: saplingLabel,
  shape: patchEdge,
  columns: [
    ...speciesColumns<Patch>(({ species }) => species),
    ...groupColumns<Patch>(),
    ...areaColumns<Patch>(
      'stated_area',
      'm2',
      'Area as stated, not computed from the edge.',
      ({ area }) => area,
    ),
    ...checkColumns<Patch>(),
    ...entryTimes<Patch>(),
  ],
});

function patchEdge({ edge, edgeWhen, position }: Patch, { locator }: View): Shape | Unresolved {
  if (edge !== undefined) return outlineOf('edge of the patch', edge, edgeWhen ?? '', locator);
  const middle = locator.resolve(position);
  if (isUnresolved(middle)) return { why: 'Its edge was not taken, and no position was recorded.' };
  const { lat, lon } = middle.at;
  return {
    why: `Its edge was not taken; its middle is at latitude ${lat.toFixed(7)}, longitude ${lon.toFixed(7)}.`,
  };
}
