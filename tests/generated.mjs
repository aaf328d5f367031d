// `npm run check:generated`: whatever is generated and committed must be what the generators make today.
// The generators rewrite the files in place; where this check fails, look at the difference and commit it.
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root, run } from '../cli/prepare.mjs';

const before = generatedFiles();
const failed = run('npm', ['run', '--silent', 'generate']);
const after = generatedFiles();

const changed = [...new Set([...before.keys(), ...after.keys()])].filter(
  (path) => before.get(path) !== after.get(path),
);
if (failed) console.error(`The generators failed (${failed}).`);
for (const path of changed)
  console.error(`${path} was not what its generator makes; look at it and commit it.`);
if (!failed && changed.length === 0) console.log(`${after.size} generated files are up to date.`);
process.exitCode = failed || changed.length > 0 ? 1 : 0;

/** @returns {Map<string, string>} the hash of every generated file by its path in the project. */
function generatedFiles() {
  const paths = [
    ...filesUnder('docs/reference'),
    ...filesUnder('docs/images').filter((path) => path.endsWith('.svg')),
    ...filesUnder('exports').filter((path) => !path.endsWith('.ts')),
    ...filesUnder('src').filter((path) => path.endsWith('.gen.json')),
    ...filesUnder('src/web/field/public').filter((path) => path.endsWith('.png')),
  ];
  return new Map(
    paths.map((path) => [
      path,
      createHash('sha256')
        .update(readFileSync(join(root, path)))
        .digest('hex'),
    ]),
  );
}

/** @param {string} folder */
function filesUnder(folder) {
  if (!existsSync(join(root, folder))) return [];
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(root.length));
}
