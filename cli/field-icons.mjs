// The icons of the field page as pictures in dots, from the drawing in src/web/field/public/icon.svg: phones that put a
// page on the home screen take no drawing. Part of `npm run generate`; the same drawing gives the same bytes.
import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { initWasm, Resvg } from '@resvg/resvg-wasm';
import { root } from './prepare.mjs';

const folder = join(root, 'src/web/field/public');
const drawing = readFileSync(join(folder, 'icon.svg'), 'utf8');

/** Paper to the very edge: phones of one maker paint clear corners black and cut their own. */
const toTheEdge = drawing.replace(/ rx="\d+"/, '');
if (toTheEdge === drawing) throw new Error('icon.svg: its paper has no round corners to straighten.');

/** The drawing small enough for any shape that is cut out of it: the inner circle of 80 % (W3C, Web Application Manifest). */
const inTheMiddle = toTheEdge.replace(/(<rect[^>]*\/>)([\s\S]*)<\/svg>/, (_, paper, drawn) => {
  return `${paper}<g transform="translate(48 48) scale(.8) translate(-48 -48)">${drawn}</g></svg>`;
});

const icons = [
  { name: 'icon-180.png', edge: 180, from: toTheEdge },
  { name: 'icon-192.png', edge: 192, from: drawing },
  { name: 'icon-512.png', edge: 512, from: drawing },
  { name: 'icon-cut-512.png', edge: 512, from: inTheMiddle },
];

await initWasm(readFileSync(createRequire(import.meta.url).resolve('@resvg/resvg-wasm/index_bg.wasm')));
for (const { name, edge, from } of icons) {
  const picture = new Resvg(from, { fitTo: { mode: 'width', value: edge } }).render();
  writeFileSync(join(folder, name), picture.asPng());
}
console.log(`${icons.length} icons`);
