// The certificate that the server shows: for all names of this machine, signed by its authority, made anew when the
// names change or the end comes near.
import { X509Certificate as NodeCertificate } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { isIP } from 'node:net';
import { join } from 'node:path';
import { writePrivateFile } from '../../log/store/index.ts';
import type { Authority } from './authority.ts';
import type { MachineNames } from './names.ts';
import { permits, permittedBy } from './permitted.ts';
import {
  AuthorityKeyIdentifierExtension,
  algorithm,
  BasicConstraintsExtension,
  ExtendedKeyUsage,
  ExtendedKeyUsageExtension,
  KeyUsageFlags,
  KeyUsagesExtension,
  newKeys,
  privateKeyPem,
  SubjectAlternativeNameExtension,
  SubjectKeyIdentifierExtension,
  X509CertificateGenerator,
} from './x509.ts';

export type ServerCertificate = Readonly<{
  /** Certificate chain and private key in PEM, as node:tls takes them. */
  cert: string;
  key: string;
  /** Names and addresses that it vouches for. */
  names: readonly string[];
  /** Names and addresses of this machine that it cannot vouch for. */
  leftOut: readonly string[];
}>;

const day = 86_400_000;
/**
 * Whole lifetime in days. Phones of one maker take no server certificate that counts for longer than 825 days, and
 * browsers none of a public authority for longer than 398 (both from memory); 397 is under either.
 */
const lifetimeDays = 397;
/** A clock of a phone may be behind. */
const daysBefore = 2;
const renewedBefore = 30 * day;

/**
 * The server's certificate for this machine: the kept one while it fits, else a new one.
 * @param now milliseconds since 1970
 */
export async function serverCertificate(
  authority: Authority,
  machine: MachineNames,
  now: number,
): Promise<ServerCertificate> {
  const permitted = permittedBy(authority.certificate);
  const wanted = ['localhost', ...machine.names, '127.0.0.1', '::1', ...machine.addresses];
  const names = wanted.filter((name) => permits(permitted, name));
  const leftOut = wanted.filter((name) => !names.includes(name));
  const files = {
    cert: join(authority.folder, 'server.crt.pem'),
    key: join(authority.folder, 'server.key.pem'),
  };
  const kept = readKept(files, authority, names, now);
  if (kept !== undefined) return { ...kept, names, leftOut };
  const made = await makeCertificate(authority, names, now);
  writePrivateFile(files.key, made.key);
  writePrivateFile(files.cert, made.cert);
  return { ...made, names, leftOut };
}

async function makeCertificate({ certificate, key }: Authority, names: readonly string[], now: number) {
  const keys = await newKeys();
  const end = now + (lifetimeDays - daysBefore) * day;
  const made = await X509CertificateGenerator.create({
    subject: [{ CN: ['Gapledger'] }],
    issuer: certificate.subjectName,
    notBefore: new Date(now - daysBefore * day),
    notAfter: new Date(Math.min(end, certificate.notAfter.getTime())),
    publicKey: keys.publicKey,
    signingKey: key,
    signingAlgorithm: algorithm,
    extensions: [
      new BasicConstraintsExtension(false, undefined, true),
      new KeyUsagesExtension(KeyUsageFlags.digitalSignature, true),
      new ExtendedKeyUsageExtension([ExtendedKeyUsage.serverAuth]),
      new SubjectAlternativeNameExtension(
        names.map((value) => ({ type: isIP(value) === 0 ? ('dns' as const) : ('ip' as const), value })),
      ),
      await AuthorityKeyIdentifierExtension.create(certificate.publicKey),
      await SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  });
  const cert = `${made.toString('pem')}\n${certificate.toString('pem')}\n`;
  return { cert, key: await privateKeyPem(keys) };
}

/** The kept certificate, when it is of this authority, for these names, and not near its end. */
function readKept(
  files: { cert: string; key: string },
  { certificate }: Authority,
  names: readonly string[],
  now: number,
): { cert: string; key: string } | undefined {
  if (!existsSync(files.cert) || !existsSync(files.key)) return undefined;
  try {
    const [cert, key] = [readFileSync(files.cert, 'utf8'), readFileSync(files.key, 'utf8')];
    const kept = new NodeCertificate(cert);
    const authority = new NodeCertificate(certificate.toString('pem'));
    const fits =
      kept.verify(authority.publicKey) &&
      Date.parse(kept.validTo) - now > renewedBefore &&
      Date.parse(kept.validFrom) <= now &&
      names.every((name) => (isIP(name) === 0 ? kept.checkHost(name) : kept.checkIP(name)) !== undefined);
    return fits ? { cert, key } : undefined;
  } catch {
    // What cannot be read is made anew: nobody has to trust a server's certificate by itself.
    return undefined;
  }
}
