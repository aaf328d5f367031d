// A log as somebody types it: diameters, length, rule, how it is scaled, and its defects.
import { lengthUnits, readQuantity } from '../../events/index.ts';
import {
  BOARD_SCALES,
  type BoardScale,
  CUBIC_METHODS,
  type CubicMethod,
  type HalfInchTurn,
  isBoardScale,
  isLengthUnit,
  lengthIn,
  type Scaling,
  type System,
} from '../../measure/index.ts';
import type { LogAsked } from '../../stand/index.ts';
import { readDefects } from './defects.ts';
import { type FiguresTyped, type Read, type Wrong, wrong } from './typed.ts';

type Across = 'smallEnd' | 'middle' | 'largeEnd';
type LengthField = Across | 'length' | 'trim' | 'taper';

/** A log for `figures log`. Bare numbers are in the units asked for; a rule of boards reckons in inches and feet. */
export function readLogAsked(typed: FiguresTyped, system: System): Read<LogAsked> {
  const { rule } = typed;
  if (rule !== undefined && isBoardScale(rule)) return readBoardLog(typed, rule, system);
  if (rule !== undefined && Object.hasOwn(CUBIC_METHODS, rule))
    return readCubicLog(typed, rule as CubicMethod, system);
  return wrong('rule', rule, `write one of ${[...BOARD_SCALES, ...Object.keys(CUBIC_METHODS)].join(', ')}`);
}

function readBoardLog(typed: FiguresTyped, scale: BoardScale, system: System): Read<LogAsked> {
  const taped = readTaped(typed, scale, system);
  if (!taped.ok) return taped;
  const turn = readTurn(typed.half);
  if (!turn.ok) return turn;
  const { readings, length, scaling } = taped.value;
  const defects = readDefects(typed.defects, { length, system });
  if (!defects.ok) return defects;
  return {
    ok: true,
    value: {
      by: 'board feet',
      log: { readings, length },
      scaling,
      turn: turn.value,
      defects: defects.value,
    },
  };
}

type Readings = readonly [number] | readonly [number, number];

/** A log as the tape has it, in inches and feet, and how it is to be scaled in board feet. */
export function readTaped(
  typed: FiguresTyped,
  scale: BoardScale,
  system: System,
): Read<Readonly<{ readings: Readings; smallEnd: number; length: number; scaling: Scaling }>> {
  const unheard = refused(typed, ['middle'], `it is no part of a log by ${scale}`);
  if (unheard !== undefined) return unheard;
  const readings = readReadings(typed.smallEnd, system);
  if (!readings.ok) return readings;
  const length = readLength(typed, 'length', { unit: 'ft', system });
  if (!length.ok) return length;
  const trim =
    typed.trim === undefined ? undefined : readLength(typed, 'trim', { unit: 'in', system, least: 0 });
  if (trim?.ok === false) return trim;
  const smallEnd = mean(readings.value);
  const taper = readTaper(typed, { smallEnd, length: length.value, system });
  if (!taper.ok) return taper;
  const scaling = { scale, trim: trim?.value, taper: taper.value };
  return { ok: true, value: { readings: readings.value, smallEnd, length: length.value, scaling } };
}

function readCubicLog(typed: FiguresTyped, method: CubicMethod, system: System): Read<LogAsked> {
  const takes: readonly Across[] =
    method === 'huber'
      ? ['middle']
      : method === 'newton'
        ? ['smallEnd', 'middle', 'largeEnd']
        : ['smallEnd', 'largeEnd'];
  const others = (['smallEnd', 'middle', 'largeEnd'] as const).filter((field) => !takes.includes(field));
  const unheard = refused(typed, [...others, 'trim', 'taper', 'half'], `${method} does not ask for it`);
  if (unheard !== undefined) return unheard;
  const metric = system === 'metric';
  const diameters: number[] = [];
  for (const field of takes) {
    const read = readLength(typed, field, { unit: metric ? 'cm' : 'in', system });
    if (!read.ok) return read;
    diameters.push(read.value);
  }
  const length = readLength(typed, 'length', { unit: metric ? 'm' : 'ft', system });
  if (!length.ok) return length;
  const feet = metric ? lengthIn(length.value, 'm', 'ft') : length.value;
  const defects = readDefects(typed.defects, { length: feet, system });
  if (!defects.ok) return defects;
  const rule = metric ? 'cubic-metres' : 'cubic-feet';
  return {
    ok: true,
    value: { by: 'solid wood', diameters, length: length.value, method, rule, defects: defects.value },
  };
}

