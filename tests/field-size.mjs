// `npm run check:field-size`: how much the field page loads before it works without a signal, gzipped: every file of
// the build but the pictures for the home screen, which a phone fetches when the page is put there. More than the limit takes too long to load where there is one bar of signal.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { root } from '../cli/prepare.mjs';

/** Bytes. */
const limit = 250_000;
const folder = join(root, 'dist/web/field');

const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter(
  (entry) => entry.isFile() && !/^icon-.*\.png$/.test(entry.name),
);
const sizes = files.map(({ parentPath, name }) => gzipSync(readFileSync(join(parentPath, name))).length);
const sum = sizes.reduce((total, size) => total + size, 0);
console.log(`field page: ${files.length} files, ${sum} bytes gzipped, at most ${limit}`);
if (files.length === 0) {
  console.error('There is no field page; build it with "npm run build".');
  process.exitCode = 1;
}
if (sum > limit) process.exitCode = 1;
