/**
 * From plots to the land between them: mean, standard error, confidence interval and sampling error, also over strata.
 *
 * Plots are taken as an independent random sample of the land and the land as much larger than the plots: no
 * correction for a finite population. Plots on a grid are treated so too, as is common practice; their error is then
 * mostly overstated.
 */
import { isNotEnough, type NotEnough, notEnough } from '../figure.ts';
import { estimate, type MeanEstimate, meanEstimate } from '../statistics/mean.ts';

export type SampleEstimate = MeanEstimate &
  Readonly<{
    /** Half the interval in percent of the mean: t · standard error / mean · 100. */
    samplingErrorPercent: number | NotEnough;
  }>;

/**
 * The mean of plots that stand for the same land.
 *
 * @param values one number for each plot, also 0 for an empty one; per acre or per hectare
 * @param level confidence level, 0.95 by default
 * @throws RangeError for a value that is no number
 */
export function sampleEstimate(values: readonly number[], level = 0.95): SampleEstimate | NotEnough {
  const mean = meanEstimate(values, level);
  return isNotEnough(mean) ? mean : withSamplingError(mean);
}

/** Land that was sampled by itself, such as a block. Areas of all strata in the same unit. */
export type Stratum = Readonly<{ name: string; area: number; values: readonly number[] }>;

/**
 * The mean over strata, each weighed by its area: Σ W ȳ, with the standard error √(Σ W² s²/n).
 *
 * Source: Cochran 1977, Sampling Techniques, chapter 5, with Satterthwaite's degrees of freedom (1946); from memory.
 *
 * @throws RangeError for an area that is not above 0, or a value that is no number
 */
export function stratifiedEstimate(strata: readonly Stratum[], level = 0.95): SampleEstimate | NotEnough {
  if (strata.length === 0) return notEnough('there are no strata.');
  const wrong = strata.find(({ area }) => !(Number.isFinite(area) && area > 0));
  if (wrong) throw new RangeError(`area: ${wrong.area} of ${wrong.name} is no area; give a number above 0.`);
  const land = strata.reduce((sum, { area }) => sum + area, 0);
  const parts: { weight: number; of: MeanEstimate }[] = [];
  for (const { name, area, values } of strata) {
    const of = meanEstimate(values, level);
    if (isNotEnough(of))
      return notEnough(`${name} has ${values.length} of the two plots that its error needs.`);
    parts.push({ weight: area / land, of });
  }
  const mean = sumOf(parts, ({ weight, of }) => weight * of.mean);
  const variance = sumOf(parts, ({ weight, of }) => (weight * of.standardError) ** 2);
  const spread = sumOf(parts, ({ weight, of }) => (weight * of.standardError) ** 4 / of.degrees);
  const degrees = spread === 0 ? sumOf(parts, ({ of }) => of.degrees) : variance ** 2 / spread;
  const n = sumOf(parts, ({ of }) => of.n);
  // Of all plots about the mean of their own stratum: what is left when the strata are known.
  const within = Math.sqrt(
    sumOf(parts, ({ of }) => of.standardDeviation ** 2 * of.degrees) / (n - parts.length),
  );
  return withSamplingError(estimate(n, mean, within, Math.sqrt(variance), degrees, level));
}

function withSamplingError(mean: MeanEstimate): SampleEstimate {
  const half = mean.high - mean.mean;
  return {
    ...mean,
    samplingErrorPercent:
      mean.mean === 0
        ? notEnough('a mean of 0 has no error in percent.')
        : (100 * half) / Math.abs(mean.mean),
  };
}

function sumOf<Part>(parts: readonly Part[], of: (part: Part) => number): number {
  return parts.reduce((sum, part) => sum + of(part), 0);
}
