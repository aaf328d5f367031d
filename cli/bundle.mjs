// How the command line is bundled: one small main.js and chunks that a command loads only when it runs.
import { chmodSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, relative, sep } from 'node:path';
import { build } from 'esbuild';

// Some dependencies are CommonJS and call require() for Node's own modules; an ES module has none.
const requireForCommonJs =
  "import { createRequire as createRequireHere } from 'node:module'; const require = createRequireHere(import.meta.url);";

/**
 * Tables as JSON text that is parsed when loaded: an object literal of that size takes much longer to compile.
 * @type {import('esbuild').Plugin}
 */
const tablesAsText = {
  name: 'tables-as-text',
  setup({ onLoad }) {
    onLoad({ filter: /\.json$/ }, ({ path }) => {
      const text = JSON.stringify(JSON.parse(readFileSync(path, 'utf8')));
      return { contents: `export default JSON.parse(${JSON.stringify(text)})`, loader: 'js' };
    });
  },
};

/**
 * The schema library brings its messages in some fifty languages; this program has its own.
 * @type {import('esbuild').Plugin}
 */
const englishOnly = {
  name: 'english-only',
  setup({ onLoad }) {
    onLoad({ filter: /zod[\\/]v4[\\/]locales[\\/]index\.js$/ }, () => ({
      contents: "export { default as en } from './en.js'",
      loader: 'js',
    }));
  },
};

/**
 * Bundles a Node program as ES modules: everything in plain JavaScript goes in, dynamic imports become chunks.
 * better-sqlite3 stays outside because it is compiled for the machine.
 *
 * @param {object} wanted
 * @param {string} wanted.entry path of the program's first file
 * @param {string} wanted.outputFolder where `main.js` and `chunks/` go
 * @param {string} wanted.version stands in for the constant GAPLEDGER_VERSION, so that --version reads no file
 * @returns {Promise<string>} the path of main.js, executable.
 * @throws {Error} esbuild's, naming file and line.
 */
export async function bundleProgram({ entry, outputFolder, version }) {
  const bundled = await build({
    entryPoints: { main: entry },
    outdir: outputFolder,
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    chunkNames: 'chunks/[name]-[hash]',
    external: ['better-sqlite3'],
    plugins: [tablesAsText, englishOnly],
    define: { GAPLEDGER_VERSION: JSON.stringify(version) },
    banner: { js: requireForCommonJs },
    // Half the text takes half the time to read at every start; names stay, so that an error tells where it arose.
    minifyWhitespace: true,
    minifySyntax: true,
    legalComments: 'none',
    logLevel: 'warning',
    write: false,
  });
  const main = join(outputFolder, 'main.js');
  const isMain = (/** @type {{ path: string }} */ file) => basename(file.path) === 'main.js';
  // Chunks first, main.js last and by renaming: a program started meanwhile finds either build whole.
  for (const file of bundled.outputFiles.filter((output) => !isMain(output))) write(file.path, file.contents);
  for (const file of bundled.outputFiles.filter(isMain)) write(main, withInterpreter(file.text));
  chmodSync(main, 0o755);
  removeOthers(
    outputFolder,
    bundled.outputFiles.map((file) => file.path),
  );
  return main;
}

/** @param {string} text */
function withInterpreter(text) {
  return text.startsWith('#!') ? text : `#!/usr/bin/env node\n${text}`;
}

/**
 * @param {string} path
 * @param {string | Uint8Array} contents
 */
function write(path, contents) {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(`${path}.new`, contents);
  renameSync(`${path}.new`, path);
}

/**
 * Takes away what an earlier build left; chunk names carry a hash, so they would pile up.
 * @param {string} folder
 * @param {readonly string[]} kept absolute paths of this build's files
 */
function removeOthers(folder, kept) {
  const names = new Set(kept.map((path) => relative(folder, path).split(sep).join('/')));
  for (const name of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    const posix = name.split(sep).join('/');
    if (posix.endsWith('.js') && !names.has(posix)) rmSync(join(folder, name));
  }
}
