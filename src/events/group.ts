// Groups of trees marked to be cut together, and the openings that cutting them makes.
import { area, choice, identity, label, position, reference, ring, text, yesNo } from './fields.ts';
import { optional } from './form.ts';
import { defineKind } from './kind.ts';

const chapter = 'Groups and openings';

export const groupLaidOut = defineKind({
  type: 'group-laid-out',
  chapter,
  title: 'Group laid out',
  help: 'Trees that are to be cut together. Cutting the group opens, or enlarges, an opening.',
  fields: {
    group: identity('group'),
    label: label('What the group is called.', 'G1'),
    block: optional(reference('block', 'In which block.', 'North cove')),
    reason: optional(text('Why here.', 'declining scarlet oak over white oak saplings')),
    center: optional(position('About where its middle is.')),
    plannedEdge: optional(ring('Planned edge of the opening.')),
    plannedArea: optional(area('Planned area of the opening.', '0.25 ac')),
  },
  example: { label: 'G1', block: 'North cove', plannedArea: '0.25 ac' },
});

export const groupWidened = defineKind({
  type: 'group-widened',
  chapter,
  title: 'Group widened',
  help: 'The group was made larger than first laid out, with the reason.',
  fields: {
    group: reference('group', 'Which group.', 'G1'),
    reason: text('Why it was widened.', 'two more scarlet oaks with dead tops at the north edge'),
    plannedEdge: optional(ring('Planned edge as it is now.')),
    plannedArea: optional(area('Planned area as it is now.', '0.3 ac')),
  },
  example: { group: 'G1', reason: 'two more scarlet oaks with dead tops at the north edge' },
});

export const openingClosed = defineKind({
  type: 'opening-closed',
  chapter,
  title: 'Opening closed',
  help: 'The work in this opening is done. What is still open then (hazards, hung-up stems, unchecked saplings) becomes a finding.',
  fields: {
    group: reference('group', 'Which group.', 'G1'),
    edge: optional(ring('Edge of the opening as walked, corner by corner.')),
    slash: optional(choice(['left', 'lopped', 'piled', 'removed'], 'What was done with the slash.')),
    photosTaken: optional(yesNo('Photographed when done.')),
    note: optional(text('What the next person should know.', 'edge oaks on the west side lean in')),
  },
  example: { group: 'G1', slash: 'lopped' },
});

export const openingReopened = defineKind({
  type: 'opening-reopened',
  chapter,
  title: 'Opening reopened',
  help: 'Work goes on in an opening that was closed.',
  fields: {
    group: reference('group', 'Which group.', 'G1'),
    reason: text('Why.', 'hung-up red maple still to be taken down'),
  },
  example: { group: 'G1', reason: 'hung-up red maple still to be taken down' },
});
