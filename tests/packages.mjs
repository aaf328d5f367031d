// The Debian packages that tests lean on: found, installed where that is allowed, otherwise named.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import process from 'node:process';
import { run } from '../cli/prepare.mjs';

/** Each package with a program of it, by which it is recognised where there is no Debian package list. */
const packages = [
  { name: 'gdal-bin', program: 'ogrinfo', use: 'opens every exported layer' },
  { name: 'python3-gdal', program: 'gdal_merge.py', use: 'validates GeoPackage files' },
  { name: 'proj-bin', program: 'cs2cs', use: 'checks every projection' },
  { name: 'chromium', program: 'chromium', use: 'opens the pages' },
  { name: 'poppler-utils', program: 'pdftotext', use: 'reads printed reports' },
  { name: 'openssl', program: 'openssl', use: 'verifies the certificates of the local authority' },
  { name: 'libnss3-tools', program: 'certutil', use: 'lets Chromium trust the local authority' },
  { name: 'strace', program: 'strace', use: 'injects disk faults' },
  { name: 'tzdata', program: 'zdump', use: 'changes of clocks, against which times are read' },
  // Only needed where npm finds no ready-made SQLite binding for this machine.
  { name: 'g++', program: 'g++', use: 'compiles the SQLite binding' },
  { name: 'make', program: 'make', use: 'compiles the SQLite binding' },
  {
    name: 'python3',
    program: 'python3',
    use: 'reads time zones as a second opinion; compiles the SQLite binding',
  },
];

/**
 * Installs the packages that are missing when this is Debian (or made from it) and we are root.
 * @returns {{ missing: string[], failed: string }} what is missing afterwards, one line each, and how the
 *   installation failed ('' when it did not, or was not ours to do).
 */
export function providePackages() {
  let missing = packages.filter((entry) => !isInstalled(entry));
  let failed = '';
  if (missing.length > 0 && isDebian() && process.getuid?.() === 0) {
    failed = install(missing.map((entry) => entry.name));
    missing = packages.filter((entry) => !isInstalled(entry));
  }
  return { missing: missing.map((entry) => `${entry.name} (${entry.program}: ${entry.use})`), failed };
}

/** @param {readonly string[]} names */
function install(names) {
  console.log(`Installing Debian packages: ${names.join(' ')} …`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const failed = run('apt-get', ['update', '-qq'], env);
  // A stale list of one mirror does not keep the others from serving, so the installation is tried all the same.
  if (failed) console.log(`apt-get update failed (${failed}); trying with the package lists that are there.`);
  return run(
    'apt-get',
    ['install', '-y', '-qq', '-o', 'Dpkg::Use-Pty=0', '--no-install-recommends', ...names],
    env,
  );
}

/** @param {{ name: string, program: string }} entry */
function isInstalled({ name, program }) {
  const asked = spawnSync('dpkg', ['--status', name], { encoding: 'utf8' });
  if (asked.stdout?.includes('\nStatus: install ok installed\n')) return true;
  // No Debian, or the program came another way.
  return (process.env.PATH ?? '')
    .split(delimiter)
    .some((folder) => folder !== '' && existsSync(join(folder, program)));
}

function isDebian() {
  const release = '/etc/os-release';
  return existsSync(release) && /^ID(_LIKE)?=.*debian/m.test(readFileSync(release, 'utf8'));
}
