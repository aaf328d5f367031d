// Figures that were estimated, with how sure they are: the value stands where every figure has it, its error beside it.
import {
  type DifferenceEstimate,
  isNotEnough,
  type NotEnough,
  type SampleEstimate,
  type ShareInterval,
} from '../../measure/index.ts';
import type { TracedFigure } from './traced.ts';

/** The mean of plots, with standard error, interval and sampling error. */
export type SampledFigure = TracedFigure & Readonly<Omit<SampleEstimate, 'mean'>>;

/** A share of counted things, 0 to 1, with its interval. */
export type ShareFigure = TracedFigure & Readonly<Omit<ShareInterval, 'share'>>;

/** A difference of two means with its interval. */
export type DifferenceFigure = TracedFigure & Readonly<Omit<DifferenceEstimate, 'difference'>>;

/** What a figure carries beside its value. */
export type Origin = Omit<TracedFigure, 'value'>;

export function sampledFigure(
  estimate: SampleEstimate | NotEnough,
  origin: Origin,
): SampledFigure | NotEnough {
  if (isNotEnough(estimate)) return estimate;
  const { mean: value, ...error } = estimate;
  return { value, ...origin, ...error };
}

export function shareFigure(
  interval: ShareInterval | NotEnough,
  origin: Omit<Origin, 'unit'>,
): ShareFigure | NotEnough {
  if (isNotEnough(interval)) return interval;
  const { share: value, ...ends } = interval;
  return { value, unit: 'share', ...origin, ...ends };
}

export function differenceFigure(estimate: DifferenceEstimate, origin: Origin): DifferenceFigure {
  const { difference: value, ...error } = estimate;
  return { value, ...origin, ...error };
}
