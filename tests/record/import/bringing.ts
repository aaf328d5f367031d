// Bringing files in, in tests: a fixture or some text as a file, planned at a desk, with the codes of what is doubted.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  commitImport,
  type ImportPlan,
  type ImportTyped,
  planImport,
} from '../../../src/record/import/index.ts';
import type { Woods } from '../woods.ts';

export function fixture(path: string): Uint8Array {
  return new Uint8Array(readFileSync(fileURLToPath(new URL(`../../../fixtures/${path}`, import.meta.url))));
}

/** Text, or bytes as they are. */
export async function plan(
  here: Woods,
  name: string,
  content: string | Uint8Array,
  typed: ImportTyped = {},
): Promise<ImportPlan> {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  return planImport(here.desk, { name, bytes }, typed);
}

export const codes = ({ doubts }: ImportPlan): string[] => doubts.map(({ code }) => code);

/** Brings in what must go in. */
export async function bringIn(
  here: Woods,
  name: string,
  content: string | Uint8Array,
  typed: ImportTyped = {},
) {
  return commitImport(here.desk, await plan(here, name, content, typed));
}
