// stand: the fold. Entries in the order they happened -> stems, saplings, groups, hazards, findings, at any
// moment and as known at any size of the log. Pure and total; only apply/ writes to the state.
export { hangOn } from './anchors.ts';
export { type OpenThings, openIn } from './apply/index.ts';
export { isCorrection, type Standing } from './corrections.ts';
export { type Dangers, dangersIn, hazardWords } from './dangers.ts';
export { describe, type EntryNumbers, type Names } from './describe.ts';
export { callOverdue, emergencyCardFor, isOverdue, openCalls } from './emergency.ts';
export { type Happening, instantOf, isLate, type LogEntry, timeText } from './entry.ts';
export {
  type Answer,
  type BufferFigures,
  type BuffersAsked,
  type ButtFigures,
  type ButtPrice,
  type ButtWays,
  bufferFigures,
  buttFigures,
  type CountAsked,
  columnNames,
  type DamageFigures,
  type DamageLays,
  type DamageRow,
  type DecayComparison,
  type DefectAsked,
  damageFigures,
  decayComparison,
  type FigureKind,
  type Figures,
  figureKinds,
  figuresJson,
  honer,
  type LineFigures,
  type LogAsked,
  type LogFigures,
  lineFigures,
  logFigures,
  type MovedFigures,
  movedFigures,
  nearLays,
  type OpeningFigures,
  type OpeningRow,
  type OpeningsAsked,
  openingFigures,
  type RegenerationFigures,
  type RegenerationVisit,
  regenerationFigures,
  type SampleAnswer,
  type SampledRow,
  type SampledStand,
  type SampleFigures,
  type SampleRow,
  type StandFigures,
  type StandingMethod,
  type StumpFigures,
  type SunFigures,
  sampleFigures,
  standFigures,
  stemLength,
  stumpFigures,
  sunFigures,
  type TableAsked,
  type TableCell,
  type TableRow,
  type TraverseAsked,
  type TraverseFigures,
  traverseFigures,
  type ValueFigures,
  type VolumeAsked,
  type VolumeFigures,
  type VolumeSum,
  valueFigures,
  volumeFigures,
  type ZonesAsked,
  type ZonesFigures,
  zonesFigures,
} from './figures/index.ts';
export { findThing } from './find.ts';
export { type About, type Finding, type FindingCode, findingCodes, isAboutRecord } from './findings.ts';
export { type Folded, type Folding, type FoldOptions, fold, playBack, startFolding } from './fold.ts';
export { boundaryOf, type FeatureShape, featureShape } from './ground.ts';
export { type GroupView, viewGroup } from './group-view.ts';
export { type StandJsonOptions, standJson } from './json.ts';
export {
  breastHeightWords,
  counted,
  groupLabel,
  hazardLabel,
  saplingLabel,
  shortId,
  stemLabel,
  withUnit,
  words,
} from './labels.ts';
export { layLine, lengthOfLay } from './lay-line.ts';
export { howItStands } from './line-findings.ts';
export { type AtLine, callsForLooking, consentFor, type Lines, linesOf, lineWords } from './lines.ts';
export type { Moved } from './moved.ts';
export {
  type AreaFigures,
  type OpeningArea,
  type OpeningMeasure,
  openingArea,
  openingMeasures,
} from './openings/area.ts';
export { type Outline, outlineOf } from './outlines.ts';
export { doubtsAbout, likelyWords } from './physics-findings.ts';
export { positionWords } from './position-words.ts';
export { openFindings } from './settle.ts';
export type {
  Block,
  Damage,
  Decay,
  Device,
  EmergencyCard,
  ExpectedCall,
  Feature,
  Felling,
  Group,
  Hazard,
  Located,
  Patch,
  Person,
  Sapling,
  SaplingCheck,
  SaplingCondition,
  Stake,
  Stand,
  Stem,
  StemStatus,
} from './state.ts';
export { blockOfStem, isDecay, stumpDiameterOf } from './stem-facts.ts';
export { toldApart } from './told-apart.ts';
export { type EntryVersion, versionsOf } from './versions.ts';
export { type Locator, locate } from './where.ts';
