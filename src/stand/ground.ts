// What lies on the ground, as shapes: features as mapped, and the boundaries of blocks.
import { type GroundShape, isUnresolved, type Unresolved } from '../place/index.ts';
import { type Outline, outlineOf } from './outlines.ts';
import type { Block, Feature } from './state.ts';
import type { Locator } from './where.ts';

export type FeatureShape = Outline & Pick<GroundShape, 'is'>;

/** Where a feature lies, as a point, a line or a ring; or why that cannot be told. */
export function featureShape({ body, at }: Feature, locator: Locator): FeatureShape | Unresolved {
  if (body === undefined || at === undefined) return { why: 'No entry that maps it is here.' };
  const { point, line, edge, label } = body;
  const [is, corners] =
    point === undefined
      ? line === undefined
        ? (['ring', edge ?? []] as const)
        : (['line', line] as const)
      : (['point', [point]] as const);
  const outline = outlineOf(label, corners, at.at, locator);
  return isUnresolved(outline) ? outline : { ...outline, is };
}

/** The boundary of a block, corner by corner. */
export function boundaryOf({ boundary, boundaryWhen }: Block, locator: Locator): Outline | Unresolved {
  if (boundary === undefined) return { why: 'No boundary was recorded.' };
  return outlineOf('boundary', boundary, boundaryWhen ?? '', locator);
}
