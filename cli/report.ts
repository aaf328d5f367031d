// gapledger report: the harvest report as HTML or JSON; on request the log keeps that it was issued.
import { createHash } from 'node:crypto';
import { kinds, momentIn, type TypingProblem } from '../src/events/index.ts';
import type { Log } from '../src/log/store/index.ts';
import { append, headAt, knownNames, type Moment, whoDidIt } from '../src/record/index.ts';
import { type HarvestReport, harvestReport, renderHtml } from '../src/reports/index.ts';
import type { Folded } from '../src/stand/index.ts';
import { findGroup } from './group.ts';
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
  MomentOptions & { group?: string; format?: string; out?: string; issue?: string; by?: string };

export async function work(_words: string[], flags: Flags, version: string): Promise<void> {
  const format = readFormat(flags);
  const program = `gapledger ${version}`;
  const make = async (log: Log) => {
    const moment = await readMoment(log, flags);
    const folded = await standAt(log, moment);
    return { folded, model: await modelOf(log, folded, moment, flags, program) };
  };
  const write = (model: HarvestReport) => {
    const text = format === 'json' ? jsonOf(model) : renderHtml(model);
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
      report: 'harvest',
      sha256: createHash('sha256').update(jsonOf(model)).digest('hex'),
      size,
      root,
      program,
      to,
    };
    write(model);
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

async function modelOf(
  log: Log,
  folded: Folded,
  moment: Moment,
  flags: Flags,
  program: string,
): Promise<HarvestReport> {
  const positions = new Map([...folded.entries.values()].map(({ id, position }) => [id, position ?? -1]));
  return harvestReport(folded, {
    head: await headAt(log, moment),
    madeAt: momentIn(folded.stand.logbook?.body.zone ?? 'UTC', Date.now()),
    program,
    names: await knownNames(log, folded),
    positions,
    ...(flags.at === undefined ? {} : { at: flags.at }),
    ...(flags.knownAt === undefined ? {} : { knownAt: flags.knownAt }),
    ...(flags.group === undefined ? {} : { group: findGroup(folded.stand, flags.group).id }),
  });
}

/** The JSON form of a report; its hash is what "report issued" keeps. */
function jsonOf(model: HarvestReport): string {
  return `${JSON.stringify(model, null, 2)}\n`;
}

function readFormat({ format, out, json }: Flags): 'html' | 'json' {
  const wanted = format ?? (json === true || out?.endsWith('.json') ? 'json' : 'html');
  if (wanted === 'html' || wanted === 'json') return wanted;
  throw new Failure(exitCodes.badInput, `--format ${wanted}: write html or json.`);
}
