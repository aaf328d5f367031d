// Stumps that somebody walked up to after the work, to hold what was cut against what was marked and recorded.
import { label, length, position, reference, species, text, yesNo } from './fields.ts';
import { optional } from './form.ts';
import { defineKind } from './kind.ts';

export const stumpAudited = defineKind({
  type: 'stump-audited',
  chapter: 'Felling and stumps',
  title: 'Stump audited',
  help: 'A stump was looked at after the work, whether the log knows its stem or not. Once stumps of a group are audited, its felled stems without one are findings.',
  fields: {
    stem: optional(reference('stem', 'Which stem it was, where that is certain.', 'A12')),
    tag: optional(label('What is written on the tag of the stump, when the stem is not named.', 'A12')),
    group: optional(reference('group', 'In which group it stands.', 'G1')),
    species: optional(species('Species by wood and bark.', 'scarlet oak')),
    diameterOutside: optional(length('diameter', 'Diameter of the stump, outside bark.', '17 in')),
    diameterInside: optional(length('diameter', 'Diameter of the stump, inside bark.', '15.5 in')),
    height: optional(
      length('small', 'Height above ground at which it was measured; without it no DBH follows.', '8 in'),
    ),
    markSeen: optional(yesNo('Whether the mark on the stump was found.')),
    position: optional(position('Where it stands.')),
    note: optional(text('What else.', 'fresh cut, no paint')),
  },
  example: { stem: 'A12', group: 'G1', diameterInside: '15.5 in', height: '8 in', markSeen: 'yes' },
});