/** Something that was typed and means nothing here is refused, not left unheard. */
function refused(
  typed: FiguresTyped,
  fields: readonly (keyof FiguresTyped)[],
  why: string,
): Wrong | undefined {
  const field = fields.find((one) => typed[one] !== undefined);
  return field === undefined ? undefined : wrong(field, typed[field], `${why}; leave it out`);
}

/** One reading of the diameter, or two at right angles with a comma between them, in inches. */
function readReadings(text: string | undefined, system: System): Read<Readings> {
  const parts = text?.split(',') ?? [];
  if (parts.length > 2)
    return wrong('smallEnd', text, 'write one reading, or two at right angles with a comma between them');
  const [one, other] = parts.map((part) =>
    readLength({ smallEnd: part }, 'smallEnd', { unit: 'in', system }),
  );
  if (one === undefined) return wrong('smallEnd', text, 'say it, such as 14 in, or 14.2 in, 13.6 in');
  if (!one.ok) return one;
  if (other === undefined) return { ok: true, value: [one.value] };
  return other.ok ? { ok: true, value: [one.value, other.value] } : other;
}

function mean([one, other = one]: Readings): number {
  return (one + other) / 2;
}

type Wanted = Readonly<{ unit: 'in' | 'ft' | 'cm' | 'm'; system: System; least?: 0 }>;

/** The units of a bare number, with how a length is written in them. */
const bare = {
  inch: { across: { unit: 'in', example: '14 in' }, along: { unit: 'ft', example: '16 ft' } },
  metric: { across: { unit: 'cm', example: '36 cm' }, along: { unit: 'm', example: '5 m' } },
} as const;

/** A length in the unit that is wanted; a bare number is in the same kind of unit of the system that is asked for. */
function readLength(typed: FiguresTyped, field: LengthField, { unit, system, least }: Wanted): Read<number> {
  const text = typed[field]?.trim();
  const is = unit === 'in' || unit === 'cm' ? 'across' : 'along';
  const written = bare[system][is];
  if (text === undefined || text === '') return wrong(field, text, `say it, such as ${written.example}`);
  const quantity = readQuantity(text, lengthUnits, written.unit);
  if (!quantity.ok) return wrong(field, text, quantity.remedy);
  const { unit: entered } = quantity.value;
  const value = Number(quantity.value.value);
  if (least === 0 && value < 0) return wrong(field, text, 'write a length of 0 or more');
  if (!isLengthUnit(entered) || (least !== 0 && !(value > 0)))
    return wrong(
      field,
      text,
      `write a ${is === 'across' ? 'diameter' : 'length'} above 0, such as ${written.example}`,
    );
  return { ok: true, value: lengthIn(value, entered, unit) };
}

/** The unit of a bare taper. */
const tapers = { inch: 'in/ft', metric: 'cm/m' } as const;

/** Inches of diameter for a foot of length: as typed, or from the diameter at the large end. */
function readTaper(
  typed: FiguresTyped,
  { smallEnd, length, system }: Readonly<{ smallEnd: number; length: number; system: System }>,
): Read<number | undefined> {
  const { taper, largeEnd } = typed;
  if (taper !== undefined && largeEnd !== undefined)
    return wrong('taper', taper, 'give the taper or the diameter at the large end, one of them');
  if (largeEnd !== undefined) {
    const large = readLength(typed, 'largeEnd', { unit: 'in', system });
    if (!large.ok) return large;
    return large.value < smallEnd
      ? wrong('largeEnd', largeEnd, 'it is not as thick as the small end; exchange them')
      : { ok: true, value: (large.value - smallEnd) / length };
  }
  if (taper === undefined) return { ok: true, value: undefined };
  const [, number, unit = tapers[system]] = /^(\d+(?:\.\d+)?)\s*(in\/ft|cm\/m)?$/.exec(taper.trim()) ?? [];
  if (number === undefined)
    return wrong('taper', taper, 'write diameter for length, such as 0.125 in/ft or 1 cm/m');
  const perFoot = unit === 'cm/m' ? lengthIn(lengthIn(1, 'ft', 'm'), 'cm', 'in') : 1;
  return { ok: true, value: Number(number) * perFoot };
}

function readTurn(text: string | undefined): Read<HalfInchTurn> {
  if (text === undefined || text === 'down') return { ok: true, value: 'down' };
  return text === 'up'
    ? { ok: true, value: 'up' }
    : wrong('half', text, "write down or up: where this log's exact half inch goes");
}
