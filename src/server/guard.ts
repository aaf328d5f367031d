// Under which names this server answers, and that no web page from elsewhere writes. A page on another site can make
// a browser send requests here, and can give its own name this machine's address (DNS rebinding); the names in
// Host, Origin and Sec-Fetch-Site tell. Who may do what is decided in access/.
import type { MiddlewareHandler } from 'hono';
import { Problem } from './problems.ts';
import type { Environment, Request, Socket } from './request.ts';

/** A name or an address, and a port. */
const nameAndPort = /^(\[[0-9a-f:]+\]|[a-z0-9.-]+)(?::(\d{1,5}))?$/;
const loopback: ReadonlySet<string> = new Set(['localhost', '127.0.0.1', '[::1]']);
const reading: ReadonlySet<string> = new Set(['GET', 'HEAD']);

/**
 * Refuses requests that were sent to another name or port than this server's, and writes that a page of
 * another origin sent (Fetch Metadata and RFC 6454).
 * @param names further names under which it answers, in small letters, IPv6 addresses in brackets
 */
export function guard(names: () => ReadonlySet<string> = () => loopback): MiddlewareHandler<Environment> {
  return async (context, next) => {
    const host = (context.req.header('host') ?? new URL(context.req.url).host).toLowerCase();
    const socket = context.env?.incoming?.socket;
    if (!isOurs(host, socket, names())) throw misdirected(host);
    if (!reading.has(context.req.method))
      checkOrigin(context, `${socket?.encrypted ? 'https' : 'http'}://${host}`);
    await next();
  };
}

function isOurs(host: string, socket: Socket | undefined, names: ReadonlySet<string>): boolean {
  const [, name, port] = nameAndPort.exec(host) ?? [];
  if (name === undefined || !(loopback.has(name) || names.has(name))) return false;
  const usual = socket?.encrypted ? 443 : 80;
  return socket?.localPort === undefined || Number(port ?? usual) === socket.localPort;
}

function misdirected(host: string): Problem {
  return new Problem(
    'misdirected-request',
    `This server answers as localhost, 127.0.0.1 or [::1], or under the addresses that it printed when it started, each with its own port, and not as "${host.slice(0, 100)}". Use one of these addresses.`,
  );
}

function checkOrigin({ req }: Request, own: string): void {
  const origin = req.header('origin');
  if (origin !== undefined && origin !== own) throw crossSite(`a page of "${origin.slice(0, 100)}"`);
  const site = req.header('sec-fetch-site');
  if (site !== undefined && site !== 'same-origin' && site !== 'none')
    throw crossSite('a page of another site');
}

function crossSite(who: string): Problem {
  return new Problem(
    'cross-site',
    `The request was sent by ${who}. Only pages of this server and programs may write into the logbook; nothing was recorded.`,
  );
}
