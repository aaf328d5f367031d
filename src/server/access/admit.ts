// Before every route: who asks, and whether that is enough. A program on this machine is its keeper; everybody else
// shows the token of a paired device, over HTTPS.
import type { MiddlewareHandler } from 'hono';
import { Problem } from '../problems.ts';
import type { Caller, Environment, Request, Socket } from '../request.ts';
import type { Codes } from './codes.ts';
import type { PairedDevice, Registry } from './registry.ts';
import { type Role, reaches } from './role.ts';
import { type Tries, triesBy } from './tries.ts';

export type Access = Readonly<{
  registry: Registry;
  codes: Codes;
  /** How often an address may show a token that is none, and a code that is none. */
  wrongTokens: Tries;
  wrongCodes: Tries;
  /** Told of every device that was paired. */
  paired?: (device: PairedDevice) => void;
}>;

/** Who is let in by the devices of this registry and the codes that are made; with the usual limits. */
export function accessBy(parts: Pick<Access, 'registry' | 'codes' | 'paired'>): Access {
  return { ...parts, wrongTokens: triesBy(30, 600), wrongCodes: triesBy(5, 600) };
}

/** A device that goes on asking is noted once in this time, milliseconds. */
const notedEvery = 60_000;
const reading: ReadonlySet<string> = new Set(['GET', 'HEAD']);

/**
 * Sets `context.var.caller`, or refuses.
 * @param access without it only this machine may ask
 * @param now milliseconds since 1970
 */
export function admit(access: Access | undefined, now: () => number): MiddlewareHandler<Environment> {
  const noted = new Map<string, number>();
  const note = ({ device }: PairedDevice) => {
    const at = now();
    if (at - (noted.get(device) ?? Number.NEGATIVE_INFINITY) < notedEvery) return;
    noted.set(device, at);
    try {
      access?.registry.seen(device, new Date(at).toISOString());
    } catch {
      // When it was here last is a help to the keeper; nobody is refused because it could not be noted.
    }
  };
  return async (context, next) => {
    const { method, path } = context.req;
    const socket = context.env?.incoming?.socket;
    const here = isThisMachine(socket) && !passedOn(context);
    if (!here && path === '/' && reading.has(method) && context.req.header('authorization') === undefined)
      return context.redirect(socket?.encrypted ? '/field/' : '/trust/');
    const needed = neededFor(method, path);
    if (!here && socket?.encrypted !== true) checkPlain(context, needed);
    if (needed === 'nothing' && context.req.header('authorization') === undefined) {
      context.set('caller', { role: here ? 'keeper' : 'reader' });
      return next();
    }
    const caller = await callerOf(context, { access, here, note });
    if (needed !== 'nothing' && !reaches(caller.role, needed)) throw tooLow(caller.role, needed);
    context.set('caller', caller);
    return next();
  };
}

/** Whether the request came from a program on this machine; a test without a socket is one. */
function isThisMachine(socket: Socket | undefined): boolean {
  if (socket === undefined) return true;
  const { remoteAddress } = socket;
  if (remoteAddress === undefined) return false;
  return /^(?:::ffff:)?127\.\d+\.\d+\.\d+$/i.test(remoteAddress) || remoteAddress === '::1';
}

/** What programs write that pass on what others asked (RFC 9110 section 7.6.3, RFC 7239, and their elders). */
const ofPassingOn = ['via', 'forwarded', 'x-forwarded-for', 'x-real-ip'];

/** Whether a program on this machine, such as a proxy or a tunnel, asks for somebody elsewhere. */
function passedOn({ req }: Request): boolean {
  return ofPassingOn.some((name) => req.header(name) !== undefined);
}

/** Pages that hold nothing of the logbook, and the way to a token, are for everybody. */
function neededFor(method: string, path: string): Role | 'nothing' {
  if (reading.has(method)) return /^\/(?:field|trust)(?:\/|$)/.test(path) ? 'nothing' : 'reader';
  if (method === 'POST' && path === '/api/pairing') return 'nothing';
  if (method === 'POST' && path === '/api/exchange') return 'recorder';
  if (method === 'PUT' && path.startsWith('/api/sealed/')) return 'recorder';
  return 'keeper';
}

/** Without TLS anybody on the way could read the token and the logbook, or change what is sent. */
function checkPlain({ req }: Request, needed: Role | 'nothing'): void {
  if (needed === 'nothing' && reading.has(req.method)) return;
  throw new Problem(
    'needs-https',
    'Over plain HTTP other machines get only /trust/ and the files of /field/. /trust/ shows the way to HTTPS.',
  );
}

async function callerOf(
  { req, env }: Request,
  { access, here, note }: { access: Access | undefined; here: boolean; note: (device: PairedDevice) => void },
): Promise<Caller> {
  const header = req.header('authorization');
  if (header === undefined) {
    if (here) return { role: 'keeper' };
    throw notPaired('This address needs the token of a paired device, as "Authorization: Bearer TOKEN".');
  }
  const [, token] = /^Bearer +([\w.~+/-]+=*)$/i.exec(header) ?? [];
  const device = token === undefined ? undefined : access?.registry.byToken(token);
  if (device !== undefined && device.revokedAt === undefined) {
    note(device);
    return { role: device.role, device: device.device };
  }
  const wait = (await access?.wrongTokens.wrong(env?.incoming?.socket.remoteAddress ?? '')) ?? 0;
  if (wait > 0) throw tooManyTries(wait);
  throw notPaired(
    device === undefined
      ? 'No device of this logbook has that token.'
      : `"${device.label}" was revoked. What it has not sent can be saved as a file there and taken in at the desk.`,
  );
}

function notPaired(why: string): Problem {
  return new Problem(
    'not-paired',
    `${why} Pair the device with a one-time code: "gapledger serve --lan" shows one.`,
    {},
    { 'WWW-Authenticate': 'Bearer' },
  );
}

/** The answer to an address that was wrong too often. */
export function tooManyTries(seconds: number): Problem {
  return new Problem(
    'too-many-tries',
    `This address was wrong too often. Wait ${seconds} seconds.`,
    {},
    { 'Retry-After': String(seconds) },
  );
}

function tooLow(role: Role, needed: Role): Problem {
  return new Problem(
    'role-too-low',
    `This device is paired as ${role}; this needs a ${needed}. Do it at the computer of the logbook, or pair the device anew with a code for that role.`,
    { role, needed },
  );
}
