// Drafts: what somebody typed, read and asked about, then recorded.
import { z } from '@hono/zod-openapi';
import type { Receipt } from '../../log/store/index.ts';
import { type Draft, type Recorded, recordDraft, stage } from '../../record/index.ts';
import type { Room } from '../environment.ts';
import { Problem, sentence } from '../problems.ts';

const draftShape = z.strictObject({
  kind: z.string(),
  fields: z.record(z.string(), z.unknown()),
  at: z.string().optional(),
  by: z.string().optional(),
  answers: z.array(z.string()).optional(),
});

/** Drafts of one list are recorded together or not at all; more of them at once are sent as entries. */
export const mostDrafts = 500;

/**
 * Reads the JSON of a body.
 * @throws Problem malformed-body
 */
export function readDrafts(body: Uint8Array): { drafts: readonly Draft[]; isList: boolean } {
  const value = parse(body);
  const list: readonly unknown[] = Array.isArray(value) ? value : [value];
  if (list.length === 0 || list.length > mostDrafts) {
    throw new Problem(
      'malformed-body',
      `The list holds ${list.length} drafts; send 1 to ${mostDrafts}, or entries as application/x-ndjson.`,
    );
  }
  const isList = Array.isArray(value);
  return { isList, drafts: list.map((one, index) => draftOf(one, isList ? `${index}.` : '')) };
}

function parse(body: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(body));
  } catch {
    throw new Problem(
      'malformed-body',
      'The body is not JSON in UTF-8. Send one draft, or a list of drafts.',
    );
  }
}

function draftOf(value: unknown, prefix: string): Draft {
  const read = draftShape.safeParse(value);
  if (read.success) return withoutUndefined(read.data);
  const problems = read.error.issues.map((issue) => ({
    field: `${prefix}${issue.path.join('.') || 'draft'}`,
    value: '',
    remedy: issue.message,
  }));
  const detail = problems.map(({ field, remedy }) => `${field}: ${sentence(remedy)}`).join(' ');
  throw new Problem(
    'malformed-body',
    `${detail} A draft has kind, fields, and if need be at, by and answers.`,
    {
      problems,
    },
  );
}

function withoutUndefined({ kind, fields, at, by, answers }: z.infer<typeof draftShape>): Draft {
  return {
    kind,
    fields,
    ...(at === undefined ? {} : { at }),
    ...(by === undefined ? {} : { by }),
    ...(answers === undefined ? {} : { answers }),
  };
}

/**
 * Records drafts, all or none; a later one may refer to what an earlier one brings in.
 * @throws Problem bad-draft, questions
 */
export async function recordDrafts(
  { desk }: Room,
  drafts: readonly Draft[],
  isList: boolean,
): Promise<readonly Receipt[]> {
  const [only] = drafts;
  if (only !== undefined && !isList) return receiptsOf(await recordDraft(desk, only));
  const staged = await stage(desk);
  for (const [index, draft] of drafts.entries()) receiptsOf(await recordDraft(staged.desk, draft), index);
  return staged.commit();
}

function receiptsOf(recorded: Recorded, index?: number): readonly Receipt[] {
  const which = index === undefined ? {} : { draft: index };
  switch (recorded.outcome) {
    case 'recorded':
      return recorded.receipts;
    case 'problems': {
      const { problems } = recorded;
      const detail = problems.map(({ field, value, remedy }) => `${field} "${value}": ${sentence(remedy)}`);
      throw new Problem('bad-draft', detail.join(' '), { problems, ...which });
    }
    case 'questions': {
      const { questions } = recorded;
      const detail = questions.map((question) => question.sentence).join(' ');
      throw new Problem('questions', `${detail} Send it again with the answers.`, { questions, ...which });
    }
  }
}
