// By which rule and method volumes are wanted, and what a butt log is asked with.
import { lengthUnits, readQuantity } from '../../events/index.ts';
import {
  BOARD_SCALES,
  type ButtLog,
  type FormFactor,
  isAreaUnit,
  isBoardScale,
  isLengthUnit,
  type Scaling,
  SHAPES,
  type StandingRule,
  type System,
  type WoundArea,
  woundLimit,
} from '../../measure/index.ts';
import { type ButtPrice, honer, nearLays, type StandingMethod } from '../../stand/index.ts';
import { readTaped } from './log.ts';
import { type FiguresTyped, type Read, type Wrong, wrong } from './typed.ts';

/** Rules that board feet of standing trees can be estimated by. */
const standingRules: readonly StandingRule[] = ['doyle', 'scribner', 'international-quarter-inch'];
const solidRules = ['cubic-feet', 'cubic-metres'] as const;

/** The board-foot rules for standing trees need a form class, solid wood a form or an equation; none is taken for granted. */
export function readMethod({ rule, formClass, form, equation }: FiguresTyped): Read<StandingMethod> {
  const solid = solidRules.find((one) => one === rule);
  if (solid !== undefined) {
    if (formClass !== undefined)
      return wrong('formClass', formClass, `${solid} take a form instead, such as paraboloid or 0.45`);
    const factor = readFormOrEquation(form, equation);
    return factor.ok ? { ok: true, value: { rule: solid, form: factor.value } } : factor;
  }
  const boardFeet = standingRules.find((one) => one === rule);
  if (boardFeet === undefined)
    return wrong('rule', rule, `write one of ${[...standingRules, ...solidRules].join(', ')}`);
  if (form !== undefined) return wrong('form', form, 'board feet take a form class instead, such as 78');
  if (equation !== undefined)
    return wrong('equation', equation, 'board feet take a form class instead, such as 78');
  const percent = Number(formClass);
  if (formClass === undefined || !Number.isFinite(percent) || percent <= 0)
    return wrong('formClass', formClass, 'write the form class of the stand in percent, such as 78');
  return { ok: true, value: { rule: boardFeet, formClass: percent } };
}

function readFormOrEquation(
  form: string | undefined,
  equation: string | undefined,
): Read<FormFactor | typeof honer> {
  if (equation === undefined) return readForm(form);
  if (form !== undefined) return wrong('form', form, 'give a form or an equation, one of them');
  return equation === honer
    ? { ok: true, value: honer }
    : wrong('equation', equation, `write ${honer}; other stems take a form`);
}

function readForm(form: string | undefined): Read<FormFactor> {
  const shapes = Object.keys(SHAPES);
  if (form !== undefined && Object.hasOwn(SHAPES, form))
    return { ok: true, value: SHAPES[form as keyof typeof SHAPES] };
  const factor = Number(form);
  if (form === undefined || form.trim() === '' || !(factor > 0 && factor <= 1))
    return wrong('form', form, `write a form factor above 0 and at most 1, or one of ${shapes.join(', ')}`);
  return { ok: true, value: { name: 'as asked', factor, source: 'as asked' } };
}

/** A butt log, how it is scaled, and what it brings. */
export function readButt(
  typed: FiguresTyped,
  system: System,
): Read<Readonly<{ log: ButtLog; scaling: Scaling; price: ButtPrice | undefined }>> {
  const { rule } = typed;
  if (rule === undefined || !isBoardScale(rule))
    return wrong('rule', rule, `write one of ${BOARD_SCALES.join(', ')}`);
  const log = readTaped(typed, rule, system);
  if (!log.ok) return log;
  const price = readPrice(typed);
  if (!price.ok) return price;
  const { smallEnd, length, scaling } = log.value;
  return { ok: true, value: { log: { smallEnd, length }, scaling, price: price.value } };
}

/** Prices of both ways, or of none: one alone compares nothing. With a product they come from the recorded list. */
function readPrice(typed: FiguresTyped): Read<ButtPrice | undefined> {
  const { priceWithCull, priceJumpButted, product, grade, gradeJumpButted, buyers } = typed;
  if (product !== undefined) return readListed(typed, product);
  for (const [field, text] of [
    ['grade', grade],
    ['gradeJumpButted', gradeJumpButted],
    ['buyers', buyers],
  ] as const)
    if (text !== undefined) return wrong(field, text, 'say the product too, by which the price list is read');
  if (priceWithCull === undefined && priceJumpButted === undefined) return { ok: true, value: undefined };
  const remedy = 'give money per thousand board feet for both ways, such as 300 USD';
  const [one, other] = [readMoney(priceWithCull), readMoney(priceJumpButted)];
  const bad = (field: 'priceWithCull' | 'priceJumpButted', text: string | undefined): Wrong =>
    wrong(field, text, remedy);
  if (one === undefined) return bad('priceWithCull', priceWithCull);
  if (other === undefined) return bad('priceJumpButted', priceJumpButted);
  if (one.currency !== other.currency) return bad('priceJumpButted', priceJumpButted);
  const { amount: withCull, currency } = one;
  return { ok: true, value: { from: 'asked', withCull, jumpButted: other.amount, currency } };
}

/** The grade of the log without its butt is that of the log with its cull, unless another one is given. */
function readListed(typed: FiguresTyped, product: string): Read<ButtPrice> {
  for (const field of ['priceWithCull', 'priceJumpButted'] as const)
    if (typed[field] !== undefined)
      return wrong(field, typed[field], 'give prices, or a product of the price list, one of them');
  const { grade, gradeJumpButted, buyers } = typed;
  const withCull = grade ?? null;
  const jumpButted = gradeJumpButted ?? withCull;
  return { ok: true, value: { from: 'list', product, withCull, jumpButted, buyerClass: buyers } };
}

function readMoney(text: string | undefined): { amount: number; currency: string } | undefined {
  const [, amount, currency] = /^(-?\d+(?:\.\d+)?)\s*([A-Z]{3})$/.exec(text?.trim() ?? '') ?? [];
  return amount === undefined || currency === undefined ? undefined : { amount: Number(amount), currency };
}

/** How many young trees make a plot stocked; one if left out. */
export function readCount(text: string | undefined): Read<number> {
  if (text === undefined) return { ok: true, value: 1 };
  return /^[1-9]\d{0,5}$/.test(text.trim())
    ? { ok: true, value: Number(text) }
    : wrong('stockedFrom', text, 'write a whole number of at least 1');
}

/** From which size on a wound is large. */
export function readWound(text: string | undefined): Read<WoundArea> {
  if (text === undefined) return { ok: true, value: woundLimit };
  const area = readQuantity(text, ['in2', 'cm2', 'ft2', 'm2'], undefined);
  if (!area.ok) return wrong('limit', text, area.remedy);
  const { value, unit } = area.value;
  return isAreaUnit(unit) && Number(value) > 0
    ? { ok: true, value: { value: Number(value), unit } }
    : wrong('limit', text, 'write an area above 0, such as 100 in2');
}

/** How far from a lay a leave tree counts as near it; the usual distance if left out. */
export function readWithin(text: string | undefined): Read<typeof nearLays> {
  if (text === undefined) return { ok: true, value: nearLays };
  const distance = readQuantity(text, lengthUnits, undefined);
  if (!distance.ok) return wrong('within', text, distance.remedy);
  const { value, unit } = distance.value;
  return isLengthUnit(unit) && Number(value) > 0
    ? { ok: true, value: { value: Number(value), unit } }
    : wrong('within', text, 'write a length above 0, such as 20 ft');
}
