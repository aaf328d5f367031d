// What main.js of the built program consists of: loads the chunks beside it, with what V8 made of them when the
// program was built. Compiling would take longer than recording an entry does. A code cache that is absent, damaged, or
// made by another V8, is no loss: the chunk is compiled then.
'use strict';
const { isAscii } = require('node:buffer');
const { createHash } = require('node:crypto');
const { readFileSync } = require('node:fs');
const { basename, join } = require('node:path');
const { Script } = require('node:vm');

const folder = join(__dirname, 'chunks');
/** @type {Map<string, { script: Script, module: { exports: unknown } }>} */
const loaded = new Map();

/** @param {string} name file name of a chunk @returns {unknown} what it exports */
function load(name) {
  const known = loaded.get(name);
  if (known) return known.module.exports;
  const filename = join(folder, name);
  const text = readFileSync(filename);
  // Nearly all of it is ASCII, which is read faster so; a template with a quotation mark of its own is not.
  const code = text.toString(isAscii(text) ? 'latin1' : 'utf8');
  const source = `(function (exports, require, module, __dirname) {${code}\n})`;
  const cachedData = readCache(`${filename}.cache`);
  const script = new Script(source, cachedData === undefined ? { filename } : { filename, cachedData });
  const module = { exports: {} };
  loaded.set(name, { script, module });
  const run = /** @type {(...given: unknown[]) => void} */ (script.runInThisContext());
  run(module.exports, requireHere, module, folder);
  return module.exports;
}

/** @param {string} id @returns {unknown} */
function requireHere(id) {
  return id.startsWith('./') ? load(basename(id)) : require(id);
}

/**
 * V8 compares version and flags itself, and runs astray in a cache whose bytes were changed; so a hash stands before it.
 * @param {string} path
 */
function readCache(path) {
  try {
    const file = readFileSync(path);
    const cache = file.subarray(32);
    return createHash('sha256').update(cache).digest().equals(file.subarray(0, 32)) ? cache : undefined;
  } catch {
    return undefined;
  }
}

// The text becomes the name of the first chunk when the program is built.
const start = () => load('{first chunk}');
if (require.main === module) start();
else module.exports = { start, loaded, folder };
