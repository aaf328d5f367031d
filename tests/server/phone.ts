// A house whose server other machines may ask: paired devices, one-time codes, names, the guide.
import { randomUUID } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import {
  type AppOptions,
  accessBy,
  type Codes,
  createApp,
  oneTimeCodes,
  type PairedDevice,
  type Registry,
  registryOf,
} from '../../src/server/index.ts';
import { type House, house } from './desk.ts';

export type OpenHouse = House &
  Readonly<{
    home: string;
    registry: Registry;
    codes: Codes;
    paired: PairedDevice[];
    /** Asks as another machine does. */
    from: (
      address: string,
      path: string,
      init?: RequestInit & { tls?: boolean; host?: string },
    ) => Promise<Response>;
    /** Pairs by the code that counts, or another one. */
    pair: (body?: Record<string, unknown>, from?: string) => Promise<Response>;
    fieldFolder: string;
    end: () => Promise<void>;
  }>;

/** What a build of the field page leaves behind. */
const built: Readonly<Record<string, string>> = {
  'index.html':
    '<!doctype html><html lang="en"><title>Field page</title><script type="module" src="./assets/main-Ab3dE_9x.js"></script>',
  'sw.js': '/* worker */',
  'version.json': '{"version":"test"}',
  'manifest.webmanifest': '{}',
  'assets/main-Ab3dE_9x.js': 'document.title = isSecureContext ? "secure" : "not secure";',
  'assets/look-12345678.css': 'body { margin: 0 }',
  'icon.svg': '<svg xmlns="http://www.w3.org/2000/svg"/>',
};

export async function openHouse(more: Partial<AppOptions> = {}): Promise<OpenHouse> {
  const woods = await house();
  const home = mkdtempSync(join(tmpdir(), 'gapledger-home-'));
  const fieldFolder = join(home, 'field');
  for (const [name, text] of Object.entries(built)) {
    mkdirSync(dirname(join(fieldFolder, name)), { recursive: true });
    writeFileSync(join(fieldFolder, name), text);
  }
  const registry = registryOf(woods.path, woods.log.facts().logbook ?? '', home);
  const codes = oneTimeCodes(Date.now);
  const paired: PairedDevice[] = [];
  const app = createApp({
    desk: woods.desk,
    program: 'gapledger 0.1.0',
    now: () => Date.now(),
    access: accessBy({ registry, codes, paired: (device) => paired.push(device) }),
    names: () => new Set(['192.168.1.10', 'woodshed.local']),
    trust: () => ({ tlsPort: 4748 }),
    fieldFolder,
    logger: (one) => woods.answered.push(one),
    ...more,
  });
  const from: OpenHouse['from'] = async (address, path, { tls = true, host, ...init } = {}) => {
    const port = tls ? 4748 : 4747;
    const headers = new Headers(init.headers);
    headers.set('host', host ?? `192.168.1.10:${port}`);
    return app.request(
      path,
      { ...init, headers },
      {
        incoming: { socket: { localPort: port, remoteAddress: address, encrypted: tls } },
      },
    );
  };
  const pair: OpenHouse['pair'] = (body = {}, address = '192.168.1.77') =>
    from(address, '/api/pairing', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({
        code: 'code' in body ? body.code : codes.make('recorder').code,
        device: randomUUID(),
        label: "Ann's phone",
        personName: 'Ann Weaver',
        ...body,
      }),
    });
  return {
    ...woods,
    app,
    ask: async (address, init) => app.request(address, init),
    home,
    registry,
    codes,
    paired,
    from,
    pair,
    fieldFolder,
    end: async () => {
      await woods.end();
      rmSync(home, { recursive: true, force: true });
    },
  };
}
