// `npm run build`: makes dist/cli/main.js, the program behind the command `gapledger`, and dist/web/field, the page
// for phones.
import { dirname, join } from 'node:path';
import { buildFieldPage } from './build-field.mjs';
import { bundleProgram } from './bundle.mjs';
import { makeCodeCaches } from './code-cache.mjs';
import { program, readJson, root } from './prepare.mjs';

const { version } = /** @type {{ version: string }} */ (readJson(join(root, 'package.json')));

const built = await bundleProgram({
  entry: join(root, 'cli/main.ts'),
  outputFolder: dirname(program),
  version,
});
makeCodeCaches(built);
await buildFieldPage();
