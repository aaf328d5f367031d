// A certificate that the keeper brings along, such as one for a real host name from a public authority.
import { createPrivateKey, type KeyObject, X509Certificate } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { TrustError } from './error.ts';
import type { ServerCertificate } from './server-certificate.ts';

/**
 * Reads a certificate chain and its key, both in PEM.
 * @param now milliseconds since 1970
 * @throws TrustError naming the file and the remedy
 */
export function ownCertificate(certFile: string, keyFile: string, now: number): ServerCertificate {
  const [cert, key] = [readText(certFile), readText(keyFile)];
  const certificate = readCertificate(certFile, cert);
  if (!certificate.checkPrivateKey(readKey(keyFile, key)))
    throw new TrustError(`${keyFile}: is not the key of the certificate in ${certFile}.`);
  if (Date.parse(certificate.validTo) <= now)
    throw new TrustError(`${certFile}: ended on ${certificate.validTo}. Have it renewed.`);
  if (Date.parse(certificate.validFrom) > now)
    throw new TrustError(
      `${certFile}: counts only from ${certificate.validFrom}. Is this computer's clock right?`,
    );
  const names = namesIn(certificate);
  if (names.length === 0)
    throw new TrustError(
      `${certFile}: names no host in full (Subject Alternative Name), and browsers look there only. Have one made that does.`,
    );
  return { cert, key, names, leftOut: [] };
}

function readText(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    throw new TrustError(`${file}: cannot be read (${error instanceof Error ? error.message : 'unknown'}).`);
  }
}

function readCertificate(file: string, text: string): X509Certificate {
  try {
    return new X509Certificate(text);
  } catch {
    throw new TrustError(`${file}: is no certificate in PEM (text that begins with BEGIN CERTIFICATE).`);
  }
}

function readKey(file: string, text: string): KeyObject {
  try {
    return createPrivateKey(text);
  } catch {
    throw new TrustError(`${file}: is no private key in PEM that can be read without a passphrase.`);
  }
}

/** DNS names and addresses of the certificate; one for all hosts of a domain ("*.") names no host. */
function namesIn({ subjectAltName }: X509Certificate): string[] {
  return (subjectAltName ?? '')
    .split(/, */)
    .flatMap((part) => /^(?:DNS|IP Address):([\w.:-]+)$/.exec(part)?.[1] ?? [])
    .map((name) => name.toLowerCase());
}
