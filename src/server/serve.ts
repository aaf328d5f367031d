// The app on a port of this machine.
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { createAdaptorServer } from '@hono/node-server';
import type { App } from './environment.ts';

export type ServeOptions = Readonly<{
  app: App;
  /** 0 lets the system pick one. */
  port: number;
  /** Only this machine's own address, until phones can be paired. */
  host?: '127.0.0.1' | '::1';
}>;

export type Served = Readonly<{
  /** Where it answers, such as "http://127.0.0.1:4747/". */
  url: string;
  /** Takes no more requests and resolves when those that were under way are answered. */
  close: () => Promise<void>;
}>;

/** Milliseconds: for a whole request to arrive, for its headers, and for a connection that is idle. */
const patience = { requestTimeout: 60_000, headersTimeout: 15_000, keepAliveTimeout: 5_000 };

/**
 * Serves the app.
 * @throws Error with the code EADDRINUSE or EACCES of the system when the port cannot be had
 */
export async function serve({ app, port, host = '127.0.0.1' }: ServeOptions): Promise<Served> {
  const server = createAdaptorServer({ fetch: app.fetch, serverOptions: patience }) as Server;
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, () => {
      server.off('error', reject);
      resolve();
    });
  });
  const { port: actual } = server.address() as AddressInfo;
  const close = () =>
    new Promise<void>((resolve, reject) => {
      server.close((error) => (error ? reject(error) : resolve()));
      server.closeIdleConnections();
    });
  return { url: `http://${host.includes(':') ? `[${host}]` : host}:${actual}/`, close };
}
