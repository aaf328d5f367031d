// The certificate that is shown at the moment, and the names that go with it. Nets are joined and left while a server
// runs, and certificates end: so both are looked at again and again.
import { isIPv6 } from 'node:net';
import { type Authority, openAuthority } from './authority.ts';
import { type MachineNames, namesOfMachine } from './names.ts';
import { ownCertificate } from './own.ts';
import { permittedBy } from './permitted.ts';
import { type ServerCertificate, serverCertificate } from './server-certificate.ts';

export type Vouching = Readonly<{
  /** The authority of this machine; missing with a certificate that was brought along. */
  authority?: Authority;
  certificate: () => ServerCertificate;
  machine: () => MachineNames;
  /** Names and addresses under which this machine answers, as they stand in the Host of a request. */
  hosts: () => ReadonlySet<string>;
  /** Looks again; true when the certificate is another one now, or the names are. */
  refresh: () => Promise<boolean>;
}>;

export type VouchOptions = Readonly<{
  /** Files of a certificate that is brought along. */
  own?: Readonly<{ cert: string; key: string }>;
  /** Milliseconds since 1970. */
  now: () => number;
  /** Another home folder than the usual one. */
  home?: string;
  machine?: () => MachineNames;
}>;

/** @throws TrustError when a certificate or the authority cannot be used */
export async function vouch({
  own,
  now,
  home,
  machine: look = namesOfMachine,
}: VouchOptions): Promise<Vouching> {
  let machine = look();
  const authority =
    own === undefined
      ? await openAuthority({ machine, now: now(), ...(home === undefined ? {} : { home }) })
      : undefined;
  const make = async () => {
    if (authority !== undefined) return serverCertificate(authority, machine, now());
    if (own === undefined) throw new Error('there is an authority or a certificate that was brought along');
    return ownCertificate(own.cert, own.key, now());
  };
  let certificate = await make();
  let hosts = hostsOf(machine, certificate);
  return {
    ...(authority === undefined ? {} : { authority }),
    certificate: () => certificate,
    machine: () => machine,
    hosts: () => hosts,
    refresh: async () => {
      const before = { cert: certificate.cert, hosts: [...hosts].join(' ') };
      machine = look();
      certificate = await make();
      hosts = hostsOf(machine, certificate);
      return certificate.cert !== before.cert || [...hosts].join(' ') !== before.hosts;
    },
  };
}

/** For what an authority can vouch, in words for the person who is to trust it. */
export function permitsInWords({ certificate }: Authority): string[] {
  const { domains, nets } = permittedBy(certificate);
  const whole = domains.filter((domain) => domain !== 'local');
  return [
    `the names ${whole.join(', ')}, and those that end in one of them or in .local`,
    `addresses of private nets: ${nets.join(', ')}`,
  ];
}

function hostsOf({ addresses, names }: MachineNames, certificate: ServerCertificate): Set<string> {
  const all = [...addresses, ...names, ...certificate.names];
  return new Set(all.map((name) => (isIPv6(name) ? `[${name}]` : name)));
}
