// What a request carries besides itself: the socket it came in by, and who asks.
import type { Context } from 'hono';
import type { Role } from './access/role.ts';

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
export type Request = Context<Environment>;
