// `npm run check:field-size`: how much the field page loads, gzipped. First comes what has to be there before a screen stands;
// where there is one bar of signal more than the limit takes too long. What is loaded later (the felling plan and its
// planner) comes while the page is in use, and the service worker keeps it with the rest. Pictures for the home screen are not
// counted: a phone fetches them when the page is put there.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { root } from '../cli/prepare.mjs';

/** Bytes. */
const limits = { first: 250_000, later: 75_000 };
const folder = join(root, 'dist/web/field');

const files = readdirSync(folder, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && !/^icon-.*\.png$/.test(entry.name))
  .map(({ parentPath, name }) => ({ name, contents: readFileSync(join(parentPath, name)) }));
const first = loadedFirst();
/** @type {Record<keyof typeof limits, { name: string, contents: Buffer }[]>} */
const parts = {
  first: files.filter(({ name }) => first.has(name)),
  later: files.filter(({ name }) => !first.has(name)),
};
for (const part of /** @type {const} */ (['first', 'later'])) {
  const sum = parts[part].reduce((total, { contents }) => total + gzipSync(contents).length, 0);
  console.log(
    `field page, loaded ${part}: ${parts[part].length} files, ${sum} bytes gzipped, at most ${limits[part]}`,
  );
  if (parts[part].length === 0) {
    console.error(`Nothing of the field page is loaded ${part}; build it with "npm run build".`);
    process.exitCode = 1;
  }
  if (sum > limits[part]) process.exitCode = 1;
}

/** Everything but scripts that no file imports before it runs. */
function loadedFirst() {
  const isScript = (/** @type {string} */ name) => name.endsWith('.js') && name !== 'sw.js';
  const names = new Set(files.map(({ name }) => name).filter((name) => !isScript(name)));
  const textOf = (/** @type {string} */ name) => String(files.find((file) => file.name === name)?.contents);
  const ahead = [...textOf('index.html').matchAll(/src="[^"]*?([\w.-]+\.js)"/g)].map(
    ([, name]) => name ?? '',
  );
  for (const name of ahead) {
    if (names.has(name)) continue;
    names.add(name);
    for (const [, other] of textOf(name).matchAll(/(?:from|import)\s*["'`]\.\/([\w.-]+\.js)["'`]/g))
      if (other !== undefined) ahead.push(other);
  }
  return names;
}
