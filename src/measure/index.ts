/** Measuring trees and land: units and mensuration. Pure functions, each with its source; knows no other room. */
export { basalArea } from './basal-area.ts';
export type { ButtChoices, ButtLog, ButtOption, ButtScaling, StumpDecay } from './cull/butt-log.ts';
export { buttChoices } from './cull/butt-log.ts';
export type { Deduction, NetVolume } from './cull/combined.ts';
export { countsAsBoards, netVolume, squaredDefect, wholeDefect } from './cull/combined.ts';
export type { DefectsTaken, LogDefect } from './cull/defects.ts';
export { takeDefects } from './cull/defects.ts';
export type { Along, Core, Cull } from './cull/proportions.ts';
export { crook, interiorDefect, lengthCut, sectorCut, sweep } from './cull/proportions.ts';
export type { SoundShell } from './cull/shell.ts';
export { soundShell } from './cull/shell.ts';
export type { DamageShare, LeaveTree, WoundArea } from './damage-share.ts';
export { damageByGroup, damageShare, woundLimit, woundMargin } from './damage-share.ts';
export type { Figure, NotEnough } from './figure.ts';
export { isNotEnough, lacking, notEnough } from './figure.ts';
export type { CubicMethod, CubicRule, Ends, Middle } from './logs/cubic.ts';
export {
  CUBIC_METHODS,
  coneFrustum,
  cubicLog,
  huber,
  neiloidFrustum,
  newton,
  smalian,
} from './logs/cubic.ts';
export { doyle } from './logs/doyle.ts';
export type { QuarterInchFactor } from './logs/international.ts';
export { internationalFormula } from './logs/international.ts';
export { internationalTable } from './logs/international-table.ts';
export type { BoardRule, BoardScale, ScaledLog, Scaling, TapedLog } from './logs/scale.ts';
export {
  BOARD_SCALES,
  isBoardScale,
  lengthToScale,
  scaleLog,
  scaleName,
  scaleRule,
  scaleToLength,
} from './logs/scale.ts';
export type { HalfInchTurn, LengthRule, ScalingDiameter } from './logs/scaling.ts';
export { scalingDiameter, scalingLength, vermontDiameter } from './logs/scaling.ts';
export { scribnerFormula } from './logs/scribner.ts';
export { scribnerDecimalC } from './logs/scribner-decimal-c.ts';
export type { Segment } from './logs/segments.ts';
export { evenSegments, segmentsOf, segmentVolume, vermontSections } from './logs/segments.ts';
export { vermont } from './logs/vermont.ts';
export type { Conversion, Volume, VolumeRule, VolumeUnit } from './logs/volume.ts';
export {
  addVolumes,
  convertVolume,
  isVolumeRule,
  roundedTo,
  ruleName,
  ruleUnit,
  sumVolumes,
  VOLUME_RULES,
  volume,
} from './logs/volume.ts';
export type { BasalAreaPerArea, StemsPerArea, VolumePerArea } from './per-area.ts';
export { perAreaIn } from './per-area.ts';
export type { PhysicsCheck, PhysicsFlag, StemMeasures } from './physics.ts';
export { physicsFlags } from './physics.ts';
export type { ExaminedStump, GroupComparison } from './right-group.ts';
export { compareDecay } from './right-group.ts';
export type { SampleEstimate, Stratum } from './sampling/estimate.ts';
export { sampleEstimate, stratifiedEstimate } from './sampling/estimate.ts';
export type { BorderlineCheck, PlotLayout, PlotMethod, TapedDistance } from './sampling/plot.ts';
export { borderlineCheck } from './sampling/plot.ts';
export type { PlotTree } from './sampling/plot-sums.ts';
export { plotAmount, plotBasalArea, plotStems } from './sampling/plot-sums.ts';
export type { RegenerationPlot, RegenerationQuestion } from './sampling/regeneration.ts';
export { regenerationEstimate } from './sampling/regeneration.ts';
export type { RegenerationChange, StockedCount, VisitPlots } from './sampling/regeneration-change.ts';
export { regenerationChange } from './sampling/regeneration-change.ts';
export type { Slope } from './slope.ts';
export { horizontalDistance } from './slope.ts';
export { chiSquareQuantile } from './statistics/chi-square.ts';
export type { DifferenceEstimate } from './statistics/difference.ts';
export { normalBelow, studentQuantile } from './statistics/distributions.ts';
export type { ShareInterval } from './statistics/proportion.ts';
export type { StandingRule, StandingTree } from './stems/board-feet.ts';
export { standingBoardFeet } from './stems/board-feet.ts';
export type { SizeClass, SizeClasses } from './stems/classes.ts';
export {
  classesFrom,
  evenClasses,
  FIVE_CENTIMETRE_CLASSES,
  sizeClass,
  TWO_INCH_CLASSES,
} from './stems/classes.ts';
export type { FormFactor } from './stems/cubic-volume.ts';
export { formFactorVolume, HONER_SPECIES, honerVolume, SHAPES } from './stems/cubic-volume.ts';
export type { ReferenceDiameter } from './stems/density.ts';
export {
  curtisRelativeDensity,
  quadraticMeanDiameter,
  sdiByQmd,
  sdiBySummation,
  sdiOf,
} from './stems/density.ts';
export type { HeightCurve, MeasuredTree } from './stems/height-curve.ts';
export { fitHeightCurve, heightOf } from './stems/height-curve.ts';
export type { Columns, MeasuresAsked, StandMeasures } from './stems/measures.ts';
export {
  standColumns,
  standMeasures,
} from './stems/measures.ts';
export type { SpeciesShare } from './stems/species-mix.ts';
export { speciesMix } from './stems/species-mix.ts';
export type { StandTable, StandTableAsked, StandTableRow } from './stems/stand-table.ts';
export { standTable } from './stems/stand-table.ts';
export type { Diameter, Land, System, Tallied, Tally } from './stems/tally.ts';
export { fromFloor, stemCount, totalBasalArea, withDbh } from './stems/tally.ts';
export { dbhFromStump } from './stumps.ts';
export type { AreaUnit, LengthUnit } from './units.ts';
export { AREA_UNITS, areaIn, isAreaUnit, isLengthUnit, LENGTH_UNITS, lengthIn } from './units.ts';
export type { Goods, PriceList, PriceRow, PriceUnit, SaleLine } from './value.ts';
export { lineValue, PRICE_UNITS } from './value.ts';
export type { SolidContent, SolidUnit, SolidVolume, StackedUnit, StackedVolume } from './volume-units.ts';
export { faceCords, inCords, solid, solidFromStacked, solidIn, stacked, stackedIn } from './volume-units.ts';
