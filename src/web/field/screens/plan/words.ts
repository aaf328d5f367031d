// Lengths and azimuths of a plan as people here read them: feet and inches or metres, the compass first.
import { lengthIn } from '../../../../measure/index.ts';
import { figure, planText } from '../../text/index.ts';

type Units = 'us' | 'metric';

/** A distance on the ground, or a lean. @param decimals of feet */
export function far(metres: number, units: Units, decimals = 0): string {
  return units === 'metric'
    ? `${figure(metres, 1)} m`
    : `${figure(lengthIn(metres, 'm', 'ft'), decimals)} ft`;
}

/** A measure of a cut. */
export function thin(metres: number, units: Units): string {
  return units === 'metric'
    ? `${figure(lengthIn(metres, 'm', 'cm'))} cm`
    : `${figure(lengthIn(metres, 'm', 'in'), 1)} in`;
}

/** @param north degrees that true north lies from magnetic; undefined where nobody knows */
export function byCompass(azimuth: number, north: number | undefined): string {
  const trueText = planText.true(azimuth);
  return north === undefined
    ? `${trueText}, ${planText.noMagnetic}`
    : `${planText.magnetic((azimuth - north + 720) % 360)} (${trueText})`;
}
