// Saplings and patches of advance regeneration that are protected, how they came through, and counts of young trees.
import {
  area,
  choice,
  count,
  identity,
  label,
  length,
  percent,
  position,
  reference,
  ring,
  species,
  text,
} from './fields.ts';
import { many, optional, row } from './form.ts';
import { defineKind } from './kind.ts';

const chapter = 'Saplings and regeneration';

export const saplingProtected = defineKind({
  type: 'sapling-protected',
  chapter,
  title: 'Sapling protected',
  help: 'A sapling that is to come through the felling unharmed.',
  fields: {
    sapling: identity('sapling'),
    label: optional(label('What is written on its flag.', 's1')),
    species: optional(species('Species.', 'white oak')),
    height: optional(length('height', 'Height.', '6 ft')),
    diameter: optional(length('diameter', 'Diameter (say where, if not at breast height).', '0.8 in')),
    group: optional(reference('group', 'In which group.', 'G1')),
    beside: optional(reference('stem', 'The stem it grows against.', 'A12')),
    position: optional(position('Where it stands.')),
    note: optional(text('What to know.', 'flagged blue')),
  },
  example: {
    label: 's1',
    species: 'white oak',
    height: '6 ft',
    group: 'G1',
    position: '80 mag, 20 ft from stake A',
  },
});

export const patchProtected = defineKind({
  type: 'patch-protected',
  chapter,
  title: 'Regeneration patch protected',
  help: 'An area of regeneration that is to be kept.',
  fields: {
    patch: identity('patch'),
    label: optional(label('What the patch is called.', 'p1')),
    species: optional(species('Main species.', 'white oak')),
    group: optional(reference('group', 'In which group.', 'G1')),
    edge: optional(ring('Its edge.')),
    position: optional(position('Its middle, when the edge was not taken.')),
    area: optional(area('Area, when the edge was not taken.', '300 ft2')),
    note: optional(text('What to know.', 'about 40 oaks knee high')),
  },
  example: { label: 'p1', species: 'white oak', group: 'G1', area: '300 ft2' },
});

export const saplingChecked = defineKind({
  type: 'sapling-checked',
  chapter,
  title: 'Sapling checked',
  help: 'Somebody looked at a protected sapling or patch after felling.',
  fields: {
    sapling: optional(reference('sapling', 'Which sapling.', 's1')),
    patch: optional(reference('patch', 'Which patch.', 'p1')),
    condition: choice(['unharmed', 'bent', 'broken', 'crushed', 'not-found'], 'How it came through.'),
    share: optional(percent('Of a patch: how much of it is in this condition.', '20 %')),
    byStem: optional(reference('stem', 'The stem that did it.', 'A12')),
    note: optional(text('What else.', 'top will straighten')),
  },
  between: (body) =>
    (body.sapling === undefined) === (body.patch === undefined)
      ? [
          {
            field: 'sapling',
            value: body.sapling ?? '',
            remedy: 'name the sapling or the patch, one of them',
          },
        ]
      : [],
  example: { sapling: 's1', condition: 'unharmed' },
});

const counted = {
  species: species('Species.'),
  heightClass: label('Height class, in the words of the method.', 'under 1 ft'),
  count: count('How many.', '6'),
};

export const regenerationCounted = defineKind({
  type: 'regeneration-counted',
  chapter,
  title: 'Regeneration counted',
  help: 'Young trees on one small plot, by species and height class. A plot without any is recorded too: it counts. The same plot counted again is a later visit.',
  fields: {
    block: optional(reference('block', 'In which block.', 'North cove')),
    group: optional(reference('group', 'In the opening of which group.', 'G1')),
    plot: label('What the plot is called.', 'r3'),
    plotRadius: length('distance', 'Radius of the plot, level.', '3.72 ft'),
    method: label('How plots were laid out and what was counted.', 'milacre plots every half chain'),
    counts: optional(
      many(
        row(counted, 'Counts, one after the other.', 'white oak, under 1 ft, 6; red maple, 1 to 4.5 ft, 2'),
      ),
    ),
    position: optional(position('Where its centre is.')),
    note: optional(text('What else.', 'browsed')),
  },
  between: ({ block, group, plotRadius }) => [
    ...(block === undefined && group === undefined
      ? [{ field: 'group', value: '', remedy: 'name the group or the block that the plot stands for' }]
      : []),
    ...(Number(plotRadius.value) > 0
      ? []
      : [{ field: 'plotRadius', value: plotRadius.text, remedy: 'a plot has a radius above zero' }]),
  ],
  example: {
    group: 'G1',
    plot: 'r3',
    plotRadius: '3.72 ft',
    method: 'milacre plots every half chain',
    counts: 'white oak, under 1 ft, 6; red maple, 1 to 4.5 ft, 2',
  },
});
