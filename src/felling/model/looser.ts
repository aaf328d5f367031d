// Which way of changing an assumption lets a plan do more than it usually would.
import { ASSUMPTIONS, type AssumptionName } from './assumption-list.ts';

/** The names whose lower values loosen, and those whose higher ones do. */
const LOWER: readonly AssumptionName[] = [
  'directionError',
  'directionErrorPerLean',
  'directionErrorDecayed',
  'directionErrorDead',
  'directionErrorPerWind',
  'directionErrorPulled',
  'directionErrorFloor',
  'learnFrom',
  'learnLevel',
  'lengthError',
  'lengthErrorEstimated',
  'leanError',
  'leanErrorUnknown',
  'leanUpperErrors',
  'uprightLean',
  'crownRadiusBase',
  'crownRadiusPerDbh',
  'kerf',
  'uphillAngle',
  'boleHolds',
  'crownHolds',
  'crownOverlap',
  'crownCap',
  'underBole',
  'underCrown',
  'leaveTree',
  'crownScrape',
  'structure',
  'road',
  'trail',
  'powerLine',
  'powerLineClearance',
  'water',
  'propertyLine',
  'hazard',
  'workPlaceLengths',
  'hazardLengths',
  'escapeLength',
  'escapeHalfWidth',
  'leastHinge',
];
const HIGHER: readonly AssumptionName[] = [
  'widestDirectionError',
  'aimFromLean',
  'aimFromLeanDecayed',
  'sideLean',
  'wedgeShare',
  'wedgeThickness',
  'winchBackLean',
  'uphillSlope',
  'rollSlope',
  'brokenOver',
  'hangUpLimit',
  'tolerance',
  'structureLimit',
  'roadLimit',
  'trailLimit',
  'powerLineLimit',
  'waterLimit',
  'propertyLineLimit',
  'hazardLimit',
];

/**
 * Whether a value lets a plan do more than the usual one. Of a number of which nobody can say which way loosens, such as
 * where a crown begins, every change counts.
 */
export function isLooser(name: AssumptionName, value: number): boolean {
  const usual = ASSUMPTIONS[name].value;
  if (value === usual) return false;
  if (LOWER.includes(name)) return value < usual;
  return HIGHER.includes(name) ? value > usual : true;
}
