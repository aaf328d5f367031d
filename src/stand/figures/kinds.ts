// Which figures there are, and what each is.
import type { ButtFigures } from './butt.ts';
import type { DecayComparison } from './decay.ts';
import type { StandFigures } from './table.ts';
import type { VolumeFigures } from './volume.ts';

/** What can be asked for. */
export const figureKinds = ['stand', 'volume', 'decay', 'butt'] as const;
export type FigureKind = (typeof figureKinds)[number];

/** Figures, which ones, and what they are about where that is one thing. */
export type Figures =
  | Readonly<{ what: 'stand'; figures: StandFigures }>
  | Readonly<{ what: 'volume'; figures: VolumeFigures }>
  | Readonly<{ what: 'decay'; label: string; figures: DecayComparison }>
  | Readonly<{ what: 'butt'; label: string; figures: ButtFigures }>;
