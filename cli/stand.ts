// gapledger stand: the stand as it is or was. What can hurt somebody comes first.
import { speciesName } from '../src/events/index.ts';
import { headAt, knownNames, readStand } from '../src/record/index.ts';
import {
  type Folded,
  type GroupView,
  hazardLabel,
  openFindings,
  type Stem,
  standJson,
  stemLabel,
  viewGroup,
  withUnit,
  words,
} from '../src/stand/index.ts';
import { cautionLines } from './cautions.ts';
import { findGroup } from './group.ts';
import {
  type CommonOptions,
  type MomentOptions,
  paint,
  readMoment,
  say,
  sayJson,
  table,
  withLog,
} from './terminal/index.ts';

type Flags = CommonOptions & MomentOptions & { group?: string };

export async function work(_words: string[], flags: Flags): Promise<void> {
  await withLog(flags, async (log) => {
    const moment = await readMoment(log, flags);
    const folded = await readStand(log, moment);
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
    printDangers(folded);
    if (group) return printGroup(viewGroup(folded.stand, folded.findings, group));
    printAll(folded);
  });
}

/** Hung-up stems and open hazards, with the cautions. */
function printDangers({ stand }: Folded): void {
  const hungUp = [...stand.stems.values()].filter(({ status }) => status === 'hung-up');
  const hazards = [...stand.hazards.values()].filter(({ clearedBy }) => clearedBy === undefined);
  if (hungUp.length + hazards.length === 0) return;
  say(paint.bold('Open now: keep away'));
  for (const stem of hungUp)
    say(
      `  ${stemLabel(stem)} is hung up${stem.felling?.hungOn === undefined ? '' : ` in ${stemLabel(stand.stems.get(stem.felling.hungOn))}`}`,
    );
  for (const hazard of hazards)
    say(`  ${hazardLabel(stand, hazard)}${hazard.note === undefined ? '' : `: ${hazard.note}`}`);
  for (const line of cautionLines()) say(paint.dim(line));
  say('');
}

function printAll(folded: Folded): void {
  const { stand, findings } = folded;
  const { logbook } = stand;
  if (logbook) say(`${paint.bold(logbook.body.name)} (${logbook.body.crs}, ${logbook.body.zone})`);
  const counts = { standing: 0, felled: 0, 'hung-up': 0, 'found-down': 0, dead: 0 };
  for (const { status } of stand.stems.values()) counts[status] += 1;
  say(
    `${stand.stems.size} stems: ${
      Object.entries(counts)
        .filter(([, count]) => count > 0)
        .map(([status, count]) => `${count} ${words(status)}`)
        .join(', ') || 'none yet'
    }.`,
  );
  say('These are the stems in the log, and no census of a block.');
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
  if (open > 0) say(`\n${open} open ${open === 1 ? 'finding' : 'findings'}: "gapledger findings".`);
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
