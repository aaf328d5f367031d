// Hazards that are open until somebody clears them, and damage that was done.
import { choice, identity, length, position, reference, text, woundArea } from './fields.ts';
import { optional } from './form.ts';
import { defineKind } from './kind.ts';

const chapter = 'Hazards and damage';

export const hazardNoted = defineKind({
  type: 'hazard-noted',
  chapter,
  title: 'Hazard noted',
  help: 'Something that can hurt a person. It stays open until it is recorded as cleared.',
  fields: {
    hazard: identity('hazard'),
    what: choice(
      [
        'hung-up-stem',
        'hanging-limb',
        'dead-top',
        'loose-bark',
        'uprooted-stem',
        'half-cut-stem',
        'leaning-stem',
        'dead-stem',
        'wire-or-line',
        'insects',
        'footing',
        'other',
      ],
      'What it is.',
    ),
    stem: optional(reference('stem', 'At which stem.', 'A12')),
    group: optional(reference('group', 'In which group.', 'G1')),
    radius: optional(length('distance', 'Keep away by this much.', '150 ft')),
    position: optional(position('Where, when it is at no stem.')),
    note: optional(text('What to know, and how it is marked on the ground.', 'red ribbon at eye level')),
  },
  example: { what: 'hanging-limb', stem: 'A12', group: 'G1', note: 'red ribbon at eye level' },
});

export const hazardCleared = defineKind({
  type: 'hazard-cleared',
  chapter,
  title: 'Hazard cleared',
  help: 'The hazard is gone, and how.',
  fields: {
    hazard: reference('hazard', 'Which hazard: its stem, or the number of its entry.', 'A12'),
    how: optional(text('How it was dealt with.', 'limb brought down with the felled stem')),
  },
  example: { hazard: 'A12', how: 'limb brought down with the felled stem' },
});

export const damageNoted = defineKind({
  type: 'damage-noted',
  chapter,
  title: 'Damage noted',
  help: 'Harm to a leave tree, a sapling, soil, water or a structure.',
  fields: {
    damage: identity('damage'),
    to: choice(['leave-tree', 'sapling', 'soil', 'water', 'structure'], 'What was harmed.'),
    what: optional(text('What happened.', 'bark torn by the crown of A12')),
    stem: optional(reference('stem', 'Which leave tree.', 'L3')),
    sapling: optional(reference('sapling', 'Which sapling.', 's1')),
    part: optional(choice(['bole', 'root', 'crown', 'top'], 'Which part of the tree.')),
    woundArea: optional(woundArea('Area of the wound.', '60 in2')),
    woundHeight: optional(length('height', 'Height of the wound above ground.', '4 ft')),
    byStem: optional(reference('stem', 'The stem that did it.', 'A12')),
    group: optional(reference('group', 'In which group.', 'G1')),
    position: optional(position('Where, when it is at no stem.')),
  },
  between: ({ to, stem, sapling }) => {
    if (to === 'leave-tree' && stem === undefined)
      return [{ field: 'stem', value: '', remedy: 'say which leave tree was harmed' }];
    if (to === 'sapling' && sapling === undefined)
      return [{ field: 'sapling', value: '', remedy: 'say which sapling was harmed' }];
    return [];
  },
  example: { to: 'leave-tree', stem: 'L3', part: 'bole', woundArea: '60 in2', byStem: 'A12' },
});
