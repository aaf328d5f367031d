// gapledger figures, and stand --by: what a forester would check, with the method and what is missing beside it.
import { type FiguresTyped, knownNames, readFigures } from '../src/record/index.ts';
import { aimsJson, aimsSheet, readAims, sheetOf } from '../src/reports/index.ts';
import { type FigureKind, type Folded, figureKinds, figuresJson, type Names } from '../src/stand/index.ts';
import { sayDangers } from './cautions.ts';
import { saySheet } from './sheet.ts';
import {
  type CommonOptions,
  exitCodes,
  Failure,
  type MomentOptions,
  problemSentence,
  readMoment,
  say,
  sayJson,
  standAt,
  withLog,
} from './terminal/index.ts';

type Flags = CommonOptions & MomentOptions & Omit<FiguresTyped, 'adjust'> & { adjust?: boolean };

export async function work([which = '', stem]: string[], flags: Flags): Promise<void> {
  const what = [...figureKinds, 'aims' as const].find((kind) => kind === which);
  if (what === undefined)
    throw new Failure(exitCodes.badInput, `figures "${which}": there are ${figureKinds.join(', ')}, aims.`);
  if (stem !== undefined && what !== 'butt')
    throw new Failure(exitCodes.badInput, `figures ${what} "${stem}": only butt is about one stem.`);
  await withLog(flags, async (log) => {
    const folded = await standAt(log, await readMoment(log, flags));
    if (what === 'aims') sayAims(folded, await knownNames(log, folded), typedIn(flags), flags.json);
    else sayFigures(what, folded, { ...typedIn(flags), ...(stem === undefined ? {} : { stem }) }, flags.json);
  });
}

/** Lays against aims: the felling model has a part in them, which figures of the stand know nothing of. */
function sayAims(folded: Folded, names: Names, typed: FiguresTyped, json = false): void {
  const read = readAims(folded, names, typed);
  if (!read.ok) throw new Failure(exitCodes.badInput, problemSentence(read, `--${flagOf(read.field)}`));
  if (json) sayJson(aimsJson(read.figures, folded, names));
  else {
    sayDangers(folded.stand);
    say('');
    saySheet(aimsSheet(read.figures, folded, names));
  }
}

/** Prints figures for people, or as JSON with the entries that each rests on. */
export function sayFigures(what: FigureKind, folded: Folded, typed: FiguresTyped, json = false): void {
  const read = readFigures(what, folded, typed, new Date().toISOString());
  if (!read.ok) throw new Failure(exitCodes.badInput, problemSentence(read, `--${flagOf(read.field)}`));
  if (json) sayJson(figuresJson(read.value, folded));
  else {
    // What was felled is shown, and where somebody could be hurt now comes first.
    if (showsFelling.has(what)) {
      sayDangers(folded.stand);
      say('');
    }
    saySheet(sheetOf(read.value));
  }
}

const showsFelling: ReadonlySet<FigureKind> = new Set([
  'stand',
  'volume',
  'value',
  'butt',
  'stumps',
  'decay',
]);

function flagOf(field: string): string {
  return field.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}

/** Those flags that say which figures are wanted. */
function typedIn({
  logbook: _logbook,
  json: _json,
  at: _at,
  knownAt: _knownAt,
  adjust,
  ...typed
}: Flags): FiguresTyped {
  return adjust === true ? { ...typed, adjust: 'yes' } : typed;
}
