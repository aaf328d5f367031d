// Stems: marking, a change of mind, measuring again, tags.
import {
  azimuth,
  choice,
  identity,
  label,
  lean,
  length,
  position,
  reference,
  species,
  text,
  yesNo,
} from './fields.ts';
import { many, optional } from './form.ts';
import { defineKind, type Issue } from './kind.ts';

const chapter = 'Stems and marks';

const mark = () => choice(['cut', 'leave'], 'To be cut, or to stay.');
const purpose = () =>
  choice(
    ['seed', 'cavity', 'wildlife', 'crop', 'boundary', 'bumper', 'other'],
    'What a leave tree stays for.',
  );

/** A stem that is to be cut stays for nothing. */
function purposeOfLeaveTree({ mark, purpose }: { mark: string; purpose?: string | undefined }): Issue[] {
  if (purpose === undefined || mark !== 'cut') return [];
  const remedy = 'only a leave tree has a purpose; leave it out, or mark the stem to leave';
  return [{ field: 'purpose', value: purpose, remedy }];
}

const markPainted = {
  markAtEye: optional(yesNo('Marked at eye level.')),
  markOnStump: optional(yesNo('Marked on the stump, below the cut.')),
};

/** What is measured at or seen on a standing stem, the first time or again. */
const seenOnStem = {
  dbh: optional(length('diameter', 'Diameter at breast height.', '14.2 in')),
  height: optional(length('height', 'Total height, if measured.', '74 ft')),
  merchantableHeight: optional(
    length('height', 'Merchantable height; 0 where there is no log in it.', '32 ft'),
  ),
  crownBase: optional(length('height', 'Height of the lowest live part of the crown.', '38 ft')),
  crownRadius: optional(length('distance', 'Radius of the crown, from the middle of the bole.', '12 ft')),
  lean: optional(lean("The crown's horizontal offset from the stump, and its azimuth.", '6 ft at 210 mag')),
  decaySigns: optional(
    many(
      choice(
        ['conks', 'cavity', 'soft-butt', 'dead-top', 'dead-limbs', 'ants', 'wound', 'fork', 'hollow-sound'],
        'Signs of decay or weakness seen from outside.',
      ),
    ),
  ),
  seams: optional(many(azimuth('Azimuth of each open seam.', '190 mag'))),
  shell: optional(
    length(
      'small',
      'Sound wood round a rotten heart where it will be cut, at its thinnest, if bored.',
      '4 in',
    ),
  ),
  pocket: optional(azimuth('Azimuth of a rotten pocket or an opening in the butt.', '120 mag')),
  pocketDepth: optional(length('small', 'How far the pocket reaches in from the bark.', '5 in')),
  pocketAround: optional(length('small', 'How far round the bark the pocket goes.', '9 in')),
  defects: optional(
    text('Sweep, crook, forks, wire: anything a buyer or feller should know.', 'crook at 20 ft'),
  ),
  vigor: optional(choice(['sound', 'declining', 'dead'], 'How it stands: sound, declining or dead.')),
  product: optional(label('What it would be sold as, in the words of the price list.', 'sawlog')),
  grade: optional(label('Its grade, in the words of the price list.', 'F2')),
  position: optional(position('Where it stands.')),
};

export const stemMarked = defineKind({
  type: 'stem-marked',
  chapter,
  title: 'Stem marked',
  help: 'A stem is marked to be cut or to stay. Cut or leave is all that must be said; the rest can come later.',
  fields: {
    stem: identity('stem'),
    mark: mark(),
    tag: optional(label('Tag or number on the stem.', 'A12')),
    species: optional(species('Species: name, symbol or inventory number.', 'scarlet oak')),
    group: optional(reference('group', 'To be cut with which group.', 'G1')),
    block: optional(reference('block', 'In which block, when it belongs to no group.', 'North cove')),
    ...seenOnStem,
    ...markPainted,
    reason: optional(text('Why this stem.', 'declining, shades white oak saplings')),
    purpose: optional(purpose()),
  },
  between: purposeOfLeaveTree,
  example: {
    mark: 'cut',
    tag: 'A12',
    species: 'scarlet oak',
    dbh: '14.2 in',
    group: 'G1',
    position: '135 mag, 42 ft from stake A',
  },
});

export const markChanged = defineKind({
  type: 'mark-changed',
  chapter,
  title: 'Mark changed',
  help: 'A change of mind about a stem. It is no mistake: both marks stay in the log.',
  fields: {
    stem: reference('stem', 'Which stem.', 'A12'),
    mark: mark(),
    group: optional(reference('group', 'To be cut with which group.', 'G1')),
    block: optional(reference('block', 'In which block, when it belongs to no group.', 'North cove')),
    ...markPainted,
    reason: optional(text('Why.', 'cavity with an owl')),
    purpose: optional(purpose()),
  },
  between: purposeOfLeaveTree,
  example: { stem: 'A12', mark: 'leave', purpose: 'cavity', reason: 'cavity with an owl' },
});

export const stemMeasured = defineKind({
  type: 'stem-measured',
  chapter,
  title: 'Stem measured again',
  help: 'New measurements of a stem that is already in the log. Earlier ones stay as they were.',
  fields: {
    stem: reference('stem', 'Which stem.', 'A12'),
    species: optional(species('Species, when it was not known before.', 'scarlet oak')),
    ...seenOnStem,
  },
  example: { stem: 'A12', height: '74 ft', lean: '6 ft at 210 mag' },
});

export const tagLost = defineKind({
  type: 'tag-lost',
  chapter,
  title: 'Tag lost',
  help: 'The tag is gone: chewed off, fallen, unreadable. The stem keeps its identity.',
  fields: {
    stem: reference('stem', 'Which stem.', 'A12'),
    note: optional(text('What was found.', 'nail only')),
  },
  example: { stem: 'A12', note: 'nail only' },
});

export const tagReplaced = defineKind({
  type: 'tag-replaced',
  chapter,
  title: 'Tag replaced',
  help: 'The stem has another tag from now on.',
  fields: {
    stem: reference('stem', 'Which stem.', 'A12'),
    tag: label('The new tag.', 'B7'),
  },
  example: { stem: 'A12', tag: 'B7' },
});
