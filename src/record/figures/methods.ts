// By which rule and method volumes are wanted, and what a butt log is asked with.
import { lengthUnits, readQuantity } from '../../events/index.ts';
import {
  type ButtLog,
  type FormFactor,
  isAreaUnit,
  isLengthUnit,
  lengthIn,
  SHAPES,
  type WoundArea,
  woundLimit,
} from '../../measure/index.ts';
import { type ButtRule, buttRules, type StandingMethod } from '../../stand/index.ts';
import { type FiguresTyped, type Read, type Wrong, wrong } from './typed.ts';

/** The board-foot rules for standing trees need a form class, cubic feet a form; neither is taken for granted. */
export function readMethod({ rule, formClass, form }: FiguresTyped): Read<StandingMethod> {
  if (rule === 'cubic-feet') {
    if (formClass !== undefined)
      return wrong('formClass', formClass, 'cubic feet take a form instead, such as paraboloid or 0.45');
    const factor = readForm(form);
    return factor.ok ? { ok: true, value: { rule, form: factor.value } } : factor;
  }
  const boardFeet = readButtRule(rule, 'or cubic-feet');
  if (!boardFeet.ok) return boardFeet;
  if (form !== undefined) return wrong('form', form, 'board feet take a form class instead, such as 78');
  const percent = Number(formClass);
  if (formClass === undefined || !Number.isFinite(percent) || percent <= 0)
    return wrong('formClass', formClass, 'write the form class of the stand in percent, such as 78');
  return { ok: true, value: { rule: boardFeet.value, formClass: percent } };
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

/** @param more other rules that would do, for the words */
export function readButtRule(rule: string | undefined, more = ''): Read<ButtRule> {
  const known = buttRules.find((one) => one === rule);
  if (known !== undefined) return { ok: true, value: known };
  return wrong('rule', rule, `write one of ${buttRules.join(', ')}${more === '' ? '' : ` ${more}`}`);
}

/** Scaling diameter and length of a log; bare numbers are inches and feet. */
export function readLog({ smallEnd, length }: FiguresTyped): Read<ButtLog> {
  const diameter = readLength('smallEnd', smallEnd, 'in');
  if (!diameter.ok) return diameter;
  const feet = readLength('length', length, 'ft');
  return feet.ok ? { ok: true, value: { smallEnd: diameter.value, length: feet.value } } : feet;
}

function readLength(field: 'smallEnd' | 'length', text: string | undefined, unit: 'in' | 'ft'): Read<number> {
  if (text === undefined) return wrong(field, text, `say it, such as ${unit === 'in' ? '14 in' : '16 ft'}`);
  const quantity = readQuantity(text, lengthUnits, unit);
  if (!quantity.ok) return wrong(field, text, quantity.remedy);
  const { value, unit: written } = quantity.value;
  if (!isLengthUnit(written) || !(Number(value) > 0)) return wrong(field, text, 'write a length above 0');
  return { ok: true, value: lengthIn(Number(value), written, unit) };
}

export type ButtPrice = Readonly<{ withCull: number; jumpButted: number; currency: string }>;

/** Prices of both ways, or of none: one alone compares nothing. */
export function readPrice({ priceWithCull, priceJumpButted }: FiguresTyped): Read<ButtPrice | undefined> {
  if (priceWithCull === undefined && priceJumpButted === undefined) return { ok: true, value: undefined };
  const remedy = 'give money per thousand board feet for both ways, such as 300 USD';
  const [one, other] = [readMoney(priceWithCull), readMoney(priceJumpButted)];
  const bad = (field: 'priceWithCull' | 'priceJumpButted', text: string | undefined): Wrong =>
    wrong(field, text, remedy);
  if (one === undefined) return bad('priceWithCull', priceWithCull);
  if (other === undefined) return bad('priceJumpButted', priceJumpButted);
  if (one.currency !== other.currency) return bad('priceJumpButted', priceJumpButted);
  return { ok: true, value: { withCull: one.amount, jumpButted: other.amount, currency: one.currency } };
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
