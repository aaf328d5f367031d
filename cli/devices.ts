// gapledger devices: which phones may ask and record, and the end of that.
import { momentIn, nearest } from '../src/events/index.ts';
import { knownNames, readStand, recordDraft } from '../src/record/index.ts';
import { type PairedDevice, type Registry, type Role, registryOf } from '../src/server/index.ts';
import { type Folded, shortId } from '../src/stand/index.ts';
import {
  type CommonOptions,
  exitCodes,
  Failure,
  problemSentence,
  say,
  sayJson,
  table,
  withDesk,
  withLog,
} from './terminal/index.ts';

type Flags = CommonOptions & { reason?: string; by?: string };

/** A device as the registry of this computer and the logbook know it, in either or both. */
type Known = Readonly<{
  device: string;
  label: string;
  role: Role | null;
  person: string | null;
  pairedAt: string | null;
  lastSeenAt: string | null;
  /** Its token is refused here. */
  revokedAt: string | null;
  /** The logbook has it as revoked. */
  revokedInLog: boolean;
  signs: boolean;
}>;

export async function work(words: string[], flags: Flags): Promise<void> {
  const [verb, which, ...more] = words;
  if (verb === undefined) return list(flags);
  if (verb === 'revoke' && which !== undefined && more.length === 0) return revoke(which, flags);
  throw new Failure(
    exitCodes.badInput,
    verb === 'revoke'
      ? 'Name one device: gapledger devices revoke "ANN\'S PHONE". "gapledger devices" lists them.'
      : `devices ${verb}: write "devices" to list them, or "devices revoke DEVICE".`,
  );
}

async function list(flags: Flags): Promise<void> {
  await withLog(flags, async (log) => {
    const { path, logbook = '' } = log.facts();
    const folded = await readStand(log, {});
    const devices = known(registryOf(path, logbook).all(), folded, await knownNames(log, folded));
    if (flags.json) return sayJson({ devices });
    if (devices.length === 0)
      return say('No device is paired. "gapledger serve --lan" shows a code for one.');
    const zone = folded.stand.logbook?.body.zone ?? 'UTC';
    const time = (at: string | null) =>
      at === null ? '' : momentIn(zone, Date.parse(at)).slice(0, 16).replace('T', ' ');
    const columns = ['Device', 'Role', 'Carried by', `Paired (${zone})`, 'Last seen', 'State', 'Id'];
    say(
      table(
        columns.map((title) => ({ title })),
        devices.map((one) => [
          one.label,
          one.role ?? '',
          one.person ?? '',
          time(one.pairedAt),
          time(one.lastSeenAt),
          stateOf(one),
          shortId(one.device),
        ]),
      ),
    );
  });
}

function stateOf({ role, revokedAt, revokedInLog, signs }: Known): string {
  if (revokedAt !== null && !revokedInLog) return 'refused here; not revoked in the log: revoke it again';
  if (revokedAt !== null || (revokedInLog && role === null)) return 'revoked';
  if (revokedInLog) return 'revoked in the log, still let in here: revoke it again';
  if (role === null) return 'in the log; no token of this computer';
  return signs ? 'may ask; signs its entries' : 'may ask; entries not signed';
}

async function revoke(which: string, flags: Flags): Promise<void> {
  await withDesk(flags, async (desk) => {
    const { path, logbook = '' } = desk.log.facts();
    const registry = registryOf(path, logbook);
    const folded = await readStand(desk.log, {});
    const device = find(which, known(registry.all(), folded, await knownNames(desk.log, folded)));
    // First the token: whatever happens to the entry, the device is refused from now on.
    refuse(registry, device);
    if (device.revokedInLog) {
      if (flags.json) return sayJson({ revoked: device.device, position: null });
      return say(`"${device.label}" is refused from now on; the logbook had it as revoked already.`);
    }
    const recorded = await recordDraft(desk, {
      kind: 'device-revoked',
      fields: { device: device.device, reason: flags.reason ?? 'no reason given' },
      ...(flags.by === undefined ? {} : { by: flags.by }),
    });
    if (recorded.outcome !== 'recorded') {
      const [problem] = recorded.outcome === 'problems' ? recorded.problems : [];
      const why = problem === undefined ? '' : ` ${problemSentence(problem, `--${problem.field}`)}.`;
      throw new Failure(
        exitCodes.badInput,
        `"${device.label}" is refused from now on, but that is not recorded yet.${why} Put that right and revoke it again.`,
      );
    }
    const position = recorded.receipts[0]?.outcome === 'recorded' ? recorded.receipts[0].position : null;
    if (flags.json) return sayJson({ revoked: device.device, position });
    say(`"${device.label}" is refused from now on. Recorded as entry ${position}.`);
  });
}

function refuse(registry: Registry, { device, revokedAt }: Known): void {
  if (revokedAt === null) registry.revoke(device, new Date().toISOString());
}

function known(
  registered: readonly PairedDevice[],
  { stand }: Pick<Folded, 'stand'>,
  names: ReadonlyMap<string, string>,
): Known[] {
  const ids = new Set([...registered.map(({ device }) => device), ...stand.devices.keys()]);
  return [...ids].map((id) => {
    const here = registered.find(({ device }) => device === id);
    const logged = stand.devices.get(id);
    const person = logged?.person === undefined ? undefined : stand.people.get(logged.person);
    return {
      device: id,
      label: here?.label ?? logged?.label ?? shortId(id),
      role: here?.role ?? null,
      person: person === undefined ? null : (names.get(person.name) ?? 'name erased'),
      pairedAt: here?.pairedAt ?? null,
      lastSeenAt: here?.lastSeenAt ?? null,
      revokedAt: here?.revokedAt ?? null,
      revokedInLog: logged?.revokedBy !== undefined,
      signs: logged?.publicKey !== undefined,
    };
  });
}

/** By label, id, or the last six characters of the id. */
function find(which: string, devices: readonly Known[]): Known {
  const key = which.trim().toLowerCase();
  const fits = devices.filter(
    ({ device, label }) =>
      device === key || label.toLowerCase() === key || (key.length >= 6 && device.endsWith(key)),
  );
  const [only] = fits;
  if (only !== undefined && fits.length === 1) return only;
  if (fits.length > 1)
    throw new Failure(
      exitCodes.badInput,
      `"${which}" fits ${fits.length} devices; give the id: ${fits.map(({ device }) => device).join(', ')}.`,
    );
  const near = nearest(
    which,
    devices.map(({ label }) => label),
  );
  throw new Failure(
    exitCodes.badInput,
    `There is no device "${which}"${near === undefined ? '. "gapledger devices" lists them.' : `; did you mean ${near}?`}`,
  );
}
