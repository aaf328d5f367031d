// What serve does with and without --lan: its flags, reading a port, and a sentence when the port cannot be had.
import { type Served, type ServeOptions, serve } from '../src/server/index.ts';
import { type CommonOptions, exitCodes, Failure } from './terminal/index.ts';

export type ServeFlags = CommonOptions & {
  port?: string;
  orNext?: boolean;
  lan?: boolean;
  tlsPort?: string;
  role?: string;
  address?: string;
  cert?: string;
  key?: string;
  by?: string;
};

/** @param flag that gives the port, to be named where it cannot be had */
export async function startServer(options: ServeOptions, flag: string, orNext: boolean): Promise<Served> {
  const { port } = options;
  try {
    return await serve(options);
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : undefined;
    if (code === 'EADDRINUSE' && orNext) return serve({ ...options, port: 0 });
    if (code === 'EADDRINUSE')
      throw new Failure(
        exitCodes.other,
        `Port ${port} is taken. Choose another with ${flag}, or let one be chosen with --or-next.`,
      );
    if (code === 'EACCES')
      throw new Failure(
        exitCodes.other,
        `Port ${port} is not allowed here. Choose one above 1023 with ${flag}.`,
      );
    throw error;
  }
}

export function readPort(flag: string, text: string): number {
  const port = Number(text);
  if (/^\d+$/.test(text) && port <= 65_535) return port;
  throw new Failure(exitCodes.badInput, `${flag} ${text}: write a number from 0 to 65535.`);
}
