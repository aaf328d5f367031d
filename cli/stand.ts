// gapledger stand: the stand as it is or was. What can hurt somebody comes first.
import { speciesName } from '../src/events/index.ts';
import { type FiguresTyped, headAt, knownNames } from '../src/record/index.ts';
import {
  type Folded,
  type GroupView,
  openFindings,
  type Stand,
  type Stem,
  standJson,
  stemLabel,
  viewGroup,
  withUnit,
  words,
} from '../src/stand/index.ts';
import { sayDangers } from './cautions.ts';
import { sayFigures } from './figures.ts';
import { findGroup } from './group.ts';
import {
  type CommonOptions,
  counted,
  exitCodes,
  Failure,
  type MomentOptions,
  paint,
  problemSentence,
  readMoment,
  say,
  sayJson,
  standAt,
  table,
  withLog,
} from './terminal/index.ts';

type Flags = CommonOptions & MomentOptions & { group?: string } & Pick<FiguresTyped, TableFlag>;

/** Flags that belong to the table alone. */
const tableFlags = ['block', 'since', 'floor', 'units', 'classes', 'around', 'radius'] as const;
type TableFlag = 'by' | (typeof tableFlags)[number];

export async function work(_words: string[], flags: Flags): Promise<void> {
  await withLog(flags, async (log) => {
    const moment = await readMoment(log, flags);
    const folded = await standAt(log, moment);
    const { by } = flags;
    if (by !== undefined) {
      const { block, group, since, floor, units, classes, around, radius } = flags;
      const typed = { by, block, group, since, floor, units, classes, around, radius };
      return sayFigures('stand', folded, typed, flags.json);
    }
    refuseWithoutBy(flags);
    const group = flags.group === undefined ? undefined : findGroup(folded.stand, flags.group);
    if (flags.json) {
      return sayJson(
        standJson(folded, {
          head: await headAt(log, moment),
          names: await knownNames(log, folded),
          ...(group ? { group: group.id } : {}),
        }),
      );
    }
    sayDangers(folded.stand);
    say('');
    if (group) return printGroup(viewGroup(folded.stand, folded.findings, group));
    printAll(folded);
  });
}

/** Flags of the table alone say nothing about the list of groups; silence would mislead. */
function refuseWithoutBy(flags: Pick<FiguresTyped, TableFlag>): void {
  for (const flag of tableFlags) {
    const value = flags[flag];
    if (value === undefined) continue;
    const remedy = 'it belongs to the table of the stand; add --by class, species or group';
    throw new Failure(exitCodes.badInput, problemSentence({ field: flag, value, remedy }, `--${flag}`));
  }
}

function printAll(folded: Folded): void {
  const { stand, findings } = folded;
  const { logbook } = stand;
  if (logbook) say(`${paint.bold(logbook.body.name)} (${logbook.body.crs}, ${logbook.body.zone})`);
  const counts = { standing: 0, felled: 0, 'hung-up': 0, 'found-down': 0, dead: 0 };
  for (const { status } of stand.stems.values()) counts[status] += 1;
  const each = Object.entries(counts).filter(([, count]) => count > 0);
  say(
    each.length === 0
      ? 'No stem is recorded.'
      : `${counted(stand.stems.size, 'stem')}: ${each.map(([status, count]) => `${count} ${words(status)}`).join(', ')}.`,
  );
  if (each.length > 0) for (const sentence of censusSentences(stand)) say(sentence);
  if (stand.groups.size > 0) {
    say('');
    say(
      table(
        [
          'Group',
          'Opening',
          'To cut',
          'Felled',
          'Hung up',
          'Still standing',
          'To stay',
          'Saplings',
          'Open findings',
        ].map((title, index) => (index < 2 ? { title } : { title, right: true as const })),
        [...stand.groups.values()].map((group) => {
          const view = viewGroup(stand, findings, group);
          const numbers = [
            view.markedCut,
            view.felled,
            view.hungUp,
            view.standingCut,
            view.markedLeave,
            view.saplings,
            view.openFindings,
          ];
          return [group.label, group.opening, ...numbers.map(({ length }) => String(length))];
        }),
      ),
    );
  }
  const open = openFindings(findings).length;
  if (open > 0) say(`\n${counted(open, 'open finding')}: "gapledger findings".`);
}

/** What the counts stand for: all stems of a block only where its tally is stated to be complete. */
function censusSentences({ blocks }: Stand): string[] {
  const complete = [...blocks.values()].flatMap(({ name, tallyScope }) => {
    const { coverage, floor } = tallyScope?.body ?? {};
    if (coverage !== 'complete') return [];
    return [
      `The tally of ${name} is stated to be complete (${floor === undefined ? 'smallest DBH not recorded' : `DBH from ${withUnit(floor)}`}).`,
    ];
  });
  if (complete.length === 0) return ['These are the stems in the log, and no census of a block.'];
  return complete.length === blocks.size
    ? complete
    : [...complete, 'Of other ground these are the stems in the log, and no census.'];
}

function printGroup(view: GroupView): void {
  const { group, stems, saplings, patches, openFindings: open } = view;
  say(
    `${paint.bold(group.label)}: opening ${group.opening}; ${view.markedCut.length} to cut, ${view.felled.length} felled, ${view.standingCut.length} still standing, ${view.markedLeave.length} to stay.`,
  );
  say('');
  say(
    table(
      [
        { title: 'Stem' },
        { title: 'Species' },
        { title: 'DBH', right: true },
        { title: 'Mark' },
        { title: 'Is' },
        { title: 'Lay' },
        { title: 'Stump' },
      ],
      stems.map((stem) => [
        stemLabel(stem),
        stem.species === undefined ? 'not recorded' : speciesName(stem.species),
        stem.dbh === undefined ? '' : withUnit(stem.dbh),
        stem.mark ?? 'no mark',
        words(stem.status),
        layOf(stem),
        stumpOf(stem),
      ]),
    ),
  );
  for (const thing of [...saplings, ...patches])
    say(
      `${thing.label ?? 'unlabelled'}: ${thing.checks.at(-1)?.condition.replace('-', ' ') ?? 'not checked'}`,
    );
  for (const { sentence } of open) say(`Finding: ${sentence}`);
}

function layOf(stem: Stem): string {
  if (stem.felling === undefined) return '';
  return stem.felling.lay === undefined ? 'not measured' : stem.felling.lay.text;
}

function stumpOf(stem: Stem): string {
  if (stem.felling === undefined) return '';
  if (stem.decay === undefined) return 'not examined';
  const { found, upTheButt } = stem.decay.body;
  if (found === 'none') return 'no decay';
  return upTheButt === undefined ? found : `${found}, ${withUnit(upTheButt)} up`;
}
