// What a request carries besides itself, and what the routes have to work with.
import type { OpenAPIHono } from '@hono/zod-openapi';
import type { Context } from 'hono';
import type { Desk } from '../record/index.ts';
import type { Access, Role } from './access/index.ts';
import type { Reading } from './reading.ts';

/** The socket a request came in by. */
export type Socket = Readonly<{
  localPort?: number | undefined;
  remoteAddress?: string | undefined;
  /** True where it speaks TLS. */
  encrypted?: boolean | undefined;
}>;

/** Who asks: what they may do, and with which paired device; none for a program on this machine. */
export type Caller = Readonly<{ role: Role; device?: string }>;

export type Environment = {
  /** The socket is missing where somebody in this process asks the app without a port, as tests do. */
  Bindings: { incoming?: { socket: Socket } };
  Variables: { caller: Caller };
};
export type App = OpenAPIHono<Environment>;
export type Request = Context<Environment>;

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
  /** Lets one write at a time look at the stand and append. */
  inTurn: <T>(work: () => Promise<T>) => Promise<T>;
  /** Paired devices and one-time codes; missing where only this machine may ask. */
  access: Access | undefined;
  /** Called after something was recorded; what it throws is logged and hides no receipt. */
  recorded: () => Promise<void>;
  /** Milliseconds since 1970. */
  now: () => number;
}>;
