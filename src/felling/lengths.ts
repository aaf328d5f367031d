// Lengths in sentences of the model, which does not know in which units the person reads: feet with metres beside them.
import { lengthIn } from '../measure/index.ts';

/** "62.0 ft (18.9 m)"; under a metre "7.9 in (20 cm)". @param metres any length */
export function lengthWords(metres: number): string {
  return Math.abs(metres) < 1
    ? `${lengthIn(metres, 'm', 'in').toFixed(1)} in (${lengthIn(metres, 'm', 'cm').toFixed(0)} cm)`
    : `${lengthIn(metres, 'm', 'ft').toFixed(1)} ft (${metres.toFixed(1)} m)`;
}
