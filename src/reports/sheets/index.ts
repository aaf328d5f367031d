// sheets: figures as words and tables, for the terminal and for pages. Values come from the stand's figures; nothing
// is computed here.
import type { Figures } from '../../stand/index.ts';
import { decaySheet } from './decay.ts';
import type { Sheet } from './model.ts';
import { standSheet } from './stand.ts';
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
  }
}
