// Blocks, what is wanted there, and what a tally of them covers.
import {
  area,
  azimuth,
  basalAreaDensity,
  choice,
  identity,
  label,
  length,
  percent,
  position,
  reference,
  ring,
  species,
  stemDensity,
  text,
} from './fields.ts';
import { many, optional } from './form.ts';
import { defineKind } from './kind.ts';

const chapter = 'Blocks and stakes';

export const blockLaidOut = defineKind({
  type: 'block-laid-out',
  chapter,
  title: 'Block laid out',
  help: 'An area under one prescription. Its boundary can be given now or by a later amendment.',
  fields: {
    block: identity('block'),
    name: label('What the block is called.', 'North cove'),
    boundary: optional(ring('Corners of the boundary in order.')),
    boundaryFrom: optional(
      choice(['surveyed', 'monuments', 'walked', 'map', 'assumed'], 'How the boundary is known.'),
    ),
    area: optional(area('Area as stated in deed or plan.', '12.4 ac')),
    axesOrigin: optional(position("Where the block's own x/y axes start.")),
    axesAzimuth: optional(azimuth('Direction of the y axis.', '0 true')),
  },
  between: (body) =>
    body.axesAzimuth !== undefined && body.axesOrigin === undefined
      ? [{ field: 'axesOrigin', value: '', remedy: 'give the origin of the axes as well as their azimuth' }]
      : [],
  example: { name: 'North cove', area: '12.4 ac' },
});

export const prescriptionSet = defineKind({
  type: 'prescription-set',
  chapter,
  title: 'Prescription set',
  help: 'What the cut is to achieve, in numbers. A later one replaces it; reports name the one in force.',
  fields: {
    block: reference('block', 'For which block.', 'North cove'),
    objective: optional(
      text('In a sentence, what the cut is for.', 'Release white oak and hickory saplings'),
    ),
    residualBasalArea: optional(basalAreaDensity('Basal area to be left between the openings.', '70 ft2/ac')),
    smallestOpening: optional(area('No opening smaller than this.', '0.1 ac')),
    largestOpening: optional(area('No opening larger than this.', '0.5 ac')),
    retention: optional(stemDensity('Leave trees to be kept.', '6 /ac')),
    favour: optional(many(species('Species to be favoured.'))),
    saplingLoss: optional(percent('Share of the protected saplings that may be lost.', '15 %')),
    source: optional(label('Who wrote it, and which version.', 'plan of 2026, version 2')),
  },
  example: {
    block: 'North cove',
    objective: 'Release white oak and hickory saplings',
    largestOpening: '0.5 ac',
  },
});

export const tallyScopeSet = defineKind({
  type: 'tally-scope-set',
  chapter,
  title: 'Tally scope set',
  help: 'What the recorded stems of a block stand for. Without it a group is no census and block figures are not given.',
  fields: {
    block: reference('block', 'Which block.', 'North cove'),
    coverage: choice(
      ['complete', 'sampled', 'partial'],
      'Whether every stem above the floor was recorded, a sample, or only some.',
    ),
    floor: optional(length('diameter', 'Smallest DBH that was recorded.', '5 in')),
    area: optional(area('Area that the tally covers.', '12.4 ac')),
  },
  example: { block: 'North cove', coverage: 'partial', floor: '5 in' },
});

export const stakeSet = defineKind({
  type: 'stake-set',
  chapter,
  title: 'Stake set',
  help: 'A reference point that others are measured from. Amending its position moves all that hangs on it.',
  fields: {
    stake: identity('stake'),
    label: label('What is written on it.', 'A'),
    position: optional(position('Where it stands.')),
    what: optional(label('What it is made of.', 'iron pin with orange cap')),
  },
  example: { label: 'A', position: '35.71210, -81.68340 +-4 m', what: 'iron pin' },
});
