// Parts of src/measure go to the phone: what a bundle does not use of it, tables and coefficients above all, stays out.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build, type Rollup } from 'vite';
import { afterAll, expect, test } from 'vitest';
import { root } from '../../cli/prepare.mjs';

// Inside node_modules, so that git sees none of it.
mkdirSync(join(root, 'node_modules/.cache'), { recursive: true });
const folder = mkdtempSync(join(root, 'node_modules/.cache/measure-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** The code of a bundle that exports these names of the room and nothing else, comments of whose it is left out. */
async function bundled(names: string): Promise<string> {
  const entry = join(folder, 'entry.ts');
  writeFileSync(entry, `export { ${names} } from ${JSON.stringify(join(root, 'src/measure/index.ts'))};`);
  const built = await build({
    configFile: false,
    root: folder,
    logLevel: 'error',
    build: { write: false, lib: { entry, formats: ['es'], fileName: 'measure' } },
  });
  const [output] = [built].flat() as Rollup.RollupOutput[];
  const code = output?.output[0].code ?? '';
  return code.replace(/^\/\/.*$/gm, '');
}

test('a bundle that converts lengths holds no other table', async () => {
  const code = await bundled('lengthIn');
  expect(code).toContain('3937');
  expect(code.length).toBeLessThan(700);
});

test('a bundle that scales by Doyle holds no printed table, no coefficients of standing trees, no statistics', async () => {
  const code = await bundled('doyle');
  expect(code).toContain('Cassens');
  expect(code).not.toMatch(/Wengert|Wiant|Honer|Fisher|Grosenbaugh/);
});

test('a bundle that looks up Decimal C holds that table and not the other', async () => {
  const code = await bundled('scribnerDecimalC');
  expect(code).toContain('Decimal C, published table');
  expect(code).not.toContain('International ¼-inch, published table');
});
