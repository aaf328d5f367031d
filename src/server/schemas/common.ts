// Shapes that several answers share: heads, receipts, problems, places.
import { z } from '@hono/zod-openapi';
import { type ProblemCode, problemCodes } from '../problems.ts';

const uuid = z.uuid();
const moment = z.iso.datetime({ offset: true });
/** An entry's number in the log, or its id where it has none yet. */
export const entryNumber = z.union([z.int().min(0), uuid]);
export const hash = z.string().regex(/^[0-9a-f]{64}$/);

export const head = z
  .strictObject({
    size: z.int().min(0),
    root: hash,
    text: z
      .string()
      .openapi({ description: 'SIZE:ROOT, to be kept elsewhere and given to "gapledger verify --since".' }),
  })
  .openapi('Head');

const whatIsWrong = { field: z.string(), value: z.string(), remedy: z.string() };
const issue = z.strictObject(whatIsWrong).openapi('Issue');

const receipt = z.strictObject({
  outcome: z.enum(['recorded', 'already-recorded']),
  id: uuid,
  position: z.int().min(0),
  receivedAt: moment,
});
export const receipts = z.array(receipt);

/** One receipt per line that held something, in the order of the lines. */
export const lineReceipt = z
  .union([
    receipt.extend({ line: z.int().min(1) }),
    z.strictObject({
      line: z.int().min(1),
      outcome: z.literal('conflict'),
      id: uuid,
      position: z
        .int()
        .min(0)
        .openapi({ description: 'Where the entry of that id stands; its bytes are others.' }),
      aside: z.int().openapi({ description: 'Number under which these bytes are kept aside.' }),
    }),
    z.strictObject({
      line: z.int().min(1),
      outcome: z.literal('unreadable'),
      issue,
      aside: z.int().openapi({ description: 'Number under which these bytes are kept aside.' }),
    }),
  ])
  .openapi('LineReceipt');

/** Where something is, or why that cannot be told. */
export const place = z
  .union([
    z.strictObject({
      lat: z.number(),
      lon: z.number(),
      via: z.string(),
      standardErrorMetres: z.number().nullable(),
    }),
    z.strictObject({ unknown: z.string() }),
  ])
  .openapi('Place');

const choice = z.strictObject({ label: z.string(), text: z.string() });
const problem = z
  .object({
    type: z.string().openapi({ description: 'urn:gapledger:problem:CODE' }),
    code: z.enum(Object.keys(problemCodes) as [ProblemCode, ...ProblemCode[]]),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    instance: z.string(),
    problems: z
      .array(
        z.strictObject({
          ...whatIsWrong,
          choices: z.array(choice).optional(),
          missing: z.literal(true).optional(),
        }),
      )
      .optional()
      .openapi({ description: 'Each value that is wrong, and what to do about it.' }),
    questions: z
      .array(
        z.strictObject({
          code: z.string(),
          sentence: z.string(),
          choices: z.array(z.strictObject({ answer: z.string(), label: z.string() })),
        }),
      )
      .optional()
      .openapi({ description: 'What has to be answered; send the draft again with the answers.' }),
    draft: z
      .int()
      .optional()
      .openapi({ description: 'Which draft of a list, from 0. None of the list was recorded.' }),
    offered: z.array(z.string()).optional(),
    role: z.string().optional().openapi({ description: 'The role that the device has.' }),
    needed: z.string().optional().openapi({ description: 'The role that it would need.' }),
  })
  .openapi('Problem');

/** What every address may answer: who may ask, and what the file does. */
const always: readonly ProblemCode[] = [
  'not-paired',
  'role-too-low',
  'needs-https',
  'too-many-tries',
  'misdirected-request',
  'internal',
  'logbook-locked',
  'logbook-unavailable',
  'timed-out',
];

/** The problem answers of a route, by status. */
export function problemAnswers(...codes: readonly ProblemCode[]) {
  const byStatus = new Map<number, ProblemCode[]>();
  for (const code of [...codes, ...always]) {
    const { status } = problemCodes[code];
    byStatus.set(status, [...(byStatus.get(status) ?? []), code]);
  }
  return Object.fromEntries(
    [...byStatus].map(([status, same]) => [
      status,
      {
        description: same.map((code) => `${problemCodes[code].title} (${code})`).join('; '),
        content: { 'application/problem+json': { schema: problem } },
      },
    ]),
  );
}
