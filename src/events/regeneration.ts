// Saplings and patches of advance regeneration that are protected, and how they came through.
import {
  area,
  choice,
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
import { optional } from './form.ts';
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
