// A house in the woods for tests of the whole page: a logbook in a file, the real server with its clock at today, the
// page as Vite builds it, and a browser with phones. Whatever a network does can be put in between.
import { randomBytes } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';
import { v7 } from 'uuid';
import { build } from 'vite';
import { root } from '../../../cli/prepare.mjs';
import { createLogbook, type Log } from '../../../src/log/store/index.ts';
import { openBook, recordDraft, sitDown } from '../../../src/record/index.ts';
import {
  type AppOptions,
  accessBy,
  type Codes,
  createApp,
  oneTimeCodes,
  type Registry,
  registryOf,
  type Served,
  serve,
} from '../../../src/server/index.ts';
import { programOnPath } from '../../needs.ts';

/** What becomes of a request on its way: `pass` lets it through, `cut` ends the connection without an answer. */
export type Way = (request: Request, pass: () => Promise<Response>, cut: () => Response) => Promise<Response>;
export const open: Way = (_, pass) => pass();
export const closed: Way = async (_, __, cut) => cut();

export type DayHouse = Readonly<{
  /** Address of the field page. */
  page: string;
  log: Log;
  path: string;
  browser: Browser;
  codes: Codes;
  registry: Registry;
  /** Puts something in the way of every request from now on. */
  between: (way: Way) => void;
  /** Puts another version of the page in the place of the first one. */
  release: (title: string) => Promise<void>;
  /** Shuts the server down; `reopen` starts it again at the same address. */
  shut: () => Promise<void>;
  reopen: () => Promise<void>;
  entriesOf: (device: string) => Promise<Kept[]>;
  /** Records something at the desk, typed as on the command line. */
  record: (kind: string, fields: Record<string, unknown>) => Promise<void>;
  end: () => Promise<void>;
}>;

/** An entry of the logbook. */
export type Kept = Readonly<{
  id: string;
  type: string;
  device: string;
  seq: number;
  body: Readonly<Record<string, unknown>>;
  sealed?: readonly string[];
}>;

/** Builds the page, under a title of its own where it is to be another version. */
async function buildPage(folder: string, title = 'Gapledger'): Promise<void> {
  await build({
    configFile: join(root, 'vite.config.ts'),
    logLevel: 'error',
    plugins: [
      {
        name: 'another-title',
        transformIndexHtml: (html) => html.replace('<title>Gapledger', `<title>${title}`),
      },
    ],
    build: { outDir: folder, emptyOutDir: true, reportCompressedSize: false },
  });
}

export async function openDayHouse(more: Partial<AppOptions> = {}): Promise<DayHouse> {
  const fieldFolder = mkdtempSync(join(tmpdir(), 'gapledger-day-page-'));
  await buildPage(fieldFolder);
  const folder = mkdtempSync(join(tmpdir(), 'gapledger-day-'));
  const path = join(folder, 'woods.logbook');
  const log = await createLogbook(path);
  const { desk, record } = await furnished(log);
  const registry = registryOf(path, log.facts().logbook ?? '', join(folder, 'home'));
  const codes = oneTimeCodes(Date.now);
  const app = createApp({
    desk,
    program: 'gapledger 0.1.0',
    now: () => Date.now(),
    access: accessBy({ registry, codes, paired: () => undefined }),
    fieldFolder,
    ...more,
  });
  let way = open;
  // In front of the app: a request that it has answered can still lose its answer.
  const gate = new Proxy(app, {
    get: (target, member) => (member === 'fetch' ? through : (Reflect.get(target, member) as unknown)),
  });
  const through: typeof app.fetch = async (request, environment, context) => {
    const { incoming } = environment as { incoming: { socket: { destroy: () => void } } };
    const cut = () => {
      incoming.socket.destroy();
      return new Response(null, { status: 500 });
    };
    const answer = await way(request, async () => app.fetch(request, environment, context), cut);
    // Browsers ask once more by themselves where a connection that they had used before ends without an answer.
    const headers = new Headers(answer.headers);
    headers.set('connection', 'close');
    return new Response(answer.body, { status: answer.status, headers });
  };
  let served: Served = await serve({ app: gate, port: 0 });
  const { port, url } = served;
  const browser = await chromium.launch({
    executablePath: programOnPath('chromium'),
    args: ['--no-sandbox', '--disable-quic', '--disable-background-networking'],
  });
  return {
    page: `${url}field/`,
    log,
    path,
    browser,
    codes,
    registry,
    between: (next) => {
      way = next;
    },
    release: (title) => buildPage(fieldFolder, title),
    shut: () => served.close(),
    reopen: async () => {
      served = await serve({ app: gate, port });
    },
    entriesOf: async (device) => {
      const found: Kept[] = [];
      for await (const page of log.read())
        for (const { bytes } of page) {
          const entry = JSON.parse(new TextDecoder().decode(bytes)) as Kept;
          if (entry.device === device) found.push(entry);
        }
      return found;
    },
    record,
    end: async () => {
      await browser.close();
      await served.close().catch(() => undefined);
      await log.close();
      for (const one of [fieldFolder, folder]) rmSync(one, { recursive: true, force: true });
    },
  };
}

/** Invented woods: a block, a stake, a group with stems to cut and one to stay, and a sapling that came up before. */
async function furnished(log: Log) {
  const outside = {
    now: () => Date.now(),
    newId: () => v7(),
    newSalt: () => new Uint8Array(randomBytes(16)),
    readFile: () => {
      throw new Error('nothing is read from files here');
    },
  };
  const seat = { device: v7(), counter: { last: 0 } };
  const opened = await openBook(sitDown(log, seat, outside), {
    logbook: { name: 'Laurel Run woods', zone: 'America/New_York', units: 'us', crs: 'EPSG:2264' },
    person: { name: 'Ann Weaver', part: 'owner' },
  });
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const desk = sitDown(log, { ...seat, person: opened.person }, outside);
  const record = async (kind: string, fields: Record<string, unknown>) => {
    const made = await recordDraft(desk, { kind, fields });
    if (made.outcome !== 'recorded') throw new Error(`${kind}: ${JSON.stringify(made)}`);
  };
  await record('block-laid-out', { name: 'Lower bench', area: '9.5 ac' });
  await record('stake-set', { label: 'A', position: 'EPSG:2264 1209400,741300' });
  await record('group-laid-out', { label: 'G1', block: 'Lower bench' });
  for (const [tag, mark, species, dbh] of [
    ['A1', 'cut', 'scarlet oak', '16.4 in'],
    ['A2', 'cut', 'red maple', '11.0 in'],
    ['A3', 'leave', 'white oak', '18.2 in'],
  ] as const)
    await record('stem-marked', { tag, mark, species, dbh, group: 'G1' });
  await record('sapling-protected', { label: 'S1', species: 'white oak', group: 'G1', height: '6 ft' });
  return { desk, record };
}
