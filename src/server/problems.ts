// Problem details (RFC 9457): every answer that is no success, with a code that stays the same for ever.
// This file lists them all; nothing else in the server makes an error answer.
import type { Context } from 'hono';
import { HTTPException } from 'hono/http-exception';
import type { ContentfulStatusCode } from 'hono/utils/http-status';
import { LogbookError, type LogbookErrorCode } from '../log/store/index.ts';

/** Code -> status and title. A code is never renamed; its `type` is `urn:gapledger:problem:CODE`. */
export const problemCodes = {
  'bad-parameter': { status: 400, title: 'A parameter cannot be used as it is' },
  'malformed-body': { status: 400, title: 'The body cannot be read' },
  'not-paired': { status: 401, title: 'This device is not paired with the logbook' },
  'role-too-low': { status: 403, title: 'This device may not do that' },
  'pairing-refused': { status: 403, title: 'The device was not paired' },
  'needs-https': { status: 403, title: 'This is answered over HTTPS only' },
  'foreign-device': { status: 403, title: 'This device may not send the entries of another' },
  'cross-site': { status: 403, title: 'Another site may not write here' },
  'read-only': { status: 403, title: 'This logbook can only be read here' },
  'row-not-named': { status: 404, title: 'No entry names this row' },
  'row-not-here': { status: 404, title: 'The row is not here' },
  'not-found': { status: 404, title: 'There is nothing at this address' },
  'method-not-allowed': { status: 405, title: 'This address does not know that method' },
  'not-acceptable': { status: 406, title: 'This is not offered in that media type' },
  questions: { status: 409, title: 'Questions have to be answered first' },
  'too-large': { status: 413, title: 'The body is too large' },
  'unsupported-media-type': { status: 415, title: 'This media type is not taken' },
  'misdirected-request': { status: 421, title: 'This server does not answer to that name' },
  'bad-draft': { status: 422, title: 'The draft cannot be recorded as it is' },
  'row-changed': { status: 422, title: 'The row is not what its hash says' },
  'too-many-tries': { status: 429, title: 'Too many wrong tries' },
  internal: { status: 500, title: 'Something went wrong in this program' },
  'disk-error': { status: 500, title: 'The disk reported an error' },
  'logbook-locked': { status: 503, title: 'The logbook is locked by another program' },
  'logbook-unavailable': { status: 503, title: 'The logbook cannot be read' },
  'timed-out': { status: 503, title: 'The answer took too long' },
  'disk-full': { status: 507, title: 'The disk is full' },
} as const satisfies Readonly<Record<string, { status: ContentfulStatusCode; title: string }>>;
export type ProblemCode = keyof typeof problemCodes;

/** What stands beside the members of RFC 9457. */
type Extension = Readonly<Record<string, unknown>>;

/** Thrown anywhere in the server; answered as problem details. */
export class Problem extends Error {
  readonly code: ProblemCode;
  readonly extension: Extension;
  readonly headers: Readonly<Record<string, string>>;

  /** @param detail what is the matter here and what to do, in a sentence or two */
  constructor(
    code: ProblemCode,
    detail: string,
    extension: Extension = {},
    headers: Readonly<Record<string, string>> = {},
  ) {
    super(detail);
    this.name = 'Problem';
    this.code = code;
    this.extension = extension;
    this.headers = headers;
  }
}

/** Something wrong with one value of a request: which, what it was, what to do. */
export type Fault = Readonly<{ field: string; value: string; remedy: string }>;

/** The problem for values of the query or path. */
export function badParameter(...faults: readonly Fault[]): Problem {
  const detail = faults
    .map(({ field, value, remedy }) => `${field} "${value}": ${sentence(remedy)}`)
    .join(' ');
  return new Problem('bad-parameter', detail, { problems: faults });
}

export function sentence(text: string): string {
  return /[.?!]$/.test(text) ? text : `${text}.`;
}

/** Answers with problem details. */
export function answerProblem(context: Context, { code, message, extension, headers }: Problem): Response {
  const { status, title } = problemCodes[code];
  const body = {
    type: `urn:gapledger:problem:${code}`,
    code,
    title,
    status,
    detail: message,
    instance: context.req.path,
    ...extension,
  };
  return context.body(JSON.stringify(body), status, {
    'Content-Type': 'application/problem+json',
    'Cache-Control': 'no-store',
    ...headers,
  });
}

/** The problem that an error stands for. What is unexpected says nothing about the inside of the program. */
export function problemOf(error: unknown): Problem {
  if (error instanceof Problem) return error;
  if (error instanceof LogbookError) return ofLogbook(error);
  if (error instanceof HTTPException) return ofHono(error);
  return new Problem(
    'internal',
    'Nothing is known about what went wrong; the terminal in which the server runs says more. Ask for the head to see whether something was recorded.',
  );
}

const logbookProblems: Readonly<Record<LogbookErrorCode, ProblemCode>> = {
  missing: 'logbook-unavailable',
  locked: 'logbook-locked',
  'not-a-logbook': 'logbook-unavailable',
  unreadable: 'logbook-unavailable',
  'read-only': 'read-only',
  exists: 'internal',
  full: 'disk-full',
  'input-output': 'disk-error',
};

/** The sentence of the error without the path of the file: that is nobody's business over HTTP. */
function ofLogbook(error: LogbookError): Problem {
  const start = `${error.path}: `;
  const plain = error.message.startsWith(start) ? error.message.slice(start.length) : error.message;
  const detail = plain.charAt(0).toUpperCase() + plain.slice(1);
  const code = logbookProblems[error.code];
  return new Problem(code, detail, {}, code === 'logbook-locked' ? { 'Retry-After': '5' } : {});
}

function ofHono(error: HTTPException): Problem {
  switch (error.status) {
    case 400:
      return new Problem('malformed-body', 'The body is not JSON. Send one draft, or a list of drafts.');
    case 415:
      return new Problem('unsupported-media-type', error.message);
    case 504:
      return new Problem(
        'timed-out',
        'The answer took longer than this server waits. Try again, or ask for less.',
        {},
        { 'Retry-After': '5' },
      );
    default:
      return new Problem('internal', 'The request could not be answered.');
  }
}
