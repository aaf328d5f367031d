// Which figures there are, and what each is.
import type { System } from '../../measure/index.ts';
import type { BufferFigures } from './buffers.ts';
import type { ButtFigures } from './butt.ts';
import type { DamageFigures } from './damage.ts';
import type { DecayComparison } from './decay.ts';
import type { LineFigures } from './lines.ts';
import type { LogFigures } from './log.ts';
import type { MovedFigures } from './moved.ts';
import type { OpeningFigures } from './openings.ts';
import type { RegenerationFigures } from './regeneration.ts';
import type { SampleFigures } from './samples.ts';
import type { StumpFigures } from './stumps.ts';
import type { SunFigures } from './sun.ts';
import type { StandFigures } from './table.ts';
import type { TraverseFigures } from './traverse.ts';
import type { ValueFigures } from './value.ts';
import type { VolumeFigures } from './volume.ts';
import type { ZonesFigures } from './zones.ts';

/** What can be asked for. */
export const figureKinds = [
  'stand',
  'volume',
  'value',
  'decay',
  'log',
  'butt',
  'stumps',
  'damage',
  'plots',
  'regeneration',
  'traverse',
  'moved',
  'zones',
  'openings',
  'lines',
  'buffers',
  'sun',
] as const;
export type FigureKind = (typeof figureKinds)[number];

/**
 * Figures, which ones, and what they are about where that is one thing. Lengths are metres where `system` stands beside
 * them: it says in which units people want to read them.
 */
export type Figures =
  | Readonly<{ what: 'stand'; figures: StandFigures }>
  | Readonly<{ what: 'volume'; figures: VolumeFigures }>
  | Readonly<{ what: 'value'; figures: ValueFigures }>
  | Readonly<{ what: 'decay'; label: string; figures: DecayComparison }>
  | Readonly<{ what: 'log'; figures: LogFigures }>
  | Readonly<{ what: 'butt'; label: string; figures: ButtFigures }>
  | Readonly<{ what: 'stumps'; figures: StumpFigures }>
  | Readonly<{ what: 'damage'; figures: DamageFigures }>
  | Readonly<{ what: 'plots'; figures: SampleFigures }>
  | Readonly<{ what: 'regeneration'; label: string; figures: RegenerationFigures }>
  | Readonly<{ what: 'traverse'; figures: TraverseFigures }>
  | Readonly<{ what: 'moved'; system: System; figures: MovedFigures }>
  | Readonly<{ what: 'zones'; figures: ZonesFigures }>
  | Readonly<{ what: 'openings'; figures: OpeningFigures }>
  | Readonly<{ what: 'lines'; system: System; figures: LineFigures }>
  | Readonly<{ what: 'buffers'; system: System; figures: BufferFigures }>
  | Readonly<{ what: 'sun'; system: System; figures: SunFigures }>;
