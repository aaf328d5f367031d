// sheets: figures as words and tables, for the terminal and for pages. Values come from the stand's figures; nothing
// is computed here.
import type { Figures } from '../../stand/index.ts';
import { damageSheet } from './damage.ts';
import { decaySheet } from './decay.ts';
import { movedSheet, traverseSheet, zonesSheet } from './ground.ts';
import { buffersSheet, linesSheet, sunSheet } from './lines.ts';
import { logSheet } from './log.ts';
import type { Sheet } from './model.ts';
import { openingsSheet } from './openings.ts';
import { regenerationSheet } from './regeneration.ts';
import { sampleSheet } from './samples.ts';
import { standSheet } from './stand.ts';
import { stumpsSheet } from './stumps.ts';
import { valueSheet } from './value.ts';
import { buttSheet, volumeSheet } from './volume.ts';

export { rounded, type Sheet, type SheetTable } from './model.ts';
export { planSheet } from './plan.ts';
export { toldBy } from './plan-changed.ts';
export { howWords, stopsBefore, towards } from './plan-words.ts';
export { worksheetSheet } from './worksheet.ts';

/** The sheet of whatever figures were asked for. */
export function sheetOf(asked: Figures): Sheet {
  switch (asked.what) {
    case 'stand':
      return standSheet(asked.figures);
    case 'volume':
      return volumeSheet(asked.figures);
    case 'decay':
      return decaySheet(asked.label, asked.figures);
    case 'log':
      return logSheet(asked.figures);
    case 'butt':
      return buttSheet(asked.label, asked.figures);
    case 'value':
      return valueSheet(asked.figures);
    case 'stumps':
      return stumpsSheet(asked.figures);
    case 'plots':
      return sampleSheet(asked.figures);
    case 'regeneration':
      return regenerationSheet(asked.label, asked.figures);
    case 'traverse':
      return traverseSheet(asked.figures);
    case 'moved':
      return movedSheet(asked.figures, asked.system);
    case 'openings':
      return openingsSheet(asked.figures);
    case 'lines':
      return linesSheet(asked.figures, asked.system);
    case 'buffers':
      return buffersSheet(asked.figures, asked.system);
    case 'sun':
      return sunSheet(asked.figures, asked.system);
    case 'zones':
      return zonesSheet(asked.figures);
    case 'damage':
      return damageSheet(asked.figures);
  }
}
