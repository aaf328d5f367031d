// Words for the choices of each kind of entry. The types hold that none is forgotten.
import type { Body } from '../../../../events/index.ts';

type Words<T extends string | undefined> = Readonly<Record<Exclude<T, undefined>, string>>;
type DecaySign = NonNullable<Body<'stem-marked'>['decaySigns']>[number];

const mark: Words<Body<'stem-marked'>['mark']> = { cut: 'Cut', leave: 'Leave' };
const purpose: Words<Body<'stem-marked'>['purpose']> = {
  seed: 'seed',
  cavity: 'cavity',
  wildlife: 'wildlife',
  crop: 'crop tree',
  boundary: 'boundary',
  bumper: 'bumper tree',
  other: 'other',
};
const vigor: Words<Body<'stem-marked'>['vigor']> = { sound: 'sound', declining: 'declining', dead: 'dead' };
const decaySigns: Words<DecaySign> = {
  conks: 'conks',
  cavity: 'cavity',
  'soft-butt': 'soft butt',
  'dead-top': 'dead top',
  'dead-limbs': 'dead limbs',
  ants: 'ants',
  wound: 'wound',
  fork: 'fork',
  'hollow-sound': 'sounds hollow',
};
const notch: Words<Body<'stem-felled'>['notch']> = {
  'open-face': 'open face',
  conventional: 'conventional',
  humboldt: 'Humboldt',
  none: 'none',
};
const found: Words<Body<'decay-measured'>['found']> = {
  none: 'Looked, none',
  rot: 'rot',
  hollow: 'hollow',
  stain: 'stain',
};
const condition: Words<Body<'sapling-checked'>['condition']> = {
  unharmed: 'unharmed',
  bent: 'bent',
  broken: 'broken',
  crushed: 'crushed',
  'not-found': 'not found',
};
const hazard: Words<Body<'hazard-noted'>['what']> = {
  'hung-up-stem': 'hung-up stem',
  'hanging-limb': 'hanging limb',
  'dead-top': 'dead top',
  'loose-bark': 'loose bark',
  'uprooted-stem': 'uprooted stem',
  'half-cut-stem': 'half-cut stem',
  'leaning-stem': 'leaning stem',
  'dead-stem': 'dead stem',
  'wire-or-line': 'wire or line',
  insects: 'insects',
  footing: 'footing',
  other: 'something else',
};
const damaged: Words<Body<'damage-noted'>['to']> = {
  'leave-tree': 'leave tree',
  sapling: 'sapling',
  soil: 'soil',
  water: 'water',
  structure: 'structure',
};
const part: Words<Body<'damage-noted'>['part']> = { bole: 'bole', root: 'root', crown: 'crown', top: 'top' };
const slash: Words<Body<'opening-closed'>['slash']> = {
  left: 'left',
  lopped: 'lopped',
  piled: 'piled',
  removed: 'removed',
};

export const options = {
  mark,
  purpose,
  vigor,
  decaySigns,
  notch,
  found,
  condition,
  hazard,
  damaged,
  part,
  slash,
} as const;
