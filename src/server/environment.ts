// What the routes have to work with.
import type { OpenAPIHono } from '@hono/zod-openapi';
import type { Desk } from '../record/index.ts';
import type { Access } from './access/index.ts';
import type { Plans } from './plans.ts';
import type { Reading } from './reading.ts';
import type { Environment } from './request.ts';

export type App = OpenAPIHono<Environment>;

/** One request as the log of the server has it. */
export type Answered = Readonly<{
  method: string;
  path: string;
  status: number;
  milliseconds: number;
  /** What was thrown, where that was unexpected. */
  error?: unknown;
}>;

export type Room = Readonly<{
  desk: Desk;
  /** Program and version, such as "gapledger 0.1.0"; printed on reports. */
  program: string;
  reading: Reading;
  /** Felling plans, made once for each state of the log. */
  plans: Plans;
  /** Lets one write at a time look at the stand and append. */
  inTurn: <T>(work: () => Promise<T>) => Promise<T>;
  /** Paired devices and one-time codes; missing where only this machine may ask. */
  access: Access | undefined;
  /** Whether the field page is there to be opened. */
  field: boolean;
  /** Called after something was recorded; what it throws is logged and hides no receipt. */
  recorded: () => Promise<void>;
  /** Milliseconds since 1970. */
  now: () => number;
}>;
