// How the field page is built: `npm run build` makes dist/web/field, a folder that any static host can serve from any
// path. The desk's own server has it under /field/.
import { defineConfig } from 'vite';
import { leanLibraries, withServiceWorker } from './cli/build-field.mjs';

/**
 * Files that do nothing when they are only named, and do not say so: the libraries for clipping openings, which is the desk's,
 * and the pure rooms. Without this a door's files would all be loaded at first, whoever uses them.
 */
const treeshake = {
  moduleSideEffects: (id: string) =>
    !/\/(polyclip-ts|splaytree-ts|bignumber\.js)\/|\/src\/(measure|place|events|stand|felling|web\/field\/text)\//.test(
      id,
    ),
};
export default defineConfig({
  root: 'src/web/field',
  base: './',
  plugins: [leanLibraries(), withServiceWorker()],
  // Tables as JSON text that is parsed when loaded: an object literal of that size takes much longer to compile.
  json: { stringify: true },
  // The thread that makes felling plans is a bundle of its own.
  worker: { plugins: () => [leanLibraries()], rolldownOptions: { treeshake } },
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    outDir: '../../../dist/web/field',
    emptyOutDir: true,
    target: 'es2022',
    modulePreload: false,
    // Everything is kept by the service worker, so a hash in a name is for the browser's cache alone.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 1000,
    rolldownOptions: {
      treeshake,
      // What is loaded at first is one file: split in two it would be larger.
      output: { codeSplitting: { groups: [{ name: 'page', tags: ['$initial'] }] } },
    },
  },
});
