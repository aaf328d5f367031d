// The harvest report: one model of the folded log, for HTML and JSON alike.
import { cautions } from '../felling/index.ts';
import type { TreeHead } from '../log/entry/index.ts';
import {
  type Folded,
  type Group,
  type GroupView,
  locate,
  type Names,
  type StandingMethod,
  viewGroup,
} from '../stand/index.ts';
import { blockPart, logbookTerms } from './blocks.ts';
import { contextOf } from './context.ts';
import { evidenceOf } from './evidence.ts';
import { figureParts } from './figures.ts';
import { groupPart, loosePart } from './groups.ts';
import type { HarvestReport } from './model.ts';
import { recordPart } from './record.ts';

export type HarvestOptions = Readonly<{
  /** Tree head of the log that was folded. */
  head: TreeHead;
  /** The moment of making, RFC 3339; passed in, so that the same input gives the same report. */
  madeAt: string;
  /** Program and version, such as "gapledger 0.1.0". */
  program: string;
  names: Names;
  /** Numbers of the entries in the log, by id. */
  positions: ReadonlyMap<string, number>;
  /** As typed: up to which moment the log was folded, and at which size or time of knowledge. */
  at?: string;
  knownAt?: string;
  /** Id of one group, for a report on that group alone. */
  group?: string;
  /** By which rule standing volume is printed; none is without it. */
  volume?: StandingMethod;
}>;

/**
 * The harvest report as plain data: everything known is there with the numbers of the entries it rests on,
 * and what is unknown says so.
 *
 * @throws RangeError when the head is no tree head, or `group` names no group of the stand.
 */
export function harvestReport(folded: Folded, options: HarvestOptions): HarvestReport {
  const { stand } = folded;
  const context = contextOf(folded, options.positions, options.names);
  const locator = locate(stand);
  const shown = groupsShown(folded, options.group);
  const views = shown.map((group) => viewGroup(stand, folded.findings, group));
  const loose = options.group === undefined ? loosePart(context, views) : undefined;
  const blocks = new Set(shown.map(({ block }) => block));
  const property = stand.logbook?.body.name;
  const only = options.group === undefined ? '' : `, ${shown[0]?.label ?? ''}`;
  return {
    report: 'harvest',
    format: 1,
    title: `Harvest report${property === undefined ? '' : `: ${property}`}${only}`,
    madeAt: options.madeAt,
    madeLocal: context.recorded(options.madeAt),
    program: options.program,
    evidence: evidenceOf(options.head),
    moment: momentOf(options),
    logbook: logbookTerms(context),
    cautions,
    blocks: [...stand.blocks.values()]
      .filter(({ id }) => options.group === undefined || blocks.has(id))
      .map((block) => blockPart(context, block)),
    groups: [
      ...views.map((view) => groupPart(context, view, locator)),
      ...(loose === undefined ? [] : [loose]),
    ],
    figures: figureParts(folded, shown, {
      only: options.group !== undefined,
      volume: options.volume,
      names: options.names,
    }),
    record: recordPart(context, options.group === undefined ? unclaimed(folded, views) : [], views),
  };
}

function groupsShown({ stand }: Folded, id: string | undefined): Group[] {
  if (id === undefined) return [...stand.groups.values()];
  const group = stand.groups.get(id);
  if (group === undefined)
    throw new RangeError(`group "${id}": no such group; give the id of a group of the stand`);
  return [group];
}

/** Findings that belong to none of the groups. */
function unclaimed(folded: Folded, views: readonly GroupView[]) {
  const claimed = new Set(views.flatMap(({ findings }) => findings));
  return folded.findings.filter((finding) => !claimed.has(finding));
}

function momentOf({ at, knownAt, head, group }: HarvestOptions): HarvestReport['moment'] {
  return {
    ...(at === undefined ? {} : { at }),
    ...(knownAt === undefined ? {} : { knownAt }),
    sentences: [
      at === undefined ? 'Shows everything that is recorded.' : `Shows what had happened up to ${at}.`,
      knownAt === undefined
        ? `Rests on the first ${head.size} entries of the log, numbered from 0.`
        : `Shows what was known at ${knownAt}: the first ${head.size} entries of the log.`,
      ...(group === undefined
        ? []
        : ['Shows one group; the part on how the log was kept is about the whole log.']),
    ],
  };
}
