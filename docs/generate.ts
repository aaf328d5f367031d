// Writes docs/reference from the descriptions in the code: `npm run generate`. One function per kind of page,
// in docs/generate/; the same code gives the same bytes, and check:generated fails where a page is out of date.
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { cautionsMarkdown } from '../src/felling/index.ts';
import { commandPages } from './generate/commands.ts';
import { eventPages } from './generate/events.ts';
import { assumptionPages } from './generate/felling-assumptions.ts';
import { fellingDrawings } from './generate/felling-drawings.ts';
import { httpPages } from './generate/http.ts';
import { layerPages } from './generate/layers.ts';

const folder = fileURLToPath(new URL('./reference/', import.meta.url));
const pages = [
  ...eventPages(),
  ...layerPages(),
  ...commandPages(),
  ...(await httpPages()),
  ...assumptionPages(),
];

rmSync(folder, { recursive: true, force: true });
for (const { path, text } of pages) {
  const file = join(folder, path);
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, text);
}
for (const { path, text } of fellingDrawings())
  writeFileSync(fileURLToPath(new URL(`./${path}`, import.meta.url)), text);
writeFileSync(fileURLToPath(new URL('./cautions.md', import.meta.url)), cautionsMarkdown());
console.log(`${pages.length} reference pages`);
