// How the field page is built: `npm run build` makes dist/web/field, a folder that any static host can serve from any
// path. The desk's own server has it under /field/.
import { defineConfig } from 'vite';
import { leanLibraries, withServiceWorker } from './cli/build-field.mjs';

export default defineConfig({
  root: 'src/web/field',
  base: './',
  plugins: [leanLibraries(), withServiceWorker()],
  // Tables as JSON text that is parsed when loaded: an object literal of that size takes much longer to compile.
  json: { stringify: true },
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    outDir: '../../../dist/web/field',
    emptyOutDir: true,
    target: 'es2022',
    modulePreload: { polyfill: false },
    // Everything is kept by the service worker, so a hash in a name is for the browser's cache alone.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 1000,
    rolldownOptions: {
      // Clipping of openings is the desk's; its libraries do nothing when they are only named, and do not say so.
      treeshake: { moduleSideEffects: (id) => !/\/(polyclip-ts|splaytree-ts|bignumber\.js)\//.test(id) },
    },
  },
});
