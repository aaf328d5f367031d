// gapledger serve: the server on this machine, until it is told to end.
import { openLogbook } from '../src/log/store/index.ts';
import { sitDown } from '../src/record/index.ts';
import { createApp, type Served, serve } from '../src/server/index.ts';
import {
  type CommonOptions,
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

type Flags = CommonOptions & { port?: string; orNext?: boolean };

export async function work(_words: string[], flags: Flags, version: string): Promise<void> {
  const port = readPort(flags.port ?? '4747');
  const log = await openLogbook(logbookPath(flags));
  const { newer, readOnly, path } = log.facts();
  const onlyReading = newer || readOnly;
  const desk = onlyReading
    ? sitDown(log, { device: outside.newId(), counter: { last: 0 } }, outside)
    : await deskAt(log);
  const app = createApp({
    desk,
    program: `gapledger ${version}`,
    now: outside.now,
    ...(onlyReading ? {} : { remembered: () => rememberHead(desk) }),
    logger: ({ method, path: asked, error }) => {
      if (error !== undefined)
        tell(`${method} ${asked}: ${error instanceof Error ? error.message : 'an unknown error'}`);
    },
  });
  const served = await start(app, port, flags.orNext === true);
  if (flags.json) sayJson({ url: served.url, logbook: path });
  else {
    say(`${path} is at ${served.url}`);
    say('Only this computer can reach it. Ctrl+C ends it.');
    if (onlyReading) say('This logbook can only be read here.');
  }
  await toldToEnd();
  await served.close();
  if (!onlyReading) await rememberHead(desk);
  await log.close();
}

async function start(
  app: Parameters<typeof serve>[0]['app'],
  port: number,
  orNext: boolean,
): Promise<Served> {
  try {
    return await serve({ app, port });
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : undefined;
    if (code === 'EADDRINUSE' && orNext) return serve({ app, port: 0 });
    if (code === 'EADDRINUSE')
      throw new Failure(
        exitCodes.other,
        `Port ${port} is taken. Choose another with --port, or let one be chosen with --or-next.`,
      );
    if (code === 'EACCES')
      throw new Failure(
        exitCodes.other,
        `Port ${port} is not allowed here. Choose one above 1023 with --port.`,
      );
    throw error;
  }
}

function readPort(text: string): number {
  const port = Number(text);
  if (/^\d+$/.test(text) && port <= 65_535) return port;
  throw new Failure(exitCodes.badInput, `--port ${text}: write a number from 0 to 65535.`);
}

function toldToEnd(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => resolve());
  });
}
