// gapledger serve --lan: HTTPS for paired phones, the way there, one-time codes. Loaded only with that flag.
import { createInterface } from 'node:readline';
import { type Desk, knownNames, readStand, whoDidIt } from '../src/record/index.ts';
import {
  type AppOptions,
  type Codes,
  isRole,
  loadTrust,
  type PairedDevice,
  type Role,
  roles,
  type Served,
  type TrustOptions,
  type Vouching,
} from '../src/server/index.ts';
import { showJson, showText, type Way } from './lan-says.ts';
import { readPort, type ServeFlags, startServer } from './serving.ts';
import { exitCodes, Failure, outside, problemSentence, say, tell } from './terminal/index.ts';

export type Opening = Readonly<{
  app: Parameters<typeof startServer>[0]['app'];
  /** The server without TLS. */
  plain: Served;
  here: Readonly<{ url: string; logbook: string }>;
  codes: Codes;
  /** Where to be told of paired devices. */
  heard: ((device: PairedDevice) => void)[];
  /** Resolves when the command is to end. */
  ends: Promise<void>;
}>;

export type Lan = Readonly<{
  hosts: NonNullable<AppOptions['names']>;
  trust: NonNullable<AppOptions['trust']>;
  /** The desk with a person at it: pairing is recorded in somebody's name. */
  seated: (desk: Desk) => Promise<Desk>;
  /** Serves, shows the way and makes codes until the command is to end. */
  open: (opening: Opening) => Promise<void>;
}>;

/** Milliseconds between two looks at the addresses of this machine and at the end of the certificate. */
const lookedAtEvery = 60_000;

/**
 * Reads the flags and gets a certificate, before anything is served.
 * @throws Failure for a flag or certificate that cannot be used
 */
export async function readLan(flags: ServeFlags, onlyReading: boolean): Promise<Lan> {
  const tlsPort = readPort('--tls-port', flags.tlsPort ?? '4748');
  const role = readRole(flags.role ?? 'recorder');
  if ((flags.cert === undefined) !== (flags.key === undefined))
    throw new Failure(
      exitCodes.badInput,
      '--cert and --key go together: the certificate, and its private key.',
    );
  const trust = await loadTrust();
  const vouching = await trust
    .vouch({
      now: outside.now,
      ...(flags.cert === undefined || flags.key === undefined
        ? {}
        : { own: { cert: flags.cert, key: flags.key } }),
    })
    .catch((error: unknown) => {
      if (error instanceof trust.TrustError) throw new Failure(exitCodes.badInput, error.message);
      throw error;
    });
  const address = chosenAddress(flags.address, vouching);
  let told: TrustOptions | undefined;
  return {
    hosts: vouching.hosts,
    trust: () => told,
    seated: (desk) => seated(desk, flags.by),
    open: async ({ app, plain, here, codes, heard, ends }) => {
      const tls = vouching.certificate();
      const secure = await startServer(
        { app, port: tlsPort, host: 'every', tls },
        '--tls-port',
        flags.orNext === true,
      );
      told = toldOf(vouching, secure.port, trust.permitsInWords);
      const ports = { plain: plain.port, secure: secure.port };
      let way = wayTo(vouching, address, ports);
      const show = flags.json === true ? showJson : showText;
      const make = (wanted: Role) => show.code(codes.make(wanted), way);
      show.start({ here, vouching, way, ports });
      const moved = () => {
        way = wayTo(vouching, addressNow(flags.address, vouching, address), ports);
      };
      const looking = setInterval(() => void lookAgain(vouching, secure, moved), lookedAtEvery);
      const stop = onlyReading ? undefined : takeWishes(role, make);
      if (onlyReading) say('This logbook can only be read here, so no other device can be paired.');
      else make(role);
      heard.push((device) => {
        show.paired(device);
        make(role);
      });
      await ends;
      clearInterval(looking);
      stop?.();
      await secure.close();
    },
  };
}

function readRole(text: string): Role {
  if (isRole(text)) return text;
  throw new Failure(exitCodes.badInput, `--role ${text}: write ${roles.join(', ')}.`);
}

async function seated(desk: Desk, by: string | undefined): Promise<Desk> {
  const folded = await readStand(desk.log);
  const who = whoDidIt(desk, by, folded.stand, await knownNames(desk.log, folded));
  if (who.ok) return { ...desk, person: who.value };
  const { choices = [] } = who.problem;
  const names = choices.map(({ text }) => text).join(', ');
  throw new Failure(exitCodes.badInput, `${problemSentence(who.problem, '--by')}${names && ` (${names})`}.`);
}

/** The address that phones are sent to: the one asked for, else the first of the machine or of the certificate. */
function chosenAddress(wanted: string | undefined, { machine, certificate, authority }: Vouching): string {
  const known = authority === undefined ? certificate().names : [...machine().addresses, ...machine().names];
  if (wanted !== undefined && known.includes(wanted.toLowerCase())) return wanted.toLowerCase();
  if (wanted !== undefined)
    throw new Failure(
      exitCodes.badInput,
      `--address ${wanted}: this computer has ${known.join(', ') || 'none'}.`,
    );
  const [first] = known;
  if (first !== undefined) return first;
  throw new Failure(
    exitCodes.other,
    'This computer is in no net: it has no address that a phone could reach.',
  );
}

/** The same after the computer came into another net; where there is none, the one that phones were sent to before. */
function addressNow(wanted: string | undefined, vouching: Vouching, before: string): string {
  try {
    return chosenAddress(wanted, vouching);
  } catch {
    return before;
  }
}

function toldOf(
  { authority }: Vouching,
  tlsPort: number,
  inWords: (of: NonNullable<Vouching['authority']>) => string[],
): TrustOptions {
  if (authority === undefined) return { tlsPort };
  const { certificate, fingerprint, der } = authority;
  const name = certificate.subjectName.getField('CN').join(' ');
  const ends = certificate.notAfter.toISOString().slice(0, 10);
  return { tlsPort, authority: { name, fingerprint, ends, der, permits: inWords(authority) } };
}

function wayTo({ authority }: Vouching, address: string, port: { plain: number; secure: number }): Way {
  const host = address.includes(':') ? `[${address}]` : address;
  const field = `https://${host}:${port.secure}/field/`;
  return { field, start: authority === undefined ? field : `http://${host}:${port.plain}/trust/` };
}

async function lookAgain(vouching: Vouching, secure: Served, moved: () => void): Promise<void> {
  try {
    if (!(await vouching.refresh())) return;
    secure.renew(vouching.certificate());
    moved();
    tell(`This computer is now at ${vouching.machine().addresses.join(', ') || 'no address in a net'}.`);
  } catch (error) {
    tell(
      `The certificate could not be looked at again: ${error instanceof Error ? error.message : 'unknown'}`,
    );
  }
}

/** Lines that are typed ask for codes; a running command reads nothing else. */
function takeWishes(usual: Role, make: (role: Role) => void): () => void {
  const lines = createInterface({ input: process.stdin });
  lines.on('line', (line) => {
    const wish = line.trim().toLowerCase();
    if (wish === '' || isRole(wish)) make(wish === '' ? usual : wish);
    else tell(`Enter makes a new code for a ${usual}; so do ${roles.join(', ')} for that role.`);
  });
  return () => lines.close();
}
