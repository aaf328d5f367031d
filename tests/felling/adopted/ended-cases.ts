// What ends an adopted plan, case by case: what was recorded before it, what after, and what is said then.
import type { Woods } from '../../record/woods.ts';

export type Step = Parameters<Woods['record']>;
export type Case = Readonly<{ what: string; before?: readonly Step[]; later: readonly Step[]; says: RegExp }>;

export const play = async (woods: Woods, steps: readonly Step[]) => {
  for (const [kind, fields, more] of steps) await woods.record(kind, fields, more);
};

const square = (far: string) =>
  `${far}, 3 m from stake S; ${far}, 6 m from stake S; ${Number(far.split(' ')[0]) + 20} true, 6 m from stake S`;
const consented: readonly Step[] = [
  ['boundary-evidence-noted', { block: 'North cove', evidence: 'surveyed', beyond: 'other-land' }],
];

export const ends: readonly Case[] = [
  {
    what: 'a stem of the plan that hung up',
    later: [['stem-felled', { stem: 'A1', came: 'hung-up' }]],
    says: /^A1 hung up\.$/,
  },
  {
    what: 'a stem that lies outside its band',
    later: [['stem-felled', { stem: 'A1', came: 'down', lay: '60 true' }]],
    says: /^A1 lies \d+° (?:left|right) of its aim, outside its band\.$/,
  },
  {
    what: 'a stem that was felled before one that was to go first',
    later: [['stem-felled', { stem: 'LAST', came: 'down' }]],
    says: /felled out of its order/,
  },
  {
    what: 'a stem of the plan that came down by itself',
    later: [['stem-found-down', { stem: 'A2', cause: 'uprooted' }]],
    says: /^A2 came down otherwise/,
  },
  {
    what: 'a stem of the plan that died',
    later: [['stem-found-dead', { stem: 'A2' }]],
    says: /^A2 was found dead/,
  },
  {
    what: 'a stem of the plan that was measured again',
    later: [['stem-measured', { stem: 'A2', lean: '2 m at 100 true' }]],
    says: /new was recorded of A2/,
  },
  {
    what: 'a stem of the plan that is to stay now',
    later: [['mark-changed', { stem: 'A2', mark: 'leave', reason: 'an owl' }]],
    says: /A2 is not to be cut any more/,
  },
  {
    what: 'one more stem to be cut',
    later: [
      [
        'stem-marked',
        { mark: 'cut', tag: 'A4', group: 'G1', dbh: '20 cm', position: '270 true, 5 m from stake S' },
      ],
    ],
    says: /A4 is to be cut and is not in the plan/,
  },
  {
    what: 'rot at a stump that nothing had shown',
    later: [
      ['stem-felled', { stem: 'A1', came: 'down' }],
      ['decay-measured', { stem: 'A1', found: 'rot', diameter: '10 cm' }],
    ],
    says: /A1 showed more rot than was noted/,
  },
  {
    what: 'rot that was measured in a stem that stands',
    later: [['decay-measured', { stem: 'A3', found: 'hollow', shell: '5 cm' }]],
    says: /A3/,
  },
  {
    what: 'a sapling that is gone',
    later: [['sapling-checked', { sapling: 's1', condition: 'not-found' }]],
    says: /s1 was not found/,
  },
  {
    what: 'a sapling nobody knew of',
    later: [['sapling-protected', { label: 's3', position: '90 true, 15 m from stake T' }]],
    says: /s3 was recorded anew/,
  },
  {
    what: 'a patch nobody knew of',
    later: [['patch-protected', { label: 'p1', edge: square('60 true') }]],
    says: /p1 was recorded anew/,
  },
  {
    what: 'a patch that was crushed',
    before: [['patch-protected', { label: 'p1', group: 'G1', edge: square('60 true') }]],
    later: [['sapling-checked', { patch: 'p1', condition: 'crushed' }]],
    says: /p1 was found crushed/,
  },
  {
    what: 'a hazard that was noted',
    later: [['hazard-noted', { what: 'hanging-limb', stem: 'A2' }]],
    says: /^A hazard was noted since: .*limb/,
  },
  {
    what: 'a hazard that was noted near by, in no group',
    later: [['hazard-noted', { what: 'wire-or-line', position: '10 true, 30 m from stake S' }]],
    says: /^A hazard was noted since/,
  },
  {
    what: 'a hazard that was cleared',
    before: [['hazard-noted', { what: 'insects', stem: 'A2', group: 'G1' }]],
    later: [['hazard-cleared', { hazard: 'A2', how: 'nest moved' }]],
    says: /^A hazard was cleared since/,
  },
  {
    what: 'a structure that was mapped within reach',
    later: [['feature-mapped', { label: 'shed', what: 'structure', point: '45 true, 40 m from stake S' }]],
    says: /shed \(structure\) was mapped within reach/,
  },
  {
    what: 'a power line whose poles stand far off and whose wire passes near',
    later: [
      [
        'feature-mapped',
        {
          label: 'the line',
          what: 'power-line',
          line: '270 true, 300 m from stake S; 80 true, 300 m from stake S',
        },
      ],
    ],
    says: /the line \(power line\)/,
  },
  {
    what: 'a boundary that was entered anew near by',
    later: [
      [
        'block-laid-out',
        {
          name: 'Spring knoll',
          boundary: '35.7153,-81.6835; 35.7153,-81.6800; 35.7190,-81.6800; 35.7190,-81.6835',
        },
      ],
    ],
    says: /boundary of Spring knoll/,
  },
  {
    what: 'evidence of a line of its block',
    later: consented,
    says: /How a line of the block is known/,
  },
  {
    what: "a neighbour's consent",
    before: consented,
    later: [['neighbour-consent-noted', { stems: 'A2', agreed: 'may be cut' }]],
    says: /neighbour agreed/,
  },
  {
    what: 'a leave tree that was felled',
    later: [['stem-felled', { stem: 'L1', came: 'down' }, { answers: ['anyway'] }]],
    says: /L1, which stood within reach, was felled/,
  },
  {
    what: 'a leave tree that the wind threw',
    later: [['stem-found-down', { stem: 'L1', cause: 'uprooted' }]],
    says: /L1, which stood within reach, was found down/,
  },
  {
    what: 'a leave tree that was measured',
    later: [['stem-measured', { stem: 'L1', dbh: '60 cm' }]],
    says: /new was recorded of L1/,
  },
  {
    what: 'a leave tree that nobody knew of',
    later: [['stem-marked', { mark: 'leave', tag: 'L2', position: '100 true, 20 m from stake S' }]],
    says: /L2 stands within reach/,
  },
  {
    what: 'a stem elsewhere whose height goes into the curve of those without one',
    before: [
      ...[20, 25, 30, 35, 40, 45, 50, 55].map(
        (dbh, at): Step => [
          'stem-marked',
          {
            mark: 'leave',
            tag: `H${at}`,
            dbh: `${dbh} cm`,
            height: `${14 + dbh / 5} m`,
            position: `${at} true, 8 m from stake far`,
          },
        ],
      ),
      [
        'stem-marked',
        {
          mark: 'cut',
          tag: 'A4',
          group: 'G1',
          dbh: '30 cm',
          position: '270 true, 5 m from stake S',
          lean: '1 m at 270 true',
        },
      ],
    ],
    later: [['stem-measured', { stem: 'H0', height: '9 m' }]],
    says: /height of A4 comes from the curve/,
  },
  {
    what: 'its group that was closed',
    later: [['opening-closed', { group: 'G1' }, { answers: ['anyway'] }]],
    says: /G1 was closed/,
  },
  {
    what: 'more wind than it was computed for',
    later: [['wind-noted', { wind: '8 mph' }]],
    says: /Wind of 8 mph was noted; the plan was computed for calm/,
  },
  {
    what: 'a number that was recorded for who adopted it',
    later: [
      [
        'felling-default-set',
        { person: 'Ann Weaver', assumption: 'directionError', value: '8', reason: 'two misses' },
      ],
    ],
    says: /directionError was set anew/,
  },
];
