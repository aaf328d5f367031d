// Of the projections that proj4 brings, those that the table of reference systems uses. The others would be read and
// set up at every start.
import { readFileSync } from 'node:fs';

const table = new URL('../src/place/crs.gen.json', import.meta.url);

/** The files of proj4 that have the projections; tmerc is in etmerc, which computes more exactly. */
const files = new Map([
  ['tmerc', 'etmerc'],
  ['utm', 'utm'],
  ['lcc', 'lcc'],
  ['omerc', 'omerc'],
  ['laea', 'laea'],
]);

/** @type {import('esbuild').Plugin} */
export const onlyProjectionsUsed = {
  name: 'only-projections-used',
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^proj4$/ }, ({ path, resolveDir }) => ({
      path,
      namespace: 'projections',
      pluginData: resolveDir,
    }));
    onLoad({ filter: /.*/, namespace: 'projections' }, ({ pluginData }) => ({
      contents: projectionsUsed(),
      resolveDir: String(pluginData),
    }));
  },
};

/** The module that stands in for proj4: its core and those projections. */
export function projectionsUsed() {
  const lines = ["import proj4 from 'proj4/lib/core.js';", "import Proj from 'proj4/lib/Proj.js';"];
  for (const name of used()) {
    const file = files.get(name);
    if (file === undefined)
      throw new Error(
        `src/place/crs.gen.json uses the projection ${name}; add its file of proj4 to ${import.meta.url}.`,
      );
    lines.push(`import ${file} from 'proj4/lib/projections/${file}.js';`, `Proj.projections.add(${file});`);
  }
  return [...lines, 'export default proj4;'].join('\n');
}

function used() {
  const { systems } = /** @type {{ systems: readonly { proj4: string }[] }} */ (
    JSON.parse(readFileSync(table, 'utf8'))
  );
  return new Set(systems.map(({ proj4 }) => /\+proj=(\w+)/.exec(proj4)?.[1] ?? ''));
}
