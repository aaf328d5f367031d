// gapledger report: the harvest report or the emergency card, as HTML or JSON; on request the log keeps that it was
// issued.
import { createHash } from 'node:crypto';
import { kinds, momentIn, type TypingProblem } from '../src/events/index.ts';
import type { Log } from '../src/log/store/index.ts';
import { append, headAt, knownNames, type Moment, readMethod, whoDidIt } from '../src/record/index.ts';
import {
  type EmergencyCardReport,
  emergencyCard,
  type HarvestReport,
  harvestReport,
  renderEmergencyCard,
  renderHtml,
} from '../src/reports/index.ts';
import type { Folded, StandingMethod } from '../src/stand/index.ts';
import { findBlock, findGroup } from './group.ts';
import {
  type CommonOptions,
  exitCodes,
  Failure,
  type MomentOptions,
  problemSentence,
  readMoment,
  standAt,
  tell,
  withDesk,
  withLog,
  writeWhole,
} from './terminal/index.ts';

type Flags = CommonOptions &
  MomentOptions & {
    group?: string;
    block?: string;
    format?: string;
    out?: string;
    issue?: string;
    by?: string;
    rule?: string;
    formClass?: string;
    form?: string;
    equation?: string;
  };

type Report = HarvestReport | EmergencyCardReport;

export async function work([which = 'harvest']: string[], flags: Flags, version: string): Promise<void> {
  const modelOf = makerOf(which, flags);
  const format = readFormat(flags);
  const program = `gapledger ${version}`;
  const make = async (log: Log) => {
    const moment = await readMoment(log, flags);
    const folded = await standAt(log, moment);
    return { folded, model: await modelOf({ log, folded, moment, flags, program }) };
  };
  const write = async (model: Report) => {
    const text = format === 'json' ? jsonOf(model) : await htmlOf(model);
    if (flags.out === undefined) return process.stdout.write(text);
    writeWhole(flags.out, text);
    tell(`Wrote ${flags.out}.`);
    return undefined;
  };
  if (flags.issue === undefined)
    return void (await withLog(flags, async (log) => write((await make(log)).model)));

  const to = flags.issue;
  await withDesk(flags, async (desk) => {
    const { folded, model } = await make(desk.log);
    const zone = folded.stand.logbook?.body.zone ?? 'UTC';
    const by = whoDidIt(desk, flags.by, folded.stand, await knownNames(desk.log, folded));
    if (!by.ok) throw new Failure(exitCodes.badInput, sayBy(by.problem));
    const { size, root } = model.evidence;
    const body = {
      report: model.report,
      sha256: createHash('sha256').update(jsonOf(model)).digest('hex'),
      size,
      root,
      program,
      to,
    };
    await write(model);
    const happenedAt = { at: momentIn(zone, desk.outside.now()), precision: 'instant' as const };
    const { receipts } = await append(desk, zone, [
      { type: 'report-issued', v: kinds['report-issued'].v, body, happenedAt, by: by.value },
    ]);
    const [receipt] = receipts;
    if (receipt?.outcome === 'recorded') tell(`Recorded as entry ${receipt.position}: issued to ${to}.`);
  });
}

function sayBy(problem: TypingProblem): string {
  const people = problem.choices?.map(({ text }) => text).join(', ') ?? '';
  return `${problemSentence(problem, '--by')}. There are: ${people}.`;
}

type Wanted = { log: Log; folded: Folded; moment: Moment; flags: Flags; program: string };

/** How the report of that name is made; a flag that means nothing to it is refused, not left unheard. */
function makerOf(which: string, flags: Flags): (wanted: Wanted) => Promise<Report> {
  if (which !== 'harvest' && which !== 'emergency-card')
    throw new Failure(exitCodes.badInput, `report "${which}": there are harvest and emergency-card.`);
  const idle: readonly (keyof Flags)[] =
    which === 'harvest' ? ['block'] : ['group', 'rule', 'formClass', 'form', 'equation'];
  const heard = which === 'harvest' ? '--group' : '--block';
  for (const flag of idle) {
    if (flags[flag] === undefined) continue;
    const name = flag === 'formClass' ? 'form-class' : flag;
    throw new Failure(
      exitCodes.badInput,
      `--${name} "${flags[flag]}": it means nothing to the ${which} report, which takes ${heard}; leave it out.`,
    );
  }
  return which === 'harvest' ? harvestModel : cardModel;
}

async function harvestModel(wanted: Wanted): Promise<HarvestReport> {
  const { folded, flags } = wanted;
  const volume = volumeWanted(flags);
  return harvestReport(folded, {
    ...(await common(wanted)),
    ...(volume === undefined ? {} : { volume }),
    ...(flags.group === undefined ? {} : { group: findGroup(folded.stand, flags.group).id }),
  });
}

/** What is asked for wrongly is said before a report is made. */
function volumeWanted({ rule, formClass, form, equation }: Flags): StandingMethod | undefined {
  if ((rule ?? formClass ?? form ?? equation) === undefined) return undefined;
  const read = readMethod({ rule, formClass, form, equation });
  if (read.ok) return read.value;
  const flag = read.field === 'formClass' ? 'form-class' : read.field;
  throw new Failure(exitCodes.badInput, problemSentence(read, `--${flag}`));
}

async function cardModel(wanted: Wanted): Promise<EmergencyCardReport> {
  const { folded, flags, moment } = wanted;
  return emergencyCard(folded, {
    ...(await common(wanted)),
    ...(moment.until === undefined ? {} : { until: moment.until }),
    ...(flags.block === undefined ? {} : { block: findBlock(folded.stand, flags.block).id }),
  });
}

async function common({ log, folded, moment, flags, program }: Wanted) {
  return {
    head: await headAt(log, moment),
    madeAt: momentIn(folded.stand.logbook?.body.zone ?? 'UTC', Date.now()),
    program,
    names: await knownNames(log, folded),
    positions: new Map([...folded.entries.values()].map(({ id, position }) => [id, position ?? -1])),
    ...(flags.at === undefined ? {} : { at: flags.at }),
    ...(flags.knownAt === undefined ? {} : { knownAt: flags.knownAt }),
  };
}

async function htmlOf(model: Report): Promise<string> {
  return model.report === 'harvest' ? renderHtml(model) : renderEmergencyCard(model);
}

/** The JSON form of a report; its hash is what "report issued" keeps. */
function jsonOf(model: Report): string {
  return `${JSON.stringify(model, null, 2)}\n`;
}

function readFormat({ format, out, json }: Flags): 'html' | 'json' {
  const wanted = format ?? (json === true || out?.endsWith('.json') ? 'json' : 'html');
  if (wanted === 'html' || wanted === 'json') return wanted;
  throw new Failure(exitCodes.badInput, `--format ${wanted}: write html or json.`);
}
