// What somebody typed about a file, and the mappings that the log remembers by their names.
import type { JsonObject } from '../../events/index.ts';
import type { Folded } from '../../stand/index.ts';
import type { Answers } from './doubt.ts';
import type { Mapping } from './mapping.ts';
import { ImportRefusal, type Item, type Source } from './source.ts';
import type { Purpose } from './things.ts';

export function answersOf(typed: readonly string[]): Answers {
  return new Map(
    typed.map((text) => {
      const at = text.indexOf('=');
      if (at < 1)
        throw new ImportRefusal(
          '--answer',
          text,
          'write it as it is proposed, such as day-month=month-first',
        );
      return [text.slice(0, at).trim(), text.slice(at + 1).trim()] as const;
    }),
  );
}

export function setOf(typed: readonly string[]): Record<string, string> {
  return Object.fromEntries(
    typed.map((text) => {
      const at = text.indexOf('=');
      if (at < 1) throw new ImportRefusal('--set', text, 'write it as field=value, such as mark=leave');
      return [text.slice(0, at).trim(), text.slice(at + 1).trim()] as const;
    }),
  );
}

export function onlyWanted({ items, columns }: Source, only: readonly string[]): readonly Item[] {
  const wanted = Object.entries(setOf(only));
  const strange = wanted.find(([column]) => !columns.includes(column));
  if (strange !== undefined)
    throw new ImportRefusal(
      '--only',
      strange[0],
      `the file has no such column; it has ${columns.join(', ').slice(0, 500)}`,
    );
  return items.filter(({ cells }) => wanted.every(([column, value]) => cells[column] === value));
}

type Remembered = Readonly<{
  columns: readonly string[];
  as?: string;
  crs?: string;
  set: Readonly<Record<string, string>>;
}>;

/** The mapping of this name as the latest import kept it, whether that was struck or not. */
export function rememberedMapping({ entries }: Folded, name: string | undefined): Remembered | undefined {
  if (name === undefined) return undefined;
  const found = [...entries.values()].findLast(
    ({ type, body }) => type === 'import-made' && body.mapping === name,
  );
  const kept = found?.body.columns as unknown as Remembered | undefined;
  return kept;
}

export function keptMapping(
  mapping: Mapping,
  more: { as: Purpose; crs: string | undefined; set: Readonly<Record<string, string>> },
): JsonObject {
  const columns = Object.entries(mapping).map(
    ([role, { columns: names, unit }]) => `${role}=${names.join('+')}${unit === undefined ? '' : ` ${unit}`}`,
  );
  return { columns, as: more.as, ...(more.crs === undefined ? {} : { crs: more.crs }), set: more.set };
}
