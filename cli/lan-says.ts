// What "gapledger serve --lan" prints: where phones begin, the code as a picture and in letters, who was paired.
import { renderUnicodeCompact } from 'uqr';
import type { Code, PairedDevice, Vouching } from '../src/server/index.ts';
import { say, sayJson } from './terminal/index.ts';

export type Way = Readonly<{
  /** Where a phone begins: the guide, or with a certificate that it trusts anyway the field page itself. */
  start: string;
  field: string;
}>;

type Started = Readonly<{
  here: Readonly<{ url: string; logbook: string }>;
  vouching: Vouching;
  way: Way;
  ports: Readonly<{ plain: number; secure: number }>;
}>;

export const showText = {
  start: ({ here, vouching, way, ports }: Started) => {
    const { authority, certificate, machine } = vouching;
    say(`${here.logbook} is at ${here.url} on this computer.`);
    say(`Phones that are paired open ${way.field}`);
    const others = certificate().names.filter(
      (name) => !/^(?:localhost|127\.|::1$)/.test(name) && !way.field.includes(name),
    );
    if (others.length > 0) say(`  or the same at ${others.join(', ')}, port ${ports.secure}`);
    const outsideNames = certificate().leftOut.filter((name) => machine().addresses.includes(name));
    if (outsideNames.length > 0)
      say(
        `  not vouched for: ${outsideNames.join(', ')}; the certificate authority holds only for private nets.`,
      );
    if (authority !== undefined) {
      say(`A new phone begins at ${way.start}`);
      say('It is shown this fingerprint there (SHA-256); go on only where every pair is the same:');
      const pairs = authority.fingerprint;
      say(`  ${pairs.slice(0, 47)}\n  ${pairs.slice(48)}`);
    }
    say(
      'Enter makes a new code; "reader", "recorder" or "keeper" and Enter one for that role. Ctrl+C ends it.',
    );
  },
  code: ({ code, role }: Code, { start }: Way) => {
    if (process.stdout.isTTY) {
      const drawn = renderUnicodeCompact(`${start}#code=${code}`, { border: 2 });
      // White and black are said, so that a terminal with a light background draws it the same way.
      for (const line of drawn.split('\n')) say(`\u001b[97;40m${line}\u001b[0m`);
    }
    say(`Code for one ${role}, for 10 minutes: ${code}`);
    say(`  ${start}#code=${code}`);
  },
  paired: ({ label, role }: PairedDevice) => {
    say(`Paired: "${label}" as ${role}. "gapledger devices" lists all; was it not you, revoke it there.`);
  },
};

export const showJson: typeof showText = {
  start: ({ here, vouching, way }) =>
    sayJson({
      ...here,
      field: way.field,
      start: way.start,
      names: [...vouching.hosts()],
      fingerprint: vouching.authority?.fingerprint ?? null,
    }),
  code: ({ code, role, expires }, { start }) =>
    sayJson({ code, role, expires: new Date(expires).toISOString(), address: `${start}#code=${code}` }),
  paired: ({ device, label, role, pairedAt }) => sayJson({ paired: { device, label, role, pairedAt } }),
};
