// JSON Schemas of the kinds, for OpenAPI and the generated reference.
import * as z from 'zod';
import type { Kind } from './kind.ts';

/** JSON Schema (2020-12) of a kind's stored body in its current version. */
export function bodySchema(kind: Kind): Record<string, unknown> {
  return z.toJSONSchema(kind.schema, { unrepresentable: 'any' });
}
