// Bodies of JSON that a route reads by hand, so that what is wrong with them gets the same problems everywhere.
import type { z } from '@hono/zod-openapi';
import { Problem, sentence } from './problems.ts';

type Sent = Readonly<{
  header: (name: string) => string | undefined;
  arrayBuffer: () => Promise<ArrayBuffer>;
}>;

/**
 * Reads a body of application/json in UTF-8.
 * @param what the body is called in problems, such as "pairing"
 * @throws Problem unsupported-media-type, malformed-body
 */
export async function readJsonBody<S extends z.ZodType>(
  req: Sent,
  schema: S,
  what: string,
): Promise<z.infer<S>> {
  const [essence] = (req.header('content-type') ?? '').toLowerCase().split(';');
  if (essence?.trim() !== 'application/json')
    throw new Problem(
      'unsupported-media-type',
      `Send the ${what} as application/json.`,
      {},
      { 'Accept-Post': 'application/json' },
    );
  const read = schema.safeParse(parse(await req.arrayBuffer()));
  if (read.success) return read.data;
  const problems = read.error.issues.map(({ path, message }) => ({
    field: path.join('.') || what,
    value: '',
    remedy: message,
  }));
  throw new Problem(
    'malformed-body',
    problems.map(({ field, remedy }) => `${field}: ${sentence(remedy)}`).join(' '),
    { problems },
  );
}

function parse(body: ArrayBuffer): unknown {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(body));
  } catch {
    throw new Problem('malformed-body', 'The body is not JSON in UTF-8.');
  }
}
