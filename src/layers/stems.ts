// Stems that stand, and stumps of those that do not any more. A stem is in one of the two layers, never in both.

import { isUnresolved } from '../place/index.ts';
import { blockOfStem, type Stem, stemLabel, stumpDiameterOf, words } from '../stand/index.ts';
import {
  azimuthColumns,
  blockName,
  count,
  entryTimes,
  groupColumns,
  lengthColumns,
  speciesColumns,
  stemName,
  text,
  timeOf,
  yesNo,
} from './columns.ts';
import { defineLayer, type Told, type View } from './layer.ts';
import { pointShape } from './view.ts';

const named: readonly Told<Stem>[] = [
  text('tag', 'Tag or number on the stem.', ({ tag }) => tag),
  yesNo('tag_lost', 'Whether the tag was found lost.', ({ tagLost }) => tagLost),
  ...speciesColumns<Stem>(({ species }) => species),
  text('status', 'standing, dead, felled, hung up or found down.', ({ status }) => words(status)),
  text('mark', 'Marked to be cut, or to stay (leave); empty when it was never marked.', ({ mark }) => mark),
  text('reason', 'Why it was marked so.', ({ reason }) => reason),
  ...groupColumns<Stem>(),
  text('block', 'Name of its block.', (stem, view) => blockName(view, blockOf(stem, view))),
];

const measured: readonly Told<Stem>[] = [
  ...lengthColumns<Stem>('dbh', 'cm', 'Diameter at breast height.', ({ dbh }) => dbh),
  ...lengthColumns<Stem>('height', 'm', 'Total height.', ({ height }) => height),
];

export const stems = defineLayer<Stem>({
  name: 'stems',
  title: 'Standing stems',
  help: 'Every recorded stem that stands, dead ones too, as it was last marked and measured. Recorded stems are no census.',
  geometry: 'Point',
  subjects: ({ stand }) => [...stand.stems.values()].filter(isOnItsStump),
  label: stemLabel,
  shape: (stem, view) => pointShape(view.locator.stem(stem.id)),
  columns: [
    ...named,
    text('purpose', 'What a leave tree stays for.', ({ purpose }) => purpose),
    ...measured,
    ...lengthColumns<Stem>(
      'merchantable_height',
      'm',
      'Merchantable height.',
      ({ merchantableHeight }) => merchantableHeight,
    ),
    ...lengthColumns<Stem>(
      'lean',
      'm',
      "The crown's horizontal offset from the stump.",
      ({ lean }) => lean?.offset,
    ),
    ...azimuthColumns<Stem>('lean_azimuth', 'Where the crown leans.', (stem, view) => {
      const where = view.locator.stem(stem.id);
      if (stem.lean === undefined || stem.position === undefined || isUnresolved(where)) return undefined;
      return { azimuth: stem.lean.azimuth, at: where.at, when: stem.position.when };
    }),
    text('vigor', 'How it was seen to stand: sound, declining or dead.', ({ vigor }) => vigor),
    text('product', 'What it would be sold as, as recorded.', ({ product }) => product),
    text('grade', 'Its grade, as recorded.', ({ grade }) => grade),
    text('decay_signs', 'Signs of decay or weakness seen from outside.', ({ decaySigns }) =>
      decaySigns.length === 0 ? undefined : decaySigns.map(words).join('; '),
    ),
    text('defects', 'Defects as written.', ({ defects }) => defects),
    ...entryTimes<Stem>(),
  ],
});

export const stumps = defineLayer<Stem>({
  name: 'stumps',
  title: 'Stumps',
  help: 'Where stems stood that are felled, hung up or found down, with what was measured at the stump. A hung-up stem is a danger to life: keep away.',
  geometry: 'Point',
  subjects: ({ stand }) => [...stand.stems.values()].filter((stem) => !isOnItsStump(stem)),
  label: stemLabel,
  shape: (stem, view) => pointShape(view.locator.stem(stem.id)),
  columns: [
    ...named,
    ...measured,
    timeOf<Stem>('felled_at', 'When it was felled.', ({ felling }) => felling?.entry),
    text('hung_on', 'The tree that it was hung up in.', ({ felling }, view) =>
      stemName(view, felling?.hungOn),
    ),
    timeOf<Stem>('hang_up_cleared_at', 'When a hang-up was cleared.', ({ felling }) => felling?.clearedBy),
    ...lengthColumns<Stem>(
      'stump_height',
      'm',
      'Height of the stump.',
      ({ felling }) => felling?.details.stumpHeight,
    ),
    ...lengthColumns<Stem>('stump_diameter', 'cm', 'Diameter of the stump, inside bark.', stumpDiameterOf),
    text('notch', 'Kind of notch.', ({ felling }) => felling?.details.notch),
    yesNo('bore_cut', 'Bore cut with a holding strap.', ({ felling }) => felling?.details.boreCut),
    count('wedges', 'Wedges used.', ({ felling }) => felling?.details.wedges),
    text('differed', 'What went otherwise than meant.', ({ felling }) => felling?.details.differed),
    text(
      'decay',
      'What the cut showed; "none" means looked and found none, empty means nobody looked.',
      ({ decay }) => decay?.body.found,
    ),
    ...lengthColumns<Stem>(
      'decay_up_the_butt',
      'm',
      'How far up the butt the decay goes.',
      ({ decay }) => decay?.body.upTheButt,
    ),
    ...lengthColumns<Stem>(
      'decay_diameter',
      'cm',
      'Diameter of the decay at the stump.',
      ({ decay }) => decay?.body.diameter,
    ),
    ...lengthColumns<Stem>('shell', 'cm', 'Thinnest sound wood around it.', ({ decay }) => decay?.body.shell),
    ...entryTimes<Stem>(),
  ],
});

function isOnItsStump({ status }: Stem): boolean {
  return status === 'standing' || status === 'dead';
}

function blockOf(stem: Stem, { stand }: View): string | undefined {
  return blockOfStem(stem, stand);
}
