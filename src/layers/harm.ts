// Hazards, open and cleared, and damage. What is at a stem or sapling is shown where that stands.
import { areaIn } from '../measure/index.ts';
import { isUnresolved, type Unresolved } from '../place/index.ts';
import {
  type Damage,
  type Hazard,
  hazardLabel,
  type Located,
  saplingLabel,
  stemLabel,
  words,
} from '../stand/index.ts';
import {
  entryTimes,
  groupColumns,
  lengthColumns,
  quantityColumns,
  stemName,
  text,
  timeOf,
} from './columns.ts';
import { defineLayer, type Shape, type Told, type View } from './layer.ts';
import { pointShape } from './view.ts';

export const hazards = defineLayer<Hazard>({
  name: 'hazards',
  title: 'Hazards',
  help: 'What can hurt a person, open or cleared. No hazard on the map does not mean that there is none.',
  geometry: 'Point',
  subjects: ({ stand }) => stand.hazards.values(),
  label: (hazard, { stand }) => hazardLabel(stand, hazard),
  shape: (hazard, view) => at(view, hazard.position, hazard),
  columns: [
    text('what', 'What it is.', ({ what }) => words(what)),
    text('state', 'open, or cleared.', ({ clearedBy }) => (clearedBy === undefined ? 'open' : 'cleared')),
    text('stem', 'The stem it is at.', ({ stem }, view) => stemName(view, stem)),
    ...groupColumns<Hazard>(),
    ...lengthColumns<Hazard>('keep_away', 'm', 'Keep away by this much.', ({ radius }) => radius),
    text('note', 'What to know, and how it is marked on the ground.', ({ note }) => note),
    timeOf<Hazard>('cleared_at', 'When it was cleared.', ({ clearedBy }) => clearedBy),
    ...entryTimes<Hazard>(),
  ],
});

export const damage = defineLayer<Damage>({
  name: 'damage',
  title: 'Damage',
  help: 'Harm done to leave trees, saplings, soil, water or structures.',
  geometry: 'Point',
  subjects: ({ stand }) => stand.damages.values(),
  label: damageLabel,
  shape: ({ body, position }, view) => at(view, position, body),
  columns: [
    text('harmed', 'What was harmed: leave tree, sapling, soil, water or structure.', ({ body }) =>
      words(body.to),
    ),
    text('what', 'What happened.', ({ body }) => body.what),
    text('stem', 'The leave tree that was harmed.', ({ body }, view) => stemName(view, body.stem)),
    text('part', 'Which part of the tree.', ({ body }) => body.part),
    ...woundColumns(),
    ...lengthColumns<Damage>(
      'wound_height',
      'm',
      'Height of the wound above ground.',
      ({ body }) => body.woundHeight,
    ),
    text('done_by', 'The stem that did it.', ({ body }, view) => stemName(view, body.byStem)),
    text('group', 'Label of its group.', ({ body }, { stand }) => stand.groups.get(body.group ?? '')?.label),
    text('group_uid', 'Identity of its group.', ({ body }) => body.group),
    ...entryTimes<Damage>(),
  ],
});

/** The area of a wound, in square centimetres beside what was written. */
function woundColumns(): Told<Damage>[] {
  return quantityColumns(
    'wound_area',
    'cm2',
    1,
    'Area of the wound.',
    ({ body }) => body.woundArea,
    squareCentimetres,
  );
}

function squareCentimetres(value: number, unit: string): number | undefined {
  switch (unit) {
    case 'cm2':
      return value;
    case 'in2':
      return areaIn(value / 144, 'ft2', 'm2') * 10_000;
    case 'ft2':
    case 'm2':
      return areaIn(value, unit, 'm2') * 10_000;
    default:
      return undefined;
  }
}

function damageLabel({ body }: Damage, { stand }: View): string {
  if (body.stem !== undefined) return `damage to ${stemLabel(stand.stems.get(body.stem))}`;
  if (body.sapling !== undefined) return `damage to ${saplingLabel(stand.saplings.get(body.sapling))}`;
  return `damage to ${words(body.to)}`;
}

/** Its own position, else that of the stem or sapling it is at. */
function at(
  { stand, locator }: View,
  position: Located | undefined,
  beside: Readonly<{ stem?: string | undefined; sapling?: string | undefined }>,
): Shape | Unresolved {
  if (position !== undefined) return pointShape(locator.resolve(position));
  const { stem, sapling } = beside;
  if (stem !== undefined) {
    return placedAt(stemLabel(stand.stems.get(stem)), pointShape(locator.stem(stem)));
  }
  if (sapling !== undefined) {
    const found = stand.saplings.get(sapling);
    return placedAt(saplingLabel(found), pointShape(locator.resolve(found?.position)));
  }
  return { why: 'No position was recorded, and it is at no stem or sapling.' };
}

function placedAt(label: string, shape: Shape | Unresolved): Shape | Unresolved {
  return isUnresolved(shape)
    ? { why: `It is at ${label}. ${shape.why}` }
    : { ...shape, via: `at ${label}: ${shape.via}` };
}
