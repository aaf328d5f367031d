// The app on a port: of this machine only, or of the local net; with TLS or without.
import { createServer as createPlain, type Server } from 'node:http';
import { createServer as createSecure, type Server as SecureServer } from 'node:https';
import type { AddressInfo, Socket } from 'node:net';
import { createAdaptorServer } from '@hono/node-server';
import type { App } from './environment.ts';

/** A certificate chain and its key, both in PEM. */
type Certificate = Readonly<{ cert: string; key: string }>;

export type ServeOptions = Readonly<{
  app: Pick<App, 'fetch'>;
  /** 0 lets the system pick one. */
  port: number;
  /** This machine's own address; "every" for all that it has. */
  host?: '127.0.0.1' | '::1' | 'every';
  /** Speaks TLS with this certificate. */
  tls?: Certificate;
}>;

export type Served = Readonly<{
  /** Where it answers on this machine, such as "http://127.0.0.1:4747/". */
  url: string;
  port: number;
  /** Shows another certificate from the next connection on. */
  renew: (tls: Certificate) => void;
  /** Takes no more requests and resolves when those that were under way are answered. */
  close: () => Promise<void>;
}>;

/** Milliseconds: for a whole request to arrive, for its headers, and for a connection that is idle. */
const patience = { requestTimeout: 60_000, headersTimeout: 15_000, keepAliveTimeout: 5_000 };

/**
 * Serves the app.
 * @throws Error with the code EADDRINUSE or EACCES of the system when the port cannot be had
 */
export async function serve({ app, port, host = '127.0.0.1', tls }: ServeOptions): Promise<Served> {
  const server = createAdaptorServer({
    fetch: app.fetch,
    createServer: tls === undefined ? createPlain : createSecure,
    serverOptions: { ...patience, ...tls },
  }) as Server | SecureServer;
  const close = closing(server);
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    const listening = () => {
      server.off('error', reject);
      resolve();
    };
    if (host === 'every') server.listen(port, listening);
    else server.listen(port, host, listening);
  });
  const { port: actual } = server.address() as AddressInfo;
  const renew = (next: Certificate) => {
    if ('setSecureContext' in server) server.setSecureContext(next);
  };
  return {
    url: `${tls === undefined ? 'http' : 'https'}://${nameOf(host)}:${actual}/`,
    port: actual,
    renew,
    close,
  };
}

/**
 * How to end it. Browsers open connections ahead of need and hold them without a question for a minute or more; so
 * whatever is open is cut once nothing is being answered.
 */
function closing(server: Server | SecureServer): () => Promise<void> {
  const open = new Set<Socket>();
  let answering = 0;
  let cut = () => {};
  server.on('connection', (socket: Socket) => {
    open.add(socket);
    socket.once('close', () => open.delete(socket));
  });
  server.on('request', (_, response) => {
    answering += 1;
    response.once('close', () => {
      answering -= 1;
      cut();
    });
  });
  return () =>
    new Promise<void>((resolve, reject) => {
      server.close((error) => (error ? reject(error) : resolve()));
      cut = () => {
        if (answering > 0) return;
        for (const socket of open) socket.destroySoon();
      };
      cut();
    });
}

function nameOf(host: '127.0.0.1' | '::1' | 'every'): string {
  if (host === 'every') return 'localhost';
  return host.includes(':') ? `[${host}]` : host;
}
