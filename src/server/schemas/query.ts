// What queries are made of.
import { z } from '@hono/zod-openapi';

/** A whole number from 0 to `most`. */
const whole = (help: string, most: number) =>
  z
    .string()
    .regex(/^\d{1,15}$/, 'write a whole number')
    .transform(Number)
    .refine((number) => number <= most, `write a number up to ${most}`)
    .openapi({ type: 'integer', minimum: 0, maximum: most, description: help });

/** A page of the log: from where, and how many entries. */
export const pageOfLog = (mostEntries: number) =>
  z.strictObject({
    from: whole('First position; 0 if left out.', 999_999_999_999_999).optional(),
    limit: whole(`Number of entries, up to ${mostEntries}; 100 if left out.`, mostEntries)
      .refine((number) => number > 0, `write a number from 1 to ${mostEntries}`)
      .optional(),
  });
