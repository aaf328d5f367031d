// `npm run check:browser`: the pure rooms must run on a phone. Each is bundled for browsers, which fails on any of
// Node's modules, and loaded where only the language and the web's common globals exist, which fails on process,
// Buffer and the like.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { createContext, runInContext } from 'node:vm';
import { build } from 'esbuild';
import { root } from '../cli/prepare.mjs';

const rooms = ['measure', 'place', 'events', 'log/entry', 'stand', 'felling'];

for (const room of rooms) {
  const entry = join(root, 'src', room, 'index.ts');
  if (!existsSync(entry)) {
    console.log(`${room}: has no index.ts yet`);
    continue;
  }
  try {
    const code = await bundleForBrowsers(entry);
    runInContext(code, createContext(webGlobals()));
    console.log(`${room}: ${Math.round(code.length / 1000)} kB`);
  } catch (error) {
    console.error(`${room} does not run in a browser: ${error instanceof Error ? error.message : error}`);
    process.exitCode = 1;
  }
}

/** @param {string} entry */
async function bundleForBrowsers(entry) {
  const bundled = await build({
    entryPoints: [entry],
    bundle: true,
    format: 'iife',
    globalName: 'room',
    platform: 'browser',
    target: 'es2022',
    minify: true,
    write: false,
    logLevel: 'silent',
  });
  return bundled.outputFiles[0]?.text ?? '';
}

/** What pages and service workers have besides the language itself; no window or document, for workers have none. */
function webGlobals() {
  return {
    console,
    crypto,
    TextEncoder,
    TextDecoder,
    URL,
    URLSearchParams,
    structuredClone,
    atob,
    btoa,
    performance,
  };
}
