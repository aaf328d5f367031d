// felling-map: the plan of a group as a map on paper, to take along. From the plan in metres to SVG and PDF; rounds for the
// print only.
import type { Piece } from '../html/markup.ts';
import { pictureOf, sheetOf } from './layout.ts';
import type { FellingMap } from './model.ts';
import { svgFile, svgPart } from './svg.ts';

export { type FellingMap, fellingMap, type MapReaders } from './model.ts';

/** The map as an SVG file, for the smallest paper that holds it. */
export function renderFellingMap(map: FellingMap): string {
  return svgFile(sheetOf(map));
}

/** Drawing, scale and key as a part of a page of HTML. */
export function fellingMapPicture(map: FellingMap): Piece {
  return svgPart(pictureOf(map));
}

/**
 * The same page as a PDF file. What writes PDF is loaded when one is made.
 * @param program told among the properties of the file, such as "gapledger 0.1.0"
 */
export async function renderFellingMapPdf(
  map: FellingMap,
  program: string,
): Promise<Uint8Array<ArrayBuffer>> {
  const { pdfFile } = await import('./pdf.ts');
  return pdfFile(sheetOf(map), program);
}
