// How the command line is bundled: a small main.js and chunks, of which a command loads those that it needs.
// esbuild splits ES modules only, and only CommonJS can be loaded with a code cache; so each chunk is turned into that.
import { createHash } from 'node:crypto';
import { chmodSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, transform } from 'esbuild';
import { standIns } from './lean-libraries.mjs';
import { onlyProjectionsUsed } from './projections.mjs';

/** @typedef {{ path: string, contents: string | Uint8Array }} Output */

const target = 'node20';
const loader = fileURLToPath(new URL('loader.cjs', import.meta.url));
/** Half the text takes half the time to read at every start; names stay, so that an error tells where it arose. */
const smaller = /** @type {const} */ ({ minifyWhitespace: true, minifySyntax: true, legalComments: 'none' });

/**
 * Generated tables as files beside the chunks, read when something in them is first asked for.
 * @param {Output[]} outputs where the files are added
 * @param {string} folder where they will stand
 * @returns {import('esbuild').Plugin}
 */
const tablesBeside = (outputs, folder) => ({
  name: 'tables-beside',
  setup({ onLoad }) {
    onLoad({ filter: /\.gen\.json$/ }, ({ path }) => {
      const table = /** @type {object} */ (JSON.parse(readFileSync(path, 'utf8')));
      const contents = JSON.stringify(table);
      const hash = createHash('sha256').update(contents).digest('hex').slice(0, 8);
      const name = `${basename(path, '.gen.json')}-${hash}.json`;
      outputs.push({ path: join(folder, name), contents });
      const members = Object.keys(table).map((key) => `get ${key}() { return read().${key}; }`);
      return {
        contents: `import { readFileSync } from 'node:fs';
          let table;
          const read = () => (table ??= JSON.parse(readFileSync(__dirname + '/${name}', 'utf8')));
          export default { ${members.join(', ')} };`,
        loader: 'js',
      };
    });
  },
});

/**
 * The binding of SQLite is compiled for the machine and stays in its package; the library would look for it in a dozen
 * places, at every start.
 * @type {import('esbuild').Plugin}
 */
const bindingFromItsPlace = {
  name: 'binding-from-its-place',
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^bindings$/ }, ({ path }) => ({ path, namespace: 'binding' }));
    onLoad({ filter: /.*/, namespace: 'binding' }, () => ({
      contents: "module.exports = () => require('better-sqlite3/build/Release/better_sqlite3.node')",
    }));
  },
};

/** @type {import('esbuild').Plugin} */
const leanLibraries = {
  name: 'lean-libraries',
  setup({ onLoad }) {
    for (const { file, contents } of standIns) onLoad({ filter: file }, () => ({ contents, loader: 'js' }));
  },
};

/**
 * Bundles a Node program: everything in plain JavaScript goes in, dynamic imports become chunks. The program may not
 * await at the top of a file.
 *
 * @param {object} wanted
 * @param {string} wanted.entry path of the program's first file
 * @param {string} wanted.outputFolder where `main.js` and `chunks/` go
 * @param {string} wanted.version stands in for the constant GAPLEDGER_VERSION, so that --version looks it up nowhere
 * @returns {Promise<string>} the path of main.js, executable.
 * @throws {Error} esbuild's, naming file and line.
 */
export async function bundleProgram({ entry, outputFolder, version }) {
  const chunks = join(outputFolder, 'chunks');
  /** @type {Output[]} */
  const outputs = [];
  const bundled = await build({
    entryPoints: { main: entry },
    outdir: chunks,
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target,
    mainFields: ['module', 'main'],
    entryNames: '[name]-[hash]',
    chunkNames: '[name]-[hash]',
    external: ['*.node'],
    plugins: [tablesBeside(outputs, chunks), bindingFromItsPlace, onlyProjectionsUsed, leanLibraries],
    define: {
      GAPLEDGER_VERSION: JSON.stringify(version),
      // A chunk is no module and has no address. What writes PDF asks for it at the start, for files that are not used here.
      'import.meta.url': JSON.stringify('file:///gapledger/'),
    },
    logLevel: 'warning',
    write: false,
  });
  for (const { path, text } of bundled.outputFiles) outputs.push({ path, contents: await asCommonJs(text) });
  const first = bundled.outputFiles.find(({ path }) => basename(path).startsWith('main-'));
  const main = { path: join(outputFolder, 'main.js'), contents: await loaderOf(basename(first?.path ?? '')) };
  // The package is one of ES modules; what stands here is not.
  outputs.push({ path: join(outputFolder, 'package.json'), contents: '{ "type": "commonjs" }\n' });
  // Chunks first, main.js last and by renaming: a program started meanwhile finds either build whole.
  for (const { path, contents } of [...outputs, main]) write(path, contents);
  chmodSync(main.path, 0o755);
  removeOthers(
    outputFolder,
    [...outputs, main].map(({ path }) => path),
  );
  return main.path;
}

/** @param {string} text an ES module */
async function asCommonJs(text) {
  const { code } = await transform(text, {
    ...smaller,
    format: 'cjs',
    platform: 'node',
    target,
    // Becomes a require() in a promise.
    supported: { 'dynamic-import': false },
  });
  return code;
}

/** @param {string} firstChunk */
async function loaderOf(firstChunk) {
  const { code } = await transform(
    readFileSync(loader, 'utf8').replace('{first chunk}', firstChunk),
    smaller,
  );
  return `#!/usr/bin/env node\n${code}`;
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
    if (/\.(js|json|cache)$/.test(posix) && !names.has(posix)) rmSync(join(folder, name));
  }
}
