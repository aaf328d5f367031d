// Size classes with limits of one's own: "5, 10, 16 in".
import { classesFrom, isLengthUnit, isNotEnough, type SizeClasses } from '../../measure/index.ts';
import { type Read, wrong } from './typed.ts';

const written = /^\d+(?:\.\d+)?(?:\s*,\s*\d+(?:\.\d+)?)*\s*([a-z]+)$/i;

/** Undefined for the usual classes. */
export function readClasses(text: string | undefined): Read<SizeClasses | undefined> {
  if (text === undefined) return { ok: true, value: undefined };
  const unit = written.exec(text.trim())?.[1]?.toLowerCase();
  const remedy = 'write rising lower limits and a unit, such as "5, 10, 16 in"';
  if (unit === undefined || !isLengthUnit(unit)) return wrong('classes', text, remedy);
  const classes = classesFrom([...text.matchAll(/\d+(?:\.\d+)?/g)].map(Number), unit);
  return isNotEnough(classes) ? wrong('classes', text, remedy) : { ok: true, value: classes };
}
