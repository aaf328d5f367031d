// gapledger serve: the server on this machine, and with --lan for phones in its net, until it is told to end.
import { type Log, openLogbook } from '../src/log/store/index.ts';
import { type Desk, sitDown } from '../src/record/index.ts';
import { accessBy, createApp, oneTimeCodes, type PairedDevice, registryOf } from '../src/server/index.ts';
import { fieldFolder } from './program-folder.ts';
import { readPort, type ServeFlags, startServer } from './serving.ts';
import {
  deskAt,
  exitCodes,
  Failure,
  logbookPath,
  outside,
  rememberHead,
  say,
  sayJson,
  tell,
} from './terminal/index.ts';

/** Flags that mean something only where other machines may ask. */
const ofLan = ['tlsPort', 'role', 'address', 'cert', 'key', 'by'] as const;

export async function work(_words: string[], flags: ServeFlags, version: string): Promise<void> {
  const port = readPort('--port', flags.port ?? '4747');
  const alone = ofLan.find((name) => flags.lan !== true && flags[name] !== undefined);
  if (alone !== undefined) throw new Failure(exitCodes.badInput, `${flagName(alone)} goes with --lan.`);
  const log = await openLogbook(logbookPath(flags));
  try {
    await answer(log, flags, { port, version });
  } finally {
    await log.close();
  }
}

async function answer(
  log: Log,
  flags: ServeFlags,
  { port, version }: { port: number; version: string },
): Promise<void> {
  const { newer, readOnly, path, logbook } = log.facts();
  const onlyReading = newer || readOnly;
  const lan = flags.lan ? await (await import('./lan.ts')).readLan(flags, onlyReading) : undefined;
  const seat = onlyReading
    ? sitDown(log, { device: outside.newId(), counter: { last: 0 } }, outside)
    : await deskAt(log);
  const desk: Desk = lan === undefined || onlyReading ? seat : await lan.seated(seat);
  const codes = oneTimeCodes(outside.now);
  const heard: ((device: PairedDevice) => void)[] = [];
  const app = createApp({
    desk,
    program: `gapledger ${version}`,
    now: outside.now,
    fieldFolder: fieldFolder(),
    ...(logbook === undefined
      ? {}
      : {
          access: accessBy({
            registry: registryOf(path, logbook),
            codes,
            paired: (device) => {
              for (const hear of heard) hear(device);
            },
          }),
        }),
    ...(lan === undefined ? {} : { names: lan.hosts, trust: lan.trust }),
    ...(onlyReading ? {} : { remembered: () => rememberHead(desk) }),
    logger: ({ method, path: asked, error }) => {
      if (error !== undefined)
        tell(`${method} ${asked}: ${error instanceof Error ? error.message : 'an unknown error'}`);
    },
  });
  const orNext = flags.orNext === true;
  const served = await startServer(
    { app, port, ...(lan === undefined ? {} : { host: 'every' }) },
    '--port',
    orNext,
  );
  const here = { url: served.url.replace('localhost', '127.0.0.1'), logbook: path };
  try {
    if (lan === undefined) {
      if (flags.json) sayJson(here);
      else {
        say(`${path} is at ${here.url}`);
        say('Only this computer can reach it. Ctrl+C ends it.');
        if (onlyReading) say('This logbook can only be read here.');
      }
      await toldToEnd();
    } else {
      const ends = toldToEnd();
      await lan.open({ app, plain: served, here, codes, heard, ends });
    }
  } finally {
    await served.close();
  }
  if (!onlyReading) await rememberHead(desk);
}

function flagName(name: string): string {
  return `--${name.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`;
}

function toldToEnd(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => resolve());
  });
}
