// How high the trees round an opening are.
import type { QuantityEntered } from '../../events/index.ts';
import { isLengthUnit, lengthIn } from '../../measure/index.ts';
import type { Group } from '../state.ts';

/** Height of the trees round an opening, metres: as given last, or the mean of those given spoke by spoke. */
export function edgeHeightOf({ measured }: Group): number | undefined {
  const given = measured.findLast(({ body }) => body.edgeHeight !== undefined)?.body.edgeHeight;
  if (given !== undefined) return metresOf(given);
  const spokes = measured.findLast(({ body }) => body.spokes !== undefined)?.body.spokes ?? [];
  const heights = spokes.flatMap(({ height }) => metresOf(height) ?? []);
  return heights.length === 0 ? undefined : heights.reduce((sum, height) => sum + height, 0) / heights.length;
}

/** A length as entered, in metres; undefined for none and for a unit that is no length. */
export function metresOf(quantity: QuantityEntered | undefined): number | undefined {
  if (quantity === undefined || !isLengthUnit(quantity.unit)) return undefined;
  const value = lengthIn(Number(quantity.value), quantity.unit, 'm');
  return Number.isFinite(value) ? value : undefined;
}
