// The authority and its certificates, held against openssl and against a client that has nothing to do with us.
import { execFileSync, spawnSync } from 'node:child_process';
import { X509Certificate } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createServer, request } from 'node:https';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  type Authority,
  namesOfMachine,
  openAuthority,
  ownCertificate,
  type ServerCertificate,
  serverCertificate,
} from '../../../src/server/trust/index.ts';
import { needs } from '../../needs.ts';

const machine = {
  addresses: ['192.168.1.10', '10.3.2.1', 'fd12:3456::7', '198.51.100.7'],
  names: ['woodshed', 'woodshed.local'],
};
const now = Date.now();
const day = 86_400_000;
let home: string;
let authority: Authority;
let server: ServerCertificate;
beforeAll(async () => {
  home = mkdtempSync(join(tmpdir(), 'gapledger-trust-'));
  authority = await openAuthority({ machine, now, home });
  server = await serverCertificate(authority, machine, now);
});
afterAll(() => rmSync(home, { recursive: true }));

const file = (name: string, text: string) => {
  writeFileSync(join(home, name), text);
  return join(home, name);
};
const openssl = (...words: string[]) =>
  execFileSync('openssl', words, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
const authorityFile = () => join(home, 'trust/authority.crt.pem');

describe('the authority of a machine', () => {
  it('is made once, and kept in files for nobody else', async () => {
    const again = await openAuthority({ machine, now: now + 300 * day, home });
    expect(again.fingerprint).toBe(authority.fingerprint);
    expect(statSync(join(home, 'trust')).mode & 0o777).toBe(0o700);
    for (const name of readdirSync(join(home, 'trust')))
      expect(statSync(join(home, 'trust', name)).mode & 0o777, name).toBe(0o600);
  });

  it('counts for ten years, for authorities below it no more, and only signs certificates', () => {
    const node = new X509Certificate(authority.der);
    expect(node.ca).toBe(true);
    expect((Date.parse(node.validTo) - now) / day).toBeCloseTo(3652, -1);
    expect(node.fingerprint256).toBe(authority.fingerprint);
  });

  it('is replaced when its end comes near', async () => {
    const other = mkdtempSync(join(tmpdir(), 'gapledger-trust-'));
    const first = await openAuthority({ machine, now, home: other });
    const soon = now + 3640 * day;
    const second = await openAuthority({ machine, now: soon, home: other });
    expect(second.fingerprint).not.toBe(first.fingerprint);
    const renewed = await serverCertificate(second, machine, soon);
    expect(new X509Certificate(renewed.cert).verify(new X509Certificate(second.der).publicKey)).toBe(true);
    rmSync(other, { recursive: true });
  });

  it('is not made anew over a damaged one: that would lock every phone out without a word', async () => {
    const other = mkdtempSync(join(tmpdir(), 'gapledger-trust-'));
    await openAuthority({ machine, now, home: other });
    writeFileSync(join(other, 'trust/authority.key.pem'), 'nonsense');
    await expect(openAuthority({ machine, now, home: other })).rejects.toThrow(
      /damaged\. Move the folder away/,
    );
    rmSync(other, { recursive: true });
  });
});

describe('the certificate of the server', () => {
  it('is kept while it fits, and made anew for other names and before its end', async () => {
    expect((await serverCertificate(authority, machine, now + day)).cert).toBe(server.cert);
    const moved = { ...machine, addresses: ['192.168.7.4'] };
    const other = await serverCertificate(authority, moved, now);
    expect(new X509Certificate(other.cert).checkIP('192.168.7.4')).toBe('192.168.7.4');
    const later = await serverCertificate(authority, moved, now + 366 * day);
    expect(later.cert).not.toBe(other.cert);
    server = await serverCertificate(authority, machine, now);
  });

  it('counts for 397 days at most', () => {
    const { validFrom, validTo } = new X509Certificate(server.cert);
    expect((Date.parse(validTo) - Date.parse(validFrom)) / day).toBeLessThanOrEqual(397);
  });

  it('names every address of the machine and its names', () => {
    const node = new X509Certificate(server.cert);
    for (const name of ['localhost', 'woodshed', 'woodshed.local'])
      expect(node.checkHost(name, { subject: 'never' }), name).toBe(name);
    for (const address of machine.addresses) expect(node.checkIP(address), address).toBe(address);
    expect(server.leftOut).toEqual([]);
  });

  it('leaves out what the authority does not vouch for, such as an address that came later', async () => {
    const elsewhere = { addresses: ['203.0.113.9', '172.20.10.2'], names: ['other.example'] };
    const made = await serverCertificate(authority, elsewhere, now);
    expect(made.leftOut).toEqual(['other.example', '203.0.113.9']);
    expect(made.names).toEqual(['localhost', '127.0.0.1', '::1', '172.20.10.2']);
    server = await serverCertificate(authority, machine, now);
  });
});

describe.skipIf(!needs('openssl'))('openssl', () => {
  it('verifies the chain, for a server, with strict rules', () => {
    const leaf = file('leaf.pem', server.cert);
    for (const [flag, name] of [
      ['-verify_hostname', 'woodshed.local'],
      ['-verify_hostname', 'localhost'],
      ['-verify_ip', '192.168.1.10'],
      ['-verify_ip', 'fd12:3456::7'],
    ] as const)
      expect(
        openssl(
          'verify',
          '-x509_strict',
          '-purpose',
          'sslserver',
          flag,
          name,
          '-CAfile',
          authorityFile(),
          leaf,
        ),
      ).toContain('leaf.pem: OK');
    const other = spawnSync('openssl', [
      'verify',
      '-verify_ip',
      '192.168.1.11',
      '-CAfile',
      authorityFile(),
      leaf,
    ]);
    expect(other.status).not.toBe(0);
  });

  it('sees the constraints: private nets and the names of the machine, critical', () => {
    const text = openssl('x509', '-in', authorityFile(), '-noout', '-text');
    expect(text).toMatch(/Name Constraints: critical/);
    for (const permitted of [
      'DNS:localhost',
      'DNS:local',
      'DNS:woodshed',
      'IP:10.0.0.0/255.0.0.0',
      'IP:172.16.0.0/255.240.0.0',
      'IP:192.168.0.0/255.255.0.0',
      'IP:198.51.100.7/255.255.255.255',
    ])
      expect(text).toContain(permitted);
    expect(text).toMatch(/Basic Constraints: critical\s+CA:TRUE, pathlen:0/);
    expect(text).toMatch(/Key Usage: critical\s+Certificate Sign, CRL Sign/);
    expect(text).toContain('ecdsa-with-SHA256');
  });

  it('refuses a certificate for a site in the internet that was signed with the stolen key', () => {
    const key = join(home, 'trust/authority.key.pem');
    const forge = (name: string) => {
      const extensions = file('forged.cnf', `subjectAltName=${name}\nextendedKeyUsage=serverAuth\n`);
      const [request, forged] = [join(home, 'forged.csr'), join(home, 'forged.pem')];
      openssl(
        'req',
        '-new',
        '-newkey',
        'rsa:2048',
        '-nodes',
        '-keyout',
        join(home, 'forged.key'),
        '-subj',
        '/CN=x',
        '-out',
        request,
      );
      spawnSync('openssl', [
        'x509',
        '-req',
        '-in',
        request,
        '-CA',
        authorityFile(),
        '-CAkey',
        key,
        '-days',
        '10',
        '-extfile',
        extensions,
        '-out',
        forged,
      ]);
      return spawnSync('openssl', ['verify', '-CAfile', authorityFile(), forged], { encoding: 'utf8' });
    };
    for (const name of ['DNS:bank.example', 'DNS:mylocal', 'IP:203.0.113.9', 'IP:2001:db8::1']) {
      const { status, stderr } = forge(name);
      expect(status, name).not.toBe(0);
      expect(stderr).toContain('permitted subtree violation');
    }
    expect(forge('DNS:other.local').status).toBe(0);
  });

  it('writes the same fingerprint', () => {
    expect(openssl('x509', '-in', authorityFile(), '-noout', '-fingerprint', '-sha256')).toContain(
      authority.fingerprint,
    );
  });

  it('makes certificates that are taken as the own ones, and others that are not', () => {
    const made = (name: string, ...more: string[]) => {
      const [cert, key] = [join(home, `${name}.crt`), join(home, `${name}.key`)];
      openssl(
        'req',
        '-x509',
        '-newkey',
        'rsa:2048',
        '-nodes',
        '-keyout',
        key,
        '-out',
        cert,
        '-subj',
        '/CN=x',
        ...more,
      );
      return { cert, key };
    };
    const names = ['-addext', 'subjectAltName=DNS:Woods.example,IP:192.168.1.10'];
    const good = made('good', '-days', '90', ...names);
    expect(ownCertificate(good.cert, good.key, now + day).names).toEqual(['woods.example', '192.168.1.10']);
    const other = made('other', '-days', '90', ...names);
    const bare = made('bare', '-days', '90');
    const take =
      (cert: string, key: string, at = now + day) =>
      () =>
        ownCertificate(cert, key, at);
    expect(take(good.cert, other.key)).toThrow(/other\.key: is not the key of the certificate/);
    expect(take(bare.cert, bare.key)).toThrow(/names no host/);
    expect(take(good.cert, good.key, now + 100 * day)).toThrow(/good\.crt: ended on .*Have it renewed/);
    expect(take(good.cert, good.key, now - 100 * day)).toThrow(/counts only from/);
    expect(take(good.key, good.key)).toThrow(/no certificate in PEM/);
    expect(take(good.cert, good.cert)).toThrow(/no private key in PEM/);
    expect(take(join(home, 'nothing'), good.key)).toThrow(/nothing: cannot be read/);
  });
});

describe('a client that trusts the authority', () => {
  it('connects by address and by name, and nobody else does', async () => {
    const listening = createServer({ cert: server.cert, key: server.key }, (_, answer) => answer.end('here'));
    await new Promise<void>((resolve) => listening.listen(0, '127.0.0.1', resolve));
    const { port } = listening.address() as AddressInfo;
    const ask = (ca: string | undefined, host: string, servername: string) =>
      new Promise<string>((resolve) => {
        request({ host, port, servername, ...(ca === undefined ? {} : { ca }) }, (answer) => {
          answer.resume();
          resolve(String(answer.statusCode));
        })
          .on('error', (error: NodeJS.ErrnoException) => resolve(error.code ?? error.message))
          .end();
      });
    const trusted = readFileSync(authorityFile(), 'utf8');
    expect(await ask(trusted, '127.0.0.1', 'localhost')).toBe('200');
    expect(await ask(trusted, '127.0.0.1', 'woodshed.local')).toBe('200');
    expect(await ask(trusted, '127.0.0.1', 'elsewhere.local')).toBe('ERR_TLS_CERT_ALTNAME_INVALID');
    expect(await ask(undefined, '127.0.0.1', 'localhost')).toBe('SELF_SIGNED_CERT_IN_CHAIN');
    await new Promise((resolve) => listening.close(resolve));
  });
});

describe('the names of a machine', () => {
  const address = (text: string, family: 'IPv4' | 'IPv6', internal = false) => ({
    address: text,
    family,
    internal,
    netmask: '',
    mac: '',
    cidr: null,
    scopeid: 0,
  });
  it('are its addresses in the local net and its host name, not what means nothing elsewhere', () => {
    const interfaces = {
      lo: [address('127.0.0.1', 'IPv4', true), address('::1', 'IPv6', true)],
      wlan0: [address('fe80::1', 'IPv6'), address('FD00::2', 'IPv6'), address('192.168.1.10', 'IPv4')],
    };
    expect(namesOfMachine({ host: 'WoodShed', interfaces: interfaces as never })).toEqual({
      addresses: ['192.168.1.10', 'fd00::2'],
      names: ['woodshed', 'woodshed.local'],
    });
    expect(namesOfMachine({ host: 'shed.farm.example', interfaces: {} }).names).toEqual([
      'shed.farm.example',
      'shed.local',
    ]);
    for (const host of ['localhost', '', 'my computer', '-x', 'a_b'])
      expect(namesOfMachine({ host, interfaces: {} }).names).toEqual([]);
  });
});
