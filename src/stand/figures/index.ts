// figures: what a forester would check, computed from the folded stand with src/measure. Every figure carries its unit,
// its method, its source and the entries it rests on; what cannot be computed says what is missing.
export { type BufferFigures, type BuffersAsked, bufferFigures } from './buffers.ts';
export { type ButtFigures, type ButtPrice, type ButtWays, buttFigures } from './butt.ts';
export type { CountAsked } from './counted.ts';
export { type DamageFigures, type DamageLays, type DamageRow, damageFigures } from './damage.ts';
export { nearLays } from './damage-lays.ts';
export { type DecayComparison, decayComparison } from './decay.ts';
export { figuresJson } from './json.ts';
export { type FigureKind, type Figures, figureKinds } from './kinds.ts';
export { lengthOf as stemLength } from './length.ts';
export { type LineFigures, lineFigures } from './lines.ts';
export { type DefectAsked, type LogAsked, type LogFigures, logFigures } from './log.ts';
export { type MovedFigures, movedFigures } from './moved.ts';
export { type OpeningFigures, type OpeningRow, openingFigures } from './openings.ts';
export type { OpeningsAsked } from './placed-opening.ts';
export type { SampleAnswer } from './plot-means.ts';
export {
  type RegenerationFigures,
  type RegenerationVisit,
  regenerationFigures,
} from './regeneration.ts';
export type { SampledRow, SampledStand } from './sampled-stand.ts';
export { type SampleFigures, type SampleRow, sampleFigures } from './samples.ts';
export { honer, type StandingMethod } from './standing-volume.ts';
export { type StumpFigures, stumpFigures } from './stumps.ts';
export { type SunFigures, sunFigures } from './sun.ts';
export {
  type ColumnName,
  columnNames,
  type StandFigures,
  standFigures,
  type TableAsked,
  type TableCell,
  type TableRow,
} from './table.ts';
export type { Answer, TracedFigure } from './traced.ts';
export { type TraverseAsked, type TraverseFigures, traverseFigures } from './traverse.ts';
export { type ValueAsked, type ValueFigures, valueFigures } from './value.ts';
export {
  type VolumeAsked,
  type VolumeFigures,
  type VolumeSum,
  volumeFigures,
} from './volume.ts';
export { type ZonesAsked, type ZonesFigures, zonesFigures } from './zones.ts';
