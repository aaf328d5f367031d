// What happened to stems: felled, hung up, found down or dead; and what the stump showed.
import {
  azimuth,
  choice,
  count,
  label,
  length,
  position,
  reference,
  species,
  text,
  yesNo,
} from './fields.ts';
import { optional } from './form.ts';
import { defineKind } from './kind.ts';

const chapter = 'Felling and stumps';

const lay = () =>
  azimuth('Azimuth of the lay as measured after the fall. Left out means not measured.', '40 mag');

/** For a stem that was never marked: `new` as the stem, and what is known of it. */
const neverMarked = {
  tag: optional(label('Tag, when the stem was never marked.', 'U1')),
  species: optional(species('Species, when the stem was never marked.', 'red maple')),
  dbh: optional(length('diameter', 'Diameter at breast height, when the stem was never marked.', '9 in')),
  group: optional(reference('group', 'In which group, when the stem was never marked.', 'G1')),
  position: optional(position('Where, when the stem was never located.')),
};

export const stemFelled = defineKind({
  type: 'stem-felled',
  chapter,
  title: 'Stem felled',
  help: 'A stem was cut (a stem that was never marked is "new"). Say whether it is down or hung up; the lay only if it was measured.',
  fields: {
    stem: reference('stem', 'Which stem.', 'A12'),
    came: choice(['down', 'hung-up'], 'Down on the ground, or lodged in another tree.'),
    hungOn: optional(reference('stem', 'The tree that holds it.', 'A14')),
    lay: optional(lay()),
    asAimed: optional(
      yesNo('By eye it lies as it was aimed. That is no measurement, and nothing is learned from it.'),
    ),
    layLength: optional(length('distance', 'Length of the stem on the ground.', '68 ft')),
    aimed: optional(azimuth('Azimuth it was aimed at.', '45 mag')),
    stumpHeight: optional(length('small', 'Height of the stump.', '8 in')),
    stumpDiameter: optional(length('diameter', 'Diameter of the stump, inside bark.', '15.5 in')),
    notch: optional(choice(['open-face', 'conventional', 'humboldt', 'none'], 'Kind of notch.')),
    boreCut: optional(yesNo('Bore cut with a holding strap.')),
    wedges: optional(count('Wedges used.', '2')),
    lever: optional(yesNo('Felling lever used.')),
    winch: optional(yesNo('Pulled with a winch.')),
    differed: optional(text('What went otherwise than meant.', 'turned left on the hinge')),
    ...neverMarked,
  },
  between: (body) =>
    body.hungOn !== undefined && body.came === 'down'
      ? [
          {
            field: 'hungOn',
            value: body.hungOn,
            remedy: 'only a hung-up stem is held by another; leave it out, or say hung-up',
          },
        ]
      : [],
  example: {
    stem: 'A12',
    came: 'down',
    lay: '40 mag',
    stumpHeight: '8 in',
    notch: 'open-face',
    boreCut: 'yes',
  },
});

export const hangUpCleared = defineKind({
  type: 'hang-up-cleared',
  chapter,
  title: 'Hang-up cleared',
  help: 'A hung-up stem is down now.',
  fields: {
    stem: reference('stem', 'Which stem.', 'A12'),
    how: optional(text('How it was brought down.', 'winched from 80 ft')),
    lay: optional(lay()),
  },
  example: { stem: 'A12', how: 'winched from 80 ft' },
});

export const stemFoundDown = defineKind({
  type: 'stem-found-down',
  chapter,
  title: 'Stem found down',
  help: 'A stem lies that nobody felled.',
  fields: {
    stem: reference('stem', 'Which stem.', 'A12'),
    cause: optional(choice(['uprooted', 'snapped', 'struck', 'unknown'], 'What brought it down.')),
    lay: optional(lay()),
    ...neverMarked,
  },
  example: { stem: 'A12', cause: 'uprooted' },
});

export const stemFoundDead = defineKind({
  type: 'stem-found-dead',
  chapter,
  title: 'Stem found dead',
  help: 'A stem is dead on its feet.',
  fields: {
    stem: reference('stem', 'Which stem.', 'A12'),
    note: optional(text('What was seen.', 'bark loose, top gone')),
    ...neverMarked,
  },
  example: { stem: 'A12', note: 'bark loose, top gone' },
});

export const decayMeasured = defineKind({
  type: 'decay-measured',
  chapter,
  title: 'Decay measured',
  help: 'The stump and butt were looked at. "none" is an answer: looked, and found no decay.',
  fields: {
    stem: reference('stem', 'Which stem.', 'A12'),
    found: choice(['none', 'rot', 'hollow', 'stain'], 'What the cut shows.'),
    upTheButt: optional(length('height', 'How far up the butt it goes.', '3.5 ft')),
    diameter: optional(length('diameter', 'Diameter of the decay at the stump.', '6 in')),
    shell: optional(length('small', 'Thinnest sound wood around it.', '4 in')),
    stumpDiameter: optional(length('diameter', 'Diameter of the stump, inside bark.', '15.5 in')),
    position: optional(position('Where the stump is, if it was never located.')),
    note: optional(text('What else.', 'brown cubical')),
  },
  between: (body) =>
    body.found === 'none' && (body.upTheButt ?? body.diameter ?? body.shell) !== undefined
      ? [
          {
            field: 'found',
            value: 'none',
            remedy: 'with a measure of decay say rot, hollow or stain; or leave the measures out',
          },
        ]
      : [],
  example: { stem: 'A12', found: 'rot', upTheButt: '3.5 ft', diameter: '6 in' },
});
