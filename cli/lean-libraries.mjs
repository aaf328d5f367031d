// What this program leaves out of the libraries that it bundles, for the command line and for the field page: files of
// theirs, and what stands in for each.

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

/** @typedef {Readonly<{ file: RegExp, contents: string }>} StandIn */

/** @type {readonly StandIn[]} */
export const standIns = [
  // The schema library brings its messages in some fifty languages; this program has its own.
  {
    file: /zod[\\/]v4[\\/]locales[\\/]index\.js$/,
    contents: "export { default as en } from './en.js'",
  },
  // The datums of the library of projections: the definitions of the table name an ellipsoid and no datum.
  {
    file: /proj4[\\/]lib[\\/]constants[\\/]Datum\.js$/,
    contents: 'export default {};',
  },
  // Unpacks faces of the kind WOFF2, by half a megabyte of tables: ours are of another kind.
  {
    file: /brotli[\\/]decompress\.js$/,
    contents: "module.exports = () => { throw new Error('Faces in WOFF2 are not read by this build.'); };",
  },
];

/**
 * A module that has the exports of a file of the schema library, each of which refuses to be called.
 * @param {string} file
 */
function refusingAll(file) {
  const folder = dirname(createRequire(import.meta.url).resolve('zod/v4/core'));
  const source = readFileSync(join(folder, file), 'utf8');
  const names = [...source.matchAll(/^export (?:const|function|\{ \w+ as) (\w+)/gm)].map(([, name]) => name);
  return `const no = () => { throw new Error('JSON Schema is not made by this build.'); };
export { ${names.map((name) => `no as ${name}`).join(', ')} };`;
}

/**
 * For the field page alone. The library of projections reads definitions as well-known text too: the command line needs
 * that for the .prj files of shapefiles, the page has only the table of reference systems. The schema library writes its
 * schemas out as JSON Schema: the references and the server need that, the page only checks with them.
 * @type {readonly StandIn[]}
 */
export const fieldStandIns = [
  ...standIns,
  {
    file: /wkt-parser[\\/]index\.js$/,
    contents:
      "export default () => { throw new Error('Definitions in well-known text are not read by this build.'); };",
  },
  {
    file: /zod[\\/]v4[\\/]core[\\/]json-schema-processors\.js$/,
    contents: refusingAll('json-schema-processors.js'),
  },
  { file: /zod[\\/]v4[\\/]core[\\/]to-json-schema\.js$/, contents: refusingAll('to-json-schema.js') },
  // What the bundler wraps around a part that is loaded later, to fetch its style sheets first: there are none.
  { file: /vite[\\/]preload-helper\.js$/, contents: 'export const __vitePreload = (load) => load();' },
];
