// import: files that people have already (GPX, KML, GeoJSON, shapefile, GeoPackage, tables, tally sheets) -> entries. First a
// plan that shows what would be appended and what is doubted; then, when no doubt is open, one batch, all or nothing.
import type { Envelope } from '../../log/entry/index.ts';
import type { Receipt } from '../../log/store/index.ts';
import { append } from '../compose.ts';
import type { Desk } from '../desk.ts';
import type { ImportPlan } from './plan.ts';
import { ImportRefusal } from './source.ts';

export type { Doubt } from './doubt.ts';
export type { FileBytes } from './formats/index.ts';
export { type ImportPlan, type ImportTyped, planImport } from './plan.ts';
export { ImportRefusal } from './source.ts';

/**
 * Appends what a plan holds, in one batch.
 * @throws ImportRefusal while a doubt is unanswered, or when there is nothing to append
 */
export async function commitImport(
  desk: Desk,
  { doubts, entries, zone, file }: ImportPlan,
): Promise<{ receipts: readonly Receipt[]; envelopes: readonly Envelope[] }> {
  const [open] = doubts;
  if (open !== undefined) throw new ImportRefusal('--answer', open.code, `is still open: ${open.sentence}`);
  if (entries.length === 0) throw new ImportRefusal('file', file, 'holds nothing that would be recorded');
  return append(desk, zone, entries);
}
