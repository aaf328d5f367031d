// The certificate authority of this machine: one key that never leaves the home folder, and a certificate that
// phones are asked to trust. It is made once and kept for ten years.
import { createHash, webcrypto } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { homeFolder, writePrivateFile } from '../../log/store/index.ts';
import { TrustError } from './error.ts';
import type { MachineNames } from './names.ts';
import { nameConstraints } from './permitted.ts';
import {
  algorithm,
  BasicConstraintsExtension,
  KeyUsageFlags,
  KeyUsagesExtension,
  newKeys,
  privateKeyPem,
  SubjectKeyIdentifierExtension,
  X509Certificate,
  X509CertificateGenerator,
} from './x509.ts';

export type Authority = Readonly<{
  certificate: X509Certificate;
  /** The certificate in DER, as phones take it. */
  der: Uint8Array<ArrayBuffer>;
  /** SHA-256 of the DER in hex, byte by byte with colons. */
  fingerprint: string;
  key: webcrypto.CryptoKey;
  /** Where it and the server's certificate are kept. */
  folder: string;
}>;

type Outside = Readonly<{ machine: MachineNames; now: number; home?: string }>;

const day = 86_400_000;
const lifetimeYears = 10;
/** An authority that ends sooner than this is not used any more: server certificates would end with it. */
const leastLeft = 30 * day;

/**
 * The authority of this machine; made when there is none, or when it has come to its end.
 * @param outside names of this machine, milliseconds since 1970, and another home folder than the usual one
 * @throws TrustError when its files are damaged
 */
export async function openAuthority({ machine, now, home = homeFolder() }: Outside): Promise<Authority> {
  const folder = join(home, 'trust');
  const files = { certificate: join(folder, 'authority.crt.pem'), key: join(folder, 'authority.key.pem') };
  if (existsSync(files.certificate) && existsSync(files.key)) {
    const known = await readAuthority(folder, files);
    if (known.certificate.notAfter.getTime() - now > leastLeft) return known;
  }
  const keys = await newKeys();
  const certificate = await makeCertificate(keys, machine, now);
  // The key first: a certificate without its key would be taken for an authority.
  writePrivateFile(files.key, await privateKeyPem(keys));
  writePrivateFile(files.certificate, `${certificate.toString('pem')}\n`);
  return authorityOf(certificate, keys.privateKey, folder);
}

/** SHA-256 of a certificate in DER, as phones and openssl write it: pairs of hex digits with colons. */
export function fingerprintOf(der: Uint8Array): string {
  const hex = createHash('sha256').update(der).digest('hex').toUpperCase();
  return (hex.match(/../g) ?? []).join(':');
}

async function makeCertificate(keys: webcrypto.CryptoKeyPair, machine: MachineNames, now: number) {
  const [host = 'this computer'] = machine.names;
  const notBefore = new Date(now - day);
  const notAfter = new Date(now);
  notAfter.setUTCFullYear(notAfter.getUTCFullYear() + lifetimeYears);
  // The day tells an authority from one that was made later, in the list of a phone.
  const name = [
    { CN: [`Gapledger on ${host} ${new Date(now).toISOString().slice(0, 10)}`] },
    { O: ['Gapledger'] },
  ];
  return X509CertificateGenerator.createSelfSigned({
    name,
    notBefore,
    notAfter,
    keys,
    signingAlgorithm: algorithm,
    extensions: [
      new BasicConstraintsExtension(true, 0, true),
      new KeyUsagesExtension(KeyUsageFlags.keyCertSign | KeyUsageFlags.cRLSign, true),
      await SubjectKeyIdentifierExtension.create(keys.publicKey),
      nameConstraints(machine),
    ],
  });
}

async function readAuthority(
  folder: string,
  files: { certificate: string; key: string },
): Promise<Authority> {
  try {
    const certificate = new X509Certificate(readFileSync(files.certificate, 'utf8'));
    const pem = readFileSync(files.key, 'utf8').replaceAll(/-----[A-Z ]+-----|\s/g, '');
    const der = Buffer.from(pem, 'base64');
    const key = await webcrypto.subtle.importKey('pkcs8', der, algorithm, false, ['sign']);
    return authorityOf(certificate, key, folder);
  } catch {
    throw new TrustError(
      `${folder}: the certificate authority of this machine is damaged. Move the folder away; another one is then made, and every phone has to trust that.`,
    );
  }
}

function authorityOf(certificate: X509Certificate, key: webcrypto.CryptoKey, folder: string): Authority {
  const der = new Uint8Array(certificate.rawData);
  return { certificate, der, fingerprint: fingerprintOf(der), key, folder };
}
