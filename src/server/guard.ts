// Who may ask: only somebody at this machine, and no web page from elsewhere. A page on another site can make
// a browser send requests here, and can give its own name this machine's address (DNS rebinding); the names in
// Host, Origin and Sec-Fetch-Site tell. Pairing of phones will add names here, and nothing else.
import type { MiddlewareHandler } from 'hono';
import type { Environment, Request } from './environment.ts';
import { Problem } from './problems.ts';

/** A name of this machine, and a port. */
const loopback = /^(?:localhost|127\.0\.0\.1|\[::1\])(?::(\d{1,5}))?$/;
const reading: ReadonlySet<string> = new Set(['GET', 'HEAD']);

/**
 * Refuses requests that were sent to another name or port than this server's, and writes that a page of
 * another origin sent (Fetch Metadata and RFC 6454).
 */
export function guard(): MiddlewareHandler<Environment> {
  return async (context, next) => {
    const host = (context.req.header('host') ?? new URL(context.req.url).host).toLowerCase();
    checkHost(host, context.env?.incoming?.socket.localPort);
    if (!reading.has(context.req.method)) checkOrigin(context, host);
    await next();
  };
}

function checkHost(host: string, localPort: number | undefined): void {
  const named = loopback.exec(host);
  if (named === null || (localPort !== undefined && Number(named[1] ?? 80) !== localPort)) {
    throw misdirected(host);
  }
}

function misdirected(host: string): Problem {
  return new Problem(
    'misdirected-request',
    `This server answers on this machine only, as localhost, 127.0.0.1 or [::1] with its own port, and not as "${host.slice(0, 100)}". Use the address that it printed when it started.`,
  );
}

function checkOrigin({ req }: Request, host: string): void {
  const origin = req.header('origin');
  if (origin !== undefined && origin !== `http://${host}`)
    throw crossSite(`a page of "${origin.slice(0, 100)}"`);
  const site = req.header('sec-fetch-site');
  if (site !== undefined && site !== 'same-origin' && site !== 'none')
    throw crossSite('a page of another site');
}

function crossSite(who: string): Problem {
  return new Problem(
    'cross-site',
    `The request was sent by ${who}. Only pages of this server and programs on this machine may write into the logbook; nothing was recorded.`,
  );
}
