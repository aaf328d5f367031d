// Under which names and addresses this machine can be reached in the local net.
import { hostname, networkInterfaces } from 'node:os';

export type MachineNames = Readonly<{
  /** IPv4 addresses first; without those that mean nothing on another machine (loopback, link-local IPv6). */
  addresses: readonly string[];
  /** The host name, and the name that multicast DNS gives it (RFC 6762), in small letters. */
  names: readonly string[];
}>;

type Outside = Readonly<{ host: string; interfaces: ReturnType<typeof networkInterfaces> }>;

/** Names and addresses as they are now: they change when the machine joins another net. */
export function namesOfMachine(outside?: Outside): MachineNames {
  const { host, interfaces } = outside ?? { host: hostname(), interfaces: networkInterfaces() };
  const all = Object.values(interfaces).flatMap((addresses) => addresses ?? []);
  const usable = all.filter(({ internal, address }) => !internal && !/^fe[89ab]/i.test(address));
  const addresses = [
    ...usable.filter(({ family }) => family === 'IPv4'),
    ...usable.filter(({ family }) => family === 'IPv6'),
  ].map(({ address }) => address.toLowerCase());
  return { addresses: [...new Set(addresses)], names: namesOf(host.toLowerCase().replace(/\.$/, '')) };
}

function namesOf(host: string): string[] {
  if (!/^(?!-)[a-z0-9-]{1,63}(?:\.[a-z0-9-]{1,63})*$/.test(host) || host === 'localhost') return [];
  const [first = host] = host.split('.');
  return [...new Set([host, `${first}.local`])];
}
