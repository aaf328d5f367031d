// How the field page is built: what Vite leaves to us. A service worker that knows every file of the build, a small
// file that tells which build is the newest, and that build's name in the page itself.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { build as bundle } from 'esbuild';
import { build } from 'vite';
import { fieldStandIns } from './lean-libraries.mjs';
import { root } from './prepare.mjs';
import { projectionsUsed } from './projections.mjs';
import { tableFile, tableModule } from './table-module.mjs';

/** @typedef {{ name: string, contents: string | Uint8Array }} File */

const source = join(root, 'src/web/field');
const worker = 'sw.js';
const version = 'version.json';

/**
 * Builds dist/web/field as vite.config.ts says.
 * @throws {Error} Vite's, naming file and line.
 */
export async function buildFieldPage() {
  await build({ configFile: join(root, 'vite.config.ts'), logLevel: 'warn' });
}

/**
 * Leaves out of libraries and tables what the page does not use.
 * @returns {import('vite').Plugin}
 */
export function leanLibraries() {
  const projections = '\0projections';
  return {
    name: 'lean-libraries',
    enforce: 'pre',
    resolveId(name, importer) {
      // What stands in for proj4 takes in parts of proj4, found from where the real one is asked for.
      if (name === 'proj4') return projections;
      return importer === projections ? this.resolve(name, join(root, 'src/place/projection.ts')) : null;
    },
    load(id) {
      if (id === projections) return projectionsUsed();
      const standIn = fieldStandIns.find(({ file }) => file.test(id));
      if (standIn) return standIn.contents;
      return tableFile.test(id) ? { code: tableModule(id), moduleType: 'js' } : null;
    },
  };
}

/**
 * Adds the service worker and the build's name.
 * @returns {import('vite').Plugin}
 */
export function withServiceWorker() {
  return {
    name: 'with-service-worker',
    apply: 'build',
    enforce: 'post',
    generateBundle: {
      // Last of all: the page itself must stand in the bundle.
      order: 'post',
      async handler(_, output) {
        const files = [
          ...Object.values(output).map((file) => ({
            name: file.fileName,
            contents: file.type === 'chunk' ? file.code : file.source,
          })),
          ...publicFiles(),
        ];
        const id = await buildId(files);
        const page = output['index.html'];
        if (page?.type !== 'asset') throw new Error('The build has no index.html.');
        page.source = String(page.source).replace('</title>', `</title><meta name="build" content="${id}">`);
        this.emitFile({ type: 'asset', fileName: version, source: `${JSON.stringify({ build: id })}\n` });
        const names = files.map(({ name }) => name).sort();
        this.emitFile({ type: 'asset', fileName: worker, source: await workerText(id, names) });
      },
    },
  };
}

/**
 * What is copied as it is. Pictures for the home screen are not among them: a phone fetches them when the page is put
 * there, and the page itself never does.
 * @returns {File[]}
 */
function publicFiles() {
  const folder = join(source, 'public');
  const names = readdirSync(folder).filter((name) => !name.endsWith('.png'));
  return names.map((name) => ({ name, contents: readFileSync(join(folder, name)) }));
}

/**
 * The same files give the same name, on whatever machine and day they are built; a changed worker counts too.
 * @param {readonly File[]} files
 */
async function buildId(files) {
  const hash = createHash('sha256').update(await workerText('', []));
  const sorted = [...files].sort((a, b) => (a.name < b.name ? -1 : 1));
  for (const { name, contents } of sorted) hash.update(`\0${name}\0`).update(contents);
  return hash.digest('hex').slice(0, 12);
}

/**
 * @param {string} id
 * @param {readonly string[]} names
 */
async function workerText(id, names) {
  const bundled = await bundle({
    entryPoints: [join(source, 'worker/index.ts')],
    bundle: true,
    format: 'iife',
    platform: 'browser',
    target: 'es2022',
    minify: true,
    write: false,
    define: { FIELD_BUILD: JSON.stringify(id), FIELD_FILES: JSON.stringify(names) },
    logLevel: 'warning',
  });
  return bundled.outputFiles[0]?.text ?? '';
}
