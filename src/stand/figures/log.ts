// One log scaled: by a board-foot rule with trim, even feet and parts, or as solid wood from its cross-sections; and
// what its defects take. It is in no logbook, so its figures rest on no entry.
import {
  type CubicMethod,
  type CubicRule,
  cubicLog,
  type DefectsTaken,
  type HalfInchTurn,
  isNotEnough,
  type LogDefect,
  lengthIn,
  type NotEnough,
  type ScaledLog,
  type Scaling,
  scaleLog,
  scaleName,
  type TapedLog,
  takeDefects,
  type Volume,
} from '../../measure/index.ts';
import { type Answer, traced } from './traced.ts';

/** A log by a board-foot rule: readings in in, length in ft. `turn` is where the next exact half inch goes. */
export type BoardLogAsked = Readonly<{
  by: 'board feet';
  log: TapedLog;
  scaling: Scaling;
  turn: HalfInchTurn;
  defects: readonly DefectAsked[];
}>;

/** A log as solid wood: diameters from the small end and length, in in and ft or in cm and m by the rule. */
export type CubicLogAsked = Readonly<{
  by: 'solid wood';
  diameters: readonly number[];
  length: number;
  method: CubicMethod;
  rule: CubicRule;
  defects: readonly DefectAsked[];
}>;

export type LogAsked = BoardLogAsked | CubicLogAsked;

/** A defect with the words it was given in. */
export type DefectAsked = Readonly<{ text: string; defect: LogDefect }>;

export type LogFigures = Readonly<{
  /** The way it was scaled, as people write it. */
  way: string;
  /** How a rule of boards saw it: scaling length, ft, the parts from the small end, and where the next half goes. */
  scaled: Readonly<Pick<ScaledLog, 'length' | 'segments' | 'next'>> | null;
  gross: Answer;
  defects: readonly Readonly<{ text: string; takes: Answer }>[];
  deducted: Answer;
  net: Answer;
}>;

/** Scales the log. What is missing for the gross is missing for all that hangs on it. */
export function logFigures(asked: LogAsked): LogFigures {
  return asked.by === 'board feet' ? boardFigures(asked) : cubicFigures(asked);
}

function boardFigures({ log, scaling, turn, defects }: BoardLogAsked): LogFigures {
  const scaled = scaleLog(log, scaling, turn);
  const [one, other = one] = log.readings;
  const way = scaleName(scaling.scale);
  if (isNotEnough(scaled)) return nothing(way, scaled, defects);
  const { volume, ...how } = scaled;
  const held = { length: scaled.length, smallEnd: (one + other) / 2 };
  return { way, scaled: how, ...withDefects(volume, defects, held) };
}

function cubicFigures({ diameters, length, method, rule, defects }: CubicLogAsked): LogFigures {
  const way = `${wayNames[method]}, ${rule === 'cubic-feet' ? 'cubic feet' : 'cubic metres'}`;
  const volume = cubicLog({ diameters, length }, method, rule);
  if (isNotEnough(volume)) return nothing(way, volume, defects);
  const metric = rule === 'cubic-metres';
  // Huber's one diameter is in the middle of the log: the formulas that ask for the small end have none.
  const [small = Number.NaN] = diameters;
  const smallEnd = method === 'huber' ? null : metric ? lengthIn(small, 'cm', 'in') : small;
  const feet = metric ? lengthIn(length, 'm', 'ft') : length;
  return { way, scaled: null, ...withDefects(volume, defects, { length: feet, smallEnd }) };
}

const wayNames: Readonly<Record<CubicMethod, string>> = {
  smalian: 'Smalian',
  huber: 'Huber',
  newton: 'Newton',
  cone: 'cone frustum',
  neiloid: 'neiloid frustum',
};

const onNothing = (): readonly string[] => [];

function withDefects(
  gross: Volume,
  defects: readonly DefectAsked[],
  log: Readonly<{ length: number; smallEnd: number | null }>,
): Pick<LogFigures, 'gross' | 'defects' | 'deducted' | 'net'> {
  const taken: DefectsTaken<Volume['rule']> = takeDefects(
    gross,
    defects.map(({ defect }) => defect),
    log,
  );
  const { each, together } = taken;
  return {
    gross: traced(gross, onNothing),
    defects: defects.flatMap(({ text }, at) => {
      const takes = each[at];
      return takes === undefined ? [] : [{ text, takes: traced(takes, onNothing) }];
    }),
    deducted: traced(isNotEnough(together) ? together : together.deducted, onNothing),
    net: traced(isNotEnough(together) ? together : together.net, onNothing),
  };
}

function nothing(way: string, why: NotEnough, defects: readonly DefectAsked[]): LogFigures {
  const none = defects.map(({ text }) => ({ text, takes: why }));
  return { way, scaled: null, gross: why, defects: none, deducted: why, net: why };
}
