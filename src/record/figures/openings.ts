// Reading what is typed for figures of openings, strips along features, and the sun.
import { lengthUnits, readQuantity } from '../../events/index.ts';
import { isLengthUnit, lengthIn } from '../../measure/index.ts';
import type { BuffersAsked } from '../../stand/index.ts';
import { type FiguresTyped, type Read, wrong } from './typed.ts';

/** Years of the rolling period over which openings are added up; 10 if left out. */
export function readPeriod(text: string | undefined): Read<number> {
  const [, years] = /^([1-9]\d{0,2})(?:\s*years?)?$/.exec(text?.trim() ?? '10') ?? [];
  return years === undefined
    ? wrong('period', text, 'write a number of years, such as 10')
    : { ok: true, value: Number(years) };
}

/** Widths are the asker's own: none is taken for granted. */
export function readBuffers(typed: FiguresTyped): Read<BuffersAsked> {
  const { along = 'level', feature } = typed;
  if (along !== 'level' && along !== 'slope')
    return wrong('along', along, 'write level or slope: how the width is measured');
  const width = readMetres('width', typed.width);
  if (!width.ok) return width;
  const rule = { base: width.value };
  const asked = { along, ...(feature === undefined ? {} : { feature }) } as const;
  if (typed.perPercent === undefined) {
    return typed.above === undefined
      ? { ok: true, value: { ...asked, rule } }
      : wrong('above', typed.above, 'it goes with a width per percent of slope (per-percent)');
  }
  const more = readMetres('perPercent', typed.perPercent);
  if (!more.ok) return more;
  const above = Number(/^(\d+(?:\.\d+)?)\s*%?$/.exec(typed.above?.trim() ?? '0')?.[1] ?? Number.NaN);
  if (Number.isNaN(above))
    return wrong('above', typed.above, 'write from which slope on the width grows, such as 10 %');
  return { ok: true, value: { ...asked, rule: { ...rule, perPercent: more.value, above } } };
}

function readMetres(field: 'width' | 'perPercent', text: string | undefined): Read<number> {
  if (text === undefined) return wrong(field, text, 'say how wide the strip is, such as 50 ft');
  const length = readQuantity(text, lengthUnits, undefined);
  if (!length.ok) return wrong(field, text, length.remedy);
  const { value, unit } = length.value;
  return isLengthUnit(unit) && Number(value) > 0
    ? { ok: true, value: lengthIn(Number(value), unit, 'm') }
    : wrong(field, text, 'write a length above 0');
}
