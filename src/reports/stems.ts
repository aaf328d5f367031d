// The stems of a group: one row each, and counts of what was marked, felled, left and found.
import { speciesName } from '../events/index.ts';
import { counted, isDecay, type Stem, stemLabel, withUnit, words } from '../stand/index.ts';
import { type Context, known, missing, recordedOr } from './context.ts';
import type { Fact, StemRow, TallyRow } from './model.ts';

export function stemRow(context: Context, stem: Stem): StemRow {
  return {
    id: stem.id,
    label: stemLabel(stem),
    species: recordedOr(stem.species && speciesName(stem.species)),
    dbh: recordedOr(stem.dbh && withUnit(stem.dbh)),
    mark: markOf(stem),
    happened: happenedTo(context, stem),
    lay: layOf(context, stem),
    decay: decayOf(context, stem),
    entries: context.numbers(stem.entries),
  };
}

function markOf(stem: Stem): Fact {
  if (stem.mark === undefined) return missing('no mark recorded');
  const purpose = stem.purpose === undefined ? '' : ` (${words(stem.purpose)})`;
  const where = [stem.markAtEye && 'at eye level', stem.markOnStump && 'on the stump'].filter(Boolean);
  return known(`${stem.mark}${purpose}${where.length === 0 ? '' : `, marked ${where.join(' and ')}`}`);
}

function happenedTo(context: Context, stem: Stem): Fact {
  const { felling } = stem;
  if (felling !== undefined) {
    const holder = felling.hungOn === undefined ? undefined : context.folded.stand.stems.get(felling.hungOn);
    const hung = holder === undefined ? 'hung up' : `hung up in ${stemLabel(holder)}`;
    const clearing = context.happening(felling.clearedBy);
    const cleared =
      clearing === undefined ? 'not recorded as down' : `brought down ${context.time(clearing.happenedAt)}`;
    const story = [
      `felled ${context.time(felling.at)}`,
      ...(felling.came === 'hung-up' ? [hung, cleared] : []),
      felling.details.differed,
    ];
    return known(story.filter(Boolean).join(', '), context.numbers([felling.entry, felling.clearedBy]));
  }
  const found = lastOf(context, stem, stem.status === 'found-down' ? 'stem-found-down' : 'stem-found-dead');
  const when = found === undefined ? '' : ` ${context.time(found.happenedAt)}`;
  const entries = context.numbers([found?.entry.id]);
  if (stem.status === 'found-down') {
    const cause = found?.event.type === 'stem-found-down' ? found.event.body.cause : undefined;
    return known(`found down${when}${cause === undefined ? '' : `, ${cause}`}`, entries);
  }
  if (stem.status === 'dead') return known(`found dead, standing${when}`, entries);
  return stem.introduced ? known('standing, no felling recorded') : missing('not recorded');
}

function layOf(context: Context, stem: Stem): Fact {
  if (stem.felling !== undefined) {
    const { lay, layLength, entry, clearedBy } = stem.felling;
    if (lay === undefined) return missing('not measured');
    const length = layLength === undefined ? '' : `, ${withUnit(layLength)} long`;
    return known(`${lay.text}${length}`, context.numbers([entry, clearedBy]));
  }
  if (stem.status !== 'found-down') return known('not felled');
  const found = lastOf(context, stem, 'stem-found-down');
  const lay = found?.event.type === 'stem-found-down' ? found.event.body.lay : undefined;
  return lay === undefined ? missing('not measured') : known(lay.text, context.numbers([found?.entry.id]));
}

function decayOf(context: Context, stem: Stem): Fact {
  if (stem.decay === undefined) return missing('not examined');
  const { body, entry } = stem.decay;
  const said = [
    body.found === 'none' ? 'looked, none found' : body.found,
    body.upTheButt && `${withUnit(body.upTheButt)} up the butt`,
    body.diameter && `${withUnit(body.diameter)} across`,
    body.shell && `shell ${withUnit(body.shell)}`,
    body.note,
  ];
  return known(said.filter(Boolean).join(', '), context.numbers([entry]));
}

function lastOf(context: Context, stem: Stem, type: string) {
  return stem.entries
    .map((id) => context.happening(id))
    .filter((happening) => happening?.event.type === type)
    .at(-1);
}

/** By label, A2 before A10, so that a stem is found on paper. */
export function inOrder(stems: readonly Stem[]): Stem[] {
  return [...stems].sort((a, b) => order.compare(stemLabel(a), stemLabel(b)) || (a.id < b.id ? -1 : 1));
}
const order = new Intl.Collator('en', { numeric: true });

/** What was marked, felled, left and found: counts of the recorded stems, no census of anything. */
export function tallyStems(context: Context, stems: readonly Stem[]): TallyRow[] {
  const row = (what: string, wanted: (stem: Stem) => boolean): TallyRow => {
    const those = stems.filter(wanted);
    return {
      what,
      count: those.length,
      which: those.map(stemLabel),
      entries: context.numbers(those.flatMap(({ entries }) => entries)),
    };
  };
  const upright = (stem: Stem) => stem.status === 'standing' || stem.status === 'dead';
  return [
    row('marked to be cut', ({ mark }) => mark === 'cut'),
    row('marked to be cut, still standing', (stem) => stem.mark === 'cut' && upright(stem)),
    row('felled and down', ({ status }) => status === 'felled'),
    row('felled, still hung up', ({ status }) => status === 'hung-up'),
    row('felled without a mark', ({ mark, felling }) => felling !== undefined && mark === undefined),
    row('marked to stay (leave trees)', ({ mark }) => mark === 'leave'),
    row('leave trees felled', ({ mark, felling }) => felling !== undefined && mark === 'leave'),
    row('leave trees standing', (stem) => stem.mark === 'leave' && upright(stem)),
    row('found down, felled by nobody', ({ status }) => status === 'found-down'),
    row('found dead, standing', ({ status }) => status === 'dead'),
  ];
}

/** What the examined stumps showed; those that nobody looked at say nothing. */
export function decaySummary(context: Context, stems: readonly Stem[]): Fact[] {
  const cut = stems.filter(({ felling, decay }) => felling !== undefined || decay !== undefined);
  const examined = cut.filter(({ decay }) => decay !== undefined);
  if (cut.length === 0) return [missing('not enough data: no stem of this group is recorded as felled')];
  if (examined.length === 0) {
    return [missing(`not enough data: none of ${counted(cut.length, 'stump')} was examined`)];
  }
  const numbers = (these: readonly Stem[]) => context.numbers(these.map(({ decay }) => decay?.entry));
  const unexamined = cut.length - examined.length;
  const kinds = (['rot', 'hollow', 'stain'] as const).map((kind) => ({
    kind,
    stems: examined.filter(({ decay }) => decay?.body.found === kind),
  }));
  const decayed = examined.filter(({ decay }) => decay !== undefined && isDecay(decay.body.found));
  const named = kinds
    .filter((kind) => kind.stems.length > 0)
    .map(
      (kind) =>
        `${kind.kind === 'stain' ? 'stain alone' : kind.kind} in ${kind.stems.map(stemLabel).join(', ')}`,
    );
  return [
    known(
      `${examined.length} of ${counted(cut.length, 'stump')} examined; decay found in ${decayed.length}${named.length === 0 ? '' : `: ${named.join('; ')}`}.`,
      numbers(examined),
    ),
    ...(unexamined === 0
      ? []
      : [
          missing(
            `${counted(unexamined, 'stump was', 'stumps were')} not examined and ${unexamined === 1 ? 'says' : 'say'} nothing about decay.`,
          ),
        ]),
  ];
}
