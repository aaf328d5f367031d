// What a kind of entry is: its name, its fields, its version and how older versions are read.
// A kind is described once, here and in the noun files; parsing, flags, OpenAPI and docs follow from it.
import type * as z from 'zod';
import { type Fields, isRequired, objectOf, once, type Shape } from './form.ts';

export type JsonValue =
  | null
  | boolean
  | number
  | string
  | readonly JsonValue[]
  | { readonly [key: string]: JsonValue };
export type JsonObject = { readonly [key: string]: JsonValue };

export type Kind<T extends string = string, F extends Fields = Fields> = Readonly<{
  type: T;
  /** Current version of the body. */
  v: number;
  /** The file it lives in, and the heading it stands under in the reference. */
  chapter: string;
  title: string;
  help: string;
  fields: F;
  schema: z.ZodObject<Shape<F>>;
  /** What must hold between fields; a sentence for each thing that does not. */
  between: (body: JsonObject) => readonly Issue[];
  /** `upcasters[1]` turns a version 1 body into version 2, and so on. Stored bytes never change. */
  upcasters: Readonly<Record<number, (body: JsonObject) => JsonObject>>;
  /** Flags of a complete example, as somebody would type them. */
  example: Readonly<Record<string, string>>;
}>;

/** What is wrong with a value, and what to do about it. */
export type Issue = Readonly<{ field: string; value: string; remedy: string }>;

export function defineKind<const T extends string, F extends Fields>(definition: {
  type: T;
  chapter: string;
  title: string;
  help: string;
  fields: F;
  example: Readonly<Record<string, string>>;
  v?: number;
  between?: (body: z.infer<z.ZodObject<Shape<F>>>) => readonly Issue[];
  upcasters?: Kind['upcasters'];
}): Kind<T, F> {
  const schema = once(() => objectOf(definition.fields));
  const between = definition.between;
  return {
    type: definition.type,
    v: definition.v ?? 1,
    chapter: definition.chapter,
    title: definition.title,
    help: definition.help,
    fields: definition.fields,
    get schema() {
      return schema();
    },
    between: between ? (body) => between(body as z.infer<z.ZodObject<Shape<F>>>) : () => [],
    upcasters: definition.upcasters ?? {},
    example: definition.example,
  };
}

/** The names of the fields that cannot be left out. */
export function requiredFields(kind: Kind): string[] {
  return Object.entries(kind.fields)
    .filter(([, field]) => isRequired(field) && field.form.is !== 'identity')
    .map(([name]) => name);
}
