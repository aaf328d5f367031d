// How large an opening is, measured in one of several ways. They can stand side by side; each is named with its figure.
import { azimuth, choice, length, position, reference, ring, slope, text } from './fields.ts';
import { many, optional, row } from './form.ts';
import { defineKind, type Issue } from './kind.ts';

const spoke = {
  azimuth: azimuth('From the centre to the edge.', '45 mag'),
  distance: length('distance', 'To the edge.', '42 ft'),
  slope: optional(slope('Slope that the tape lay on; left out the distance is level.', '20 %')),
  height: optional(length('height', 'Height of the trees at that edge, for the hours of sun.', '70 ft')),
};

const edgeTree = {
  stem: reference('stem', 'A tree at the edge.', 'L3'),
  crown: optional(length('distance', 'How far its crown reaches into the opening from the stem.', '12 ft')),
};

export const openingMeasured = defineKind({
  type: 'opening-measured',
  chapter: 'Groups and openings',
  title: 'Opening measured',
  help: 'Size of an opening, in one of five ways. Several ways can stand side by side; the area is always given with its way. The hull of the stumps needs no entry of its own.',
  fields: {
    group: reference('group', 'Which group.', 'G1'),
    method: choice(
      ['spokes', 'walked-edge', 'two-diameters', 'crown-edge', 'edge-trees'],
      'How: spokes from the centre, the edge walked corner by corner, the longest axis and the one across, the crowns of the edge trees, or their stems (the expanded opening).',
    ),
    center: optional(position('Where the centre is; that of the group if left out.')),
    spokes: optional(
      many(
        row(
          spoke,
          'Azimuth and distance from the centre, at least three.',
          '0 true, 40 ft; 120 true, 38 ft; 240 true, 45 ft',
        ),
      ),
    ),
    edge: optional(ring('The edge as walked, or the edge trees where they are no stems of this logbook.')),
    longest: optional(length('distance', 'Longest axis.', '80 ft')),
    longestAzimuth: optional(azimuth('Direction of the longest axis.', '30 true')),
    across: optional(length('distance', 'Axis at right angles to it.', '55 ft')),
    edgeTrees: optional(
      many(
        row(
          edgeTree,
          'Trees at the edge in their order, with the reach of their crowns.',
          'L3, 12 ft; L4, 10 ft; L7, 14 ft',
        ),
      ),
    ),
    edgeHeight: optional(length('height', 'Height of the trees round the opening.', '70 ft')),
    note: optional(text('What else.', 'south side is a landing')),
  },
  between: (body) => [...needed(body), ...foreign(body)],
  example: { group: 'G1', method: 'two-diameters', longest: '80 ft', across: '55 ft', edgeHeight: '70 ft' },
});

type Way = 'spokes' | 'walked-edge' | 'two-diameters' | 'crown-edge' | 'edge-trees';
type Measured = Readonly<{ method: Way }> & Readonly<Partial<Record<Part, unknown>>>;
type Part = 'spokes' | 'edge' | 'longest' | 'longestAzimuth' | 'across' | 'edgeTrees';

/** What belongs to which way. */
const parts: Readonly<Record<Way, readonly Part[]>> = {
  spokes: ['spokes'],
  'walked-edge': ['edge'],
  'two-diameters': ['longest', 'longestAzimuth', 'across'],
  'crown-edge': ['edgeTrees'],
  'edge-trees': ['edge', 'edgeTrees'],
};

function needed({ method, spokes, edge, longest, across, edgeTrees }: Measured): Issue[] {
  const issue = (field: Part, remedy: string): Issue[] => [{ field, value: '', remedy }];
  const fewerThanThree = (rows: unknown) => !Array.isArray(rows) || rows.length < 3;
  switch (method) {
    case 'spokes':
      return fewerThanThree(spokes)
        ? issue('spokes', 'give at least three spokes, such as 0 true, 40 ft')
        : [];
    case 'walked-edge':
      return edge === undefined ? issue('edge', 'give the corners of the edge') : [];
    case 'two-diameters':
      if (longest === undefined) return issue('longest', 'give both axes');
      return across === undefined ? issue('across', 'give both axes') : [];
    case 'edge-trees':
      return edge === undefined && fewerThanThree(edgeTrees)
        ? issue('edgeTrees', 'give at least three trees at the edge, or their places as the edge')
        : [];
    case 'crown-edge':
      if (fewerThanThree(edgeTrees)) return issue('edgeTrees', 'give at least three trees at the edge');
      return (edgeTrees as readonly { crown?: unknown }[]).some(({ crown }) => crown === undefined)
        ? issue('edgeTrees', 'give how far the crown of each tree reaches in, such as L3, 12 ft')
        : [];
  }
}

function foreign(body: Measured): Issue[] {
  const all: readonly Part[] = ['spokes', 'edge', 'longest', 'longestAzimuth', 'across', 'edgeTrees'];
  return all
    .filter((part) => body[part] !== undefined && !parts[body.method].includes(part))
    .map((field) => ({
      field,
      value: '',
      remedy: `belongs to another way than ${body.method}; leave it out`,
    }));
}
