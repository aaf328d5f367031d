// The ground: how well the lines of a block are known, what lies on it or beside it, and what neighbours agreed to.
import {
  area,
  choice,
  count,
  identity,
  label,
  length,
  path,
  position,
  reference,
  ring,
  slope,
  text,
  yesNo,
} from './fields.ts';
import { many, optional } from './form.ts';
import { defineKind, type Issue } from './kind.ts';

const chapter = 'Lines and ground';

export const boundaryEvidenceNoted = defineKind({
  type: 'boundary-evidence-noted',
  chapter,
  title: 'Boundary evidence noted',
  help: 'How the boundary of a block is known, at one corner, along one line, or all round. The latest entry about a line holds. Stems near the line are held against it when they are marked.',
  fields: {
    block: reference('block', 'Of which block.', 'North cove'),
    corner: optional(count('Which corner, counted from 1 in the order of the boundary.', '3')),
    line: optional(count('Which line: line 1 runs from corner 1 to corner 2.', '2')),
    evidence: choice(
      ['surveyed', 'monument-found', 'old-fence', 'assumed'],
      'What was found: surveyed and marked, a monument, an old fence or blazes, or nothing but the map.',
    ),
    beyond: optional(choice(['other-land', 'own-land'], "Whose land begins there; another's if left out.")),
    standardError: optional(
      length(
        'distance',
        'How far the line may be off, as one standard error; a default goes with the evidence.',
        '1 ft',
      ),
    ),
    foundBy: optional(reference('person', 'Who found or surveyed it.', 'Ann Weaver')),
    note: optional(text('What was seen.', 'iron pin with yellow cap, fence runs 4 ft north of it')),
  },
  between: ({ corner, line }) => [
    ...(corner !== undefined && line !== undefined
      ? [{ field: 'line', value: String(line), remedy: 'give a corner or a line, not both' }]
      : []),
    ...fromOne('corner', corner),
    ...fromOne('line', line),
  ],
  example: { block: 'North cove', line: '2', evidence: 'old-fence' },
});

export const featureMapped = defineKind({
  type: 'feature-mapped',
  chapter,
  title: 'Feature mapped',
  help: 'Something on the ground that cutting keeps a distance from or that matters to the map, as a point, a line or an area.',
  fields: {
    feature: identity('feature'),
    label: label('What it is called.', 'Laurel Run'),
    what: choice(
      [
        'stream',
        'standing-water',
        'wetland',
        'vernal-pool',
        'road',
        'structure',
        'power-line',
        'trail',
        'abutter',
      ],
      'What it is. An abutter is the land of a neighbour.',
    ),
    point: optional(position('Where it is, if it is a point.')),
    line: optional(path('Where it runs, point by point.')),
    edge: optional(ring('Its edge, corner by corner.')),
    width: optional(length('distance', 'How wide it is; a line is its middle.', '6 ft')),
    streamOrder: optional(count('Order of the stream.', '2')),
    perennial: optional(yesNo('Carries water all year.')),
    waterArea: optional(area('Size of standing water.', '12 ac')),
    roadClass: optional(label('Class of the road.', 'town road, class V')),
    sideSlopes: optional(
      many(slope('Slopes of the ground beside it, as read with the clinometer.', '20 %; 27 %')),
    ),
    note: optional(text('What else.', 'dry from July on')),
  },
  between: ({ point, line, edge, what, streamOrder, perennial, roadClass }) => [
    ...oneShape([point, line, edge]),
    ...only('stream', what, 'streamOrder', streamOrder),
    ...only('stream', what, 'perennial', perennial),
    ...only('road', what, 'roadClass', roadClass),
  ],
  example: {
    label: 'Laurel Run',
    what: 'stream',
    line: 'EPSG:2264 1209000,741000; EPSG:2264 1209090,741040',
    width: '6 ft',
    perennial: 'yes',
  },
});

export const neighbourConsentNoted = defineKind({
  type: 'neighbour-consent-noted',
  chapter,
  title: 'Neighbour consent noted',
  help: 'What a neighbour agreed to about trees at the line: for single stems, or for a whole line of a block.',
  fields: {
    block: optional(reference('block', 'At the line of which block.', 'North cove')),
    line: optional(count('Which line of it; all if left out.', '2')),
    abutter: optional(reference('feature', "The neighbour's land, if it is mapped.", 'Weaver lot')),
    stems: optional(many(reference('stem', 'Which stems.', 'B7'))),
    agreed: text('What was agreed.', 'both line oaks may be cut, wood is shared'),
    agreedBy: optional(
      reference('person', 'Who agreed; the name is kept apart and can be erased.', 'Joan Weaver'),
    ),
  },
  between: ({ block, line, stems }) => [
    ...(block === undefined && stems === undefined
      ? [{ field: 'stems', value: '', remedy: 'say which stems, or the line of which block' }]
      : []),
    ...(line !== undefined && block === undefined
      ? [{ field: 'block', value: '', remedy: 'a line is counted along a block; say which' }]
      : []),
    ...fromOne('line', line),
  ],
  example: { block: 'North cove', line: '2', agreed: 'both line oaks may be cut, wood is shared' },
});

/** Corners and lines are counted from 1. */
function fromOne(field: string, counted: number | undefined): Issue[] {
  return counted === 0 ? [{ field, value: '0', remedy: 'corners and lines are counted from 1' }] : [];
}

function oneShape(shapes: readonly unknown[]): Issue[] {
  return shapes.filter((shape) => shape !== undefined).length === 1
    ? []
    : [{ field: 'line', value: '', remedy: 'give one of point, line and edge' }];
}

function only(owner: string, what: string, field: string, value: unknown): Issue[] {
  return value === undefined || what === owner
    ? []
    : [
        {
          field,
          value: typeof value === 'string' ? value : '',
          remedy: `belongs to a ${owner}; leave it out`,
        },
      ];
}
