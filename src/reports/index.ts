// reports: documents for people and auditors. One model each, plain JSON; HTML is printed from it. Reads the
// folded stand; asks nobody for the time, reads no files, writes none.
export { aimsJson, aimsSheet, readAims } from './aims.ts';
export { type EmergencyCardOptions, type EmergencyCardReport, emergencyCard } from './emergency-card.ts';
export {
  type FellingMap,
  fellingMap,
  fellingMapPicture,
  type MapReaders,
  renderFellingMap,
  renderFellingMapPdf,
} from './felling-map/index.ts';
export { type HarvestOptions, harvestReport } from './harvest.ts';
export { renderEmergencyCard } from './html/emergency-card.ts';
export { tablePiece as sheetTable } from './html/figures.ts';
export { factText, factWithEntries, html, list, type Piece, table } from './html/markup.ts';
export { renderHtml } from './html/page.ts';
export { pageStyle } from './html/style.ts';
export { renderTallySheet, usualColumns } from './html/tally-sheet.ts';
export type { Fact, HarvestReport } from './model.ts';
export { planComparedJson, planSentences, plansComparedJson } from './plan.ts';
export { planSheet, type Sheet, type SheetTable, sheetOf, toldBy, worksheetSheet } from './sheets/index.ts';
