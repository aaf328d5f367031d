// What this program leaves out of the libraries that it bundles, for the command line and for the field page: files of
// theirs, and what stands in for each.

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
];

/**
 * For the field page alone. The library of projections reads definitions as well-known text too: the command line needs
 * that for the .prj files of shapefiles, the page has only the table of reference systems.
 * @type {readonly StandIn[]}
 */
export const fieldStandIns = [
  ...standIns,
  {
    file: /wkt-parser[\\/]index\.js$/,
    contents:
      "export default () => { throw new Error('Definitions in well-known text are not read by this build.'); };",
  },
];
