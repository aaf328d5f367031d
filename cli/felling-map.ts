// The map of a felling plan as a file: SVG or PDF, by the ending of its name.
import type { FellingPlan } from '../src/felling/index.ts';
import { fellingMap, type MapReaders, renderFellingMap, renderFellingMapPdf } from '../src/reports/index.ts';
import { exitCodes, Failure, tell, writeWhole } from './terminal/index.ts';

/** Refuses a name that is neither before anything is computed. */
export function checkMapName(name: string): void {
  if (!/\.(?:svg|pdf)$/i.test(name))
    throw new Failure(
      exitCodes.badInput,
      `--map "${name}": the map is an SVG or a PDF file; end its name in .svg or .pdf.`,
    );
}

export async function writeMap(
  name: string,
  plan: FellingPlan,
  { program, ...readers }: MapReaders & Readonly<{ program: string }>,
): Promise<void> {
  const map = fellingMap(plan, readers);
  writeWhole(name, /\.pdf$/i.test(name) ? await renderFellingMapPdf(map, program) : renderFellingMap(map));
  tell(`${name}: the map of this plan. Print it at its own size; it ends with the plan.`);
}
