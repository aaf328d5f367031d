// gapledger import: shows what a file would bring in and what is doubted about it; records it when no doubt is open.
import { existsSync, readFileSync, statSync } from 'node:fs';
import {
  type Desk,
  type FileBytes,
  type ImportPlan,
  type ImportTyped,
  importing,
} from '../src/record/index.ts';
import {
  type CommonOptions,
  counted,
  exitCodes,
  Failure,
  paint,
  say,
  sayJson,
  withDesk,
} from './terminal/index.ts';

type Flags = CommonOptions &
  Omit<ImportTyped, 'answers' | 'columns'> & {
    answer?: string[];
    column?: string[];
    dryRun?: boolean;
    layer?: string;
  };

/** Larger files are not even read; what is inside of them is limited in more ways. */
const mostBytes = 50_000_000;

export async function work([path = '']: string[], flags: Flags): Promise<void> {
  const file = fileAt(path, flags.layer);
  await withDesk(flags, async (desk) => {
    const { ImportRefusal } = await importing();
    try {
      await bringIn(desk, file, flags);
    } catch (error) {
      if (!(error instanceof ImportRefusal)) throw error;
      const { field, value, remedy } = error;
      throw new Failure(exitCodes.badInput, `${path}: ${error.message}. Nothing was recorded.`, {
        field,
        value,
        remedy,
      });
    }
  });
}

async function bringIn(desk: Desk, file: FileBytes, { json, dryRun, ...flags }: Flags): Promise<void> {
  const { planImport, commitImport } = await importing();
  const { answer, column, logbook: _where, layer: _layer, ...typed } = flags;
  const plan = await planImport(desk, file, { ...typed, answers: answer, columns: column });
  if (dryRun === true) return json ? sayJson(asJson(plan)) : preview(plan);
  if (plan.doubts.length > 0) throw unanswered(plan);
  const { receipts } = await commitImport(desk, plan);
  if (json) return sayJson({ ...asJson(plan), receipts });
  const [first] = receipts;
  const number = first !== undefined && 'position' in first ? first.position : undefined;
  const count = counted(receipts.length - 1, 'entry', 'entries');
  say(`${file.name}: ${count} recorded after entry ${number}, which names the file.`);
  for (const sentence of leftOut(plan)) say(sentence);
  say(`To take all of it out again: gapledger record entry-struck --strikes ${number} --reason "…"`);
}

function fileAt(path: string, layer: string | undefined): FileBytes {
  const read = (at: string) => new Uint8Array(readFileSync(at));
  try {
    if (statSync(path).size > mostBytes)
      throw new Failure(exitCodes.badInput, `${path}: is larger than ${mostBytes / 1e6} MB; divide it.`);
    return {
      name: path,
      bytes: read(path),
      layer,
      beside: (ending) => {
        const stem = path.replace(/\.shp$/i, '');
        const found = [ending, ending.toUpperCase()].map((one) => stem + one).find((one) => existsSync(one));
        return found === undefined ? undefined : read(found);
      },
    };
  } catch (error) {
    if (error instanceof Failure) throw error;
    throw new Failure(exitCodes.badInput, `${path}: there is no such file, or it cannot be read.`);
  }
}

function preview(plan: ImportPlan): void {
  const { format, as, crs, entries, drafts } = plan;
  const system =
    crs === undefined ? '' : `, coordinates in ${crs === 'lonlat' ? 'longitude and latitude' : crs}`;
  say(`${paint.bold(plan.file)}: ${format}${as === undefined ? '' : `, taken as ${as}`}${system}`);
  const kinds = new Map<string, number>();
  for (const { kind } of drafts) kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
  if (entries.length > 0)
    say(
      `Would record ${counted(entries.length, 'entry', 'entries')} in one batch, the first of which names the file.`,
    );
  for (const [kind, count] of kinds) say(`  ${count.toLocaleString('en-US')} × ${kind}`);
  for (const { where, kind, fields } of drafts.slice(0, 5)) say(`  ${where}: ${kind} ${inWords(fields)}`);
  if (drafts.length > 5)
    say(`  and ${(drafts.length - 5).toLocaleString('en-US')} more; --json lists them all`);
  for (const sentence of leftOut(plan)) say(sentence);
  for (const answer of plan.answered) say(`Answered: ${answer}`);
  say('');
  say(plan.doubts.length === 0 ? 'No doubt is open. Without --dry-run it is recorded.' : doubtsInWords(plan));
  say('Nothing was recorded.');
}

function leftOut({ problems, passedOver }: ImportPlan): string[] {
  const shown = problems.slice(0, 10).map(({ where, sentence }) => `  not read, ${where}: ${sentence}`);
  const rest = problems.length > 10 ? [`  and ${problems.length - 10} more that cannot be read`] : [];
  const passed = passedOver.slice(0, 5).map((sentence) => `  passed over: ${sentence}`);
  return [
    ...shown,
    ...rest,
    ...passed,
    ...(passedOver.length > 5 ? [`  and ${passedOver.length - 5} more passed over`] : []),
  ];
}

function doubtsInWords({ doubts }: ImportPlan): string {
  const each = doubts.map(({ code, sentence, choices }) => {
    const ways = choices.map(({ answer, label }) => `  --answer ${code}=${answer}: ${label}`);
    return [sentence, ...ways].join('\n');
  });
  return each.join('\n');
}

function unanswered(plan: ImportPlan): Failure {
  const sentence = [doubtsInWords(plan), ...leftOut(plan), 'Nothing was recorded.'].join('\n');
  return new Failure(exitCodes.badInput, sentence, asJson(plan));
}

/** What was typed or read for each field; positions in their stored shape are told shortly. */
function inWords(fields: Readonly<Record<string, unknown>>): string {
  const parts = Object.entries(fields).flatMap(([name, value]) => {
    if (['stem', 'stake', 'block'].includes(name) && typeof value === 'string' && value.length === 36)
      return [];
    return [`${name} ${valueInWords(value)}`];
  });
  return parts.join(', ');
}

function valueInWords(value: unknown): string {
  if (Array.isArray(value)) return `of ${value.length} points`;
  if (typeof value !== 'object' || value === null) return String(value);
  const { text, lat, lon, easting, northing } = value as Readonly<Record<string, string>>;
  return text ?? (lat === undefined ? `${easting}, ${northing}` : `${lat}, ${lon}`);
}

function asJson(plan: ImportPlan) {
  const { file, format, as, crs, sha256, doubts, answered, problems, passedOver, drafts, entries } = plan;
  const wouldRecord = entries.length;
  return {
    file,
    sha256,
    format,
    as,
    crs,
    wouldRecord,
    doubts,
    answered,
    problems,
    passedOver,
    entries: drafts,
  };
}
