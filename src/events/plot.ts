// Sample plots: of a fixed radius or by angle gauge, and the trees that were seen from them.
import {
  basalAreaDensity,
  choice,
  label,
  length,
  position,
  reference,
  slope,
  species,
  text,
  yesNo,
} from './fields.ts';
import { many, optional, row } from './form.ts';
import { defineKind, type Issue } from './kind.ts';

const tree = {
  species: optional(species('Species.')),
  dbh: optional(length('diameter', 'Diameter at breast height.', '14.2 in')),
  is: optional(
    choice(
      ['in', 'out', 'borderline'],
      'Left out it is in. A borderline tree is decided by its distance and DBH.',
    ),
  ),
  distance: optional(length('distance', 'From plot centre, for a tree near the limit.', '33.4 ft')),
  distanceTo: optional(
    choice(['center', 'face'], "Where the tape was held; left out it is the tree's centre."),
  ),
  height: optional(length('height', 'Height.', '62 ft')),
  dead: optional(yesNo('Dead on its feet.')),
  merchantableHeight: optional(
    length('height', 'Merchantable height; 0 where there is no log in it.', '32 ft'),
  ),
};

export const plotTallied = defineKind({
  type: 'plot-tallied',
  chapter: 'Samples and prices',
  title: 'Plot tallied',
  help: 'The trees of one sample plot. A plot without trees is recorded too: it counts. The same plot tallied again is a later visit.',
  fields: {
    block: optional(reference('block', 'In which block.', 'North cove')),
    plot: label('What the plot is called.', '7'),
    method: choice(['fixed-radius', 'angle-gauge'], 'How the plot takes its trees.'),
    plotRadius: optional(length('distance', 'Radius of a plot of fixed radius.', '37.24 ft')),
    factor: optional(basalAreaDensity('Basal area factor of the gauge.', '10 ft2/ac')),
    floor: optional(length('diameter', 'Smallest DBH that was tallied.', '5 in')),
    slope: optional(slope('Slope of the ground.', '25 %')),
    laidOut: optional(
      choice(
        ['level', 'along-the-slope'],
        'Whether distances and angles were brought to the level. Left out they were.',
      ),
    ),
    position: optional(position('Where its centre is.')),
    trees: optional(
      many(
        row(
          tree,
          'The trees, one after the other.',
          'white oak, 14.2 in; red maple, 12 in, borderline, 33.4 ft',
        ),
      ),
    ),
    note: optional(text('What else.', 'line fell on the trail, moved 20 ft east')),
  },
  between: ({ method, plotRadius, factor, laidOut, slope: grade }) => [
    ...(method === 'fixed-radius' ? fits('plotRadius', plotRadius, 'factor', factor) : []),
    ...(method === 'angle-gauge' ? fits('factor', factor, 'plotRadius', plotRadius) : []),
    ...(laidOut === 'along-the-slope' && grade === undefined
      ? [{ field: 'slope', value: '', remedy: 'a plot laid out along the slope needs the slope' }]
      : []),
  ],
  example: {
    block: 'North cove',
    plot: '7',
    method: 'angle-gauge',
    factor: '10 ft2/ac',
    trees: 'white oak, 14.2 in; red maple, 12 in, borderline, 33.4 ft',
  },
});

/** A method has its own measure, above zero, and not that of the other. */
function fits(
  own: string,
  measure: { value: string; text: string } | undefined,
  other: string,
  others: { text: string } | undefined,
): Issue[] {
  const needed = measure === undefined || Number(measure.value) <= 0;
  return [
    ...(needed
      ? [{ field: own, value: measure?.text ?? '', remedy: 'this method needs it, and above zero' }]
      : []),
    ...(others === undefined
      ? []
      : [{ field: other, value: others.text, remedy: 'belongs to the other method; leave it out' }]),
  ];
}
