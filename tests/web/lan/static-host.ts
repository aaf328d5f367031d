// A host that serves a folder over HTTPS and knows nothing of any logbook.
import { createReadStream, existsSync, statSync } from 'node:fs';
import { createServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';
import { onTestFinished } from 'vitest';
import { vouch } from '../../../src/server/trust/index.ts';

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
};

/** A name that every browser finds at this machine (RFC 6761), and that is not "localhost". */
const host = 'woods.localhost';

export type StaticHost = Readonly<{
  /** Where the folder is served, with "/" at its end. */
  address: string;
  /** PEM file of the authority that vouches for it. */
  authority: string;
  /** Paths that were asked for and are not there. */
  notFound: string[];
  close: () => Promise<void>;
}>;

/**
 * @param folder that is served below /forest/, as on a host that has other pages too
 * @param home where certificates are made and kept
 */
export async function staticHost(folder: string, home: string): Promise<StaticHost> {
  const vouching = await vouch({ now: Date.now, home, machine: () => ({ addresses: [], names: [host] }) });
  const notFound: string[] = [];
  const server = createServer(vouching.certificate(), ({ url = '/' }, response) => {
    const path = normalize(decodeURIComponent(url.split('?')[0] ?? '/'));
    const inside = path.startsWith('/forest/') ? path.slice('/forest/'.length) : '..';
    const file = join(folder, inside === '' ? 'index.html' : inside);
    if (inside.startsWith('..') || !existsSync(file) || !statSync(file).isFile()) {
      notFound.push(path);
      response.writeHead(404, { 'content-type': 'text/html' }).end('<h1>Nothing here</h1>');
      return;
    }
    response.writeHead(200, { 'content-type': types[extname(file)] ?? 'application/octet-stream' });
    createReadStream(file).pipe(response);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const close = () =>
    new Promise<void>((resolve) => {
      server.close(() => resolve());
      server.closeAllConnections();
    });
  onTestFinished(async () => {
    if (server.listening) await close();
  });
  const { port } = server.address() as AddressInfo;
  const authority = join(home, 'trust/authority.crt.pem');
  return { address: `https://${host}:${port}/forest/`, authority, notFound, close };
}
