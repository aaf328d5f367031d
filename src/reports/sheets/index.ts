// sheets: figures as words and tables, for the terminal and for pages. Values come from the stand's figures; nothing
// is computed here.
import type { Figures } from '../../stand/index.ts';
import { decaySheet } from './decay.ts';
import type { Sheet } from './model.ts';
import { damageSheet, regenerationSheet, sampleSheet } from './samples.ts';
import { standSheet } from './stand.ts';
import { stumpsSheet } from './stumps.ts';
import { valueSheet } from './value.ts';
import { buttSheet, volumeSheet } from './volume.ts';

export type { Sheet, SheetTable } from './model.ts';

/** The sheet of whatever figures were asked for. */
export function sheetOf(asked: Figures): Sheet {
  switch (asked.what) {
    case 'stand':
      return standSheet(asked.figures);
    case 'volume':
      return volumeSheet(asked.figures);
    case 'decay':
      return decaySheet(asked.label, asked.figures);
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
    case 'damage':
      return damageSheet(asked.figures);
  }
}
