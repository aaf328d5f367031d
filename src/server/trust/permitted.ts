// For which names the authority of this machine can vouch at all: those of private nets, and its own. A phone that
// trusts it then still believes nobody who pretends to be a site in the internet with a stolen key.
import { BlockList, isIP, isIPv6 } from 'node:net';
import { AsnConvert } from '@peculiar/asn1-schema';
import {
  GeneralName,
  GeneralSubtree,
  GeneralSubtrees,
  id_ce_nameConstraints,
  NameConstraints,
} from '@peculiar/asn1-x509';
import type { MachineNames } from './names.ts';
import { Extension, type X509Certificate } from './x509.ts';

/** Nets that nobody in the internet has. */
const privateNets = [
  '10.0.0.0/8', // RFC 1918
  '172.16.0.0/12', // RFC 1918
  '192.168.0.0/16', // RFC 1918
  '169.254.0.0/16', // RFC 3927, link-local
  '100.64.0.0/10', // RFC 6598, shared address space of providers
  '127.0.0.0/8', // RFC 1122, loopback
  '::1/128', // RFC 4291, loopback
  'fc00::/7', // RFC 4193, unique local
  'fe80::/10', // RFC 4291, link-local
];
/** Names that are no site's: "local" holds every name of multicast DNS (RFC 6762). */
const privateNames = ['localhost', 'local'];

/** Name constraints (RFC 5280 section 4.2.1.10): private nets, and what this machine is called besides. */
export function nameConstraints({ addresses, names }: MachineNames): Extension {
  const nets = [...privateNets, ...addresses.filter((address) => !within(privateNets, address)).map(alone)];
  const domains = [...privateNames, ...names.filter((name) => !inDomains(privateNames, name))];
  const permittedSubtrees = new GeneralSubtrees([
    ...domains.map((dNSName) => new GeneralSubtree({ base: new GeneralName({ dNSName }) })),
    ...nets.map((iPAddress) => new GeneralSubtree({ base: new GeneralName({ iPAddress }) })),
  ]);
  return new Extension(
    id_ce_nameConstraints,
    true,
    AsnConvert.serialize(new NameConstraints({ permittedSubtrees })),
  );
}

/** What an authority permits, as texts: domains, and nets such as "10.0.0.0/8". */
export function permittedBy(authority: X509Certificate): { domains: string[]; nets: string[] } {
  const extension = authority.getExtension(id_ce_nameConstraints);
  const bases =
    extension === null
      ? []
      : [...(AsnConvert.parse(extension.value, NameConstraints).permittedSubtrees ?? [])].map(
          ({ base }) => base,
        );
  return {
    domains: bases.flatMap(({ dNSName }) => dNSName ?? []),
    nets: bases.flatMap(({ iPAddress }) => iPAddress ?? []),
  };
}

/** Whether an authority can vouch for a name or an address. */
export function permits({ domains, nets }: ReturnType<typeof permittedBy>, name: string): boolean {
  return isIP(name) === 0 ? inDomains(domains, name) : within(nets, name);
}

function inDomains(domains: readonly string[], name: string): boolean {
  return domains.some((domain) => name === domain || name.endsWith(`.${domain}`));
}

function within(nets: readonly string[], address: string): boolean {
  const list = new BlockList();
  for (const net of nets) {
    const [start = '', bits] = net.split('/');
    list.addSubnet(start, Number(bits), family(start));
  }
  return list.check(address, family(address));
}

function family(address: string): 'ipv4' | 'ipv6' {
  return isIPv6(address) ? 'ipv6' : 'ipv4';
}

function alone(address: string): string {
  return `${address}/${isIPv6(address) ? 128 : 32}`;
}
