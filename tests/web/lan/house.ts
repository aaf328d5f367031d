// The real program with a logbook of its own that phones in the net of this machine may ask, and a browser whose person
// trusts its certificate authority or does not.
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { onTestFinished } from 'vitest';
import { type Place, program } from '../../cli/gapledger.ts';
import { programOnPath } from '../../needs.ts';

const phoneSize = { width: 360, height: 740 };

export type Serving = Readonly<{
  /** All that it has printed so far. */
  printed: () => string;
  /** Waits for words on its standard output, and gives the match. */
  says: (words: RegExp) => Promise<RegExpExecArray>;
  type: (line: string) => void;
  /** Ends it as Ctrl+C does; gives the exit code. */
  end: () => Promise<number | null>;
}>;

/** Starts "gapledger serve" as a person does; it ends with the test at the latest. */
export function serving(place: Place, words: readonly string[]): Serving {
  const child = spawn(process.execPath, [program, 'serve', ...words], { cwd: place.folder, env: place.env });
  let out = '';
  let error = '';
  const hearers = new Set<() => void>();
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    out += text;
    for (const hear of hearers) hear();
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => (error += text));
  const ended = endOf(child);
  void ended.then(() => {
    for (const hear of hearers) hear();
  });
  const end = () => {
    child.kill('SIGINT');
    return ended;
  };
  onTestFinished(async () => {
    await end();
  });
  return {
    printed: () => out,
    says: (words) =>
      new Promise((resolve, reject) => {
        const hear = () => {
          const match = words.exec(out);
          if (match === null && child.exitCode === null) return;
          hearers.delete(hear);
          if (match === null) reject(new Error(`serve ended without ${String(words)}: ${error}${out}`));
          else resolve(match);
        };
        hearers.add(hear);
        hear();
      }),
    type: (line) => child.stdin.write(`${line}\n`),
    end,
  };
}

function endOf(child: ChildProcess): Promise<number | null> {
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', resolve);
  });
}

/** A phone's browser with a profile of its own, which lives on when the page is closed. */
export type Phone = Readonly<{ context: BrowserContext; page: Page; errors: string[] }>;

/**
 * Opens a browser as a person would have it.
 * @param authority PEM file of the certificate authority that this person trusts
 */
export async function openPhone(authority?: string): Promise<Phone> {
  const person = mkdtempSync(join(tmpdir(), 'gapledger-person-'));
  onTestFinished(() => rmSync(person, { recursive: true, force: true }));
  if (authority !== undefined) trust(person, authority);
  const context = await chromium.launchPersistentContext(join(person, 'profile'), {
    executablePath: programOnPath('chromium'),
    args: ['--no-sandbox', '--disable-quic', '--disable-background-networking'],
    env: { PATH: process.env.PATH ?? '', HOME: person },
    viewport: phoneSize,
    hasTouch: true,
    locale: 'en-US',
    timezoneId: 'America/New_York',
    reducedMotion: 'reduce',
    acceptDownloads: true,
  });
  onTestFinished(() => context.close());
  context.setDefaultTimeout(30_000);
  const page = context.pages()[0] ?? (await context.newPage());
  const errors: string[] = [];
  page.on('pageerror', ({ message }) => errors.push(message));
  return { context, page, errors };
}

/** Chromium on Linux reads the authorities that a person trusts from the NSS database of the home folder. */
function trust(person: string, authority: string): void {
  const database = join(person, '.pki/nssdb');
  mkdirSync(database, { recursive: true });
  execFileSync('certutil', ['-d', `sql:${database}`, '-N', '--empty-password']);
  execFileSync(
    'certutil',
    ['-d', `sql:${database}`, '-A', '-t', 'C,,', '-n', 'gapledger', '-i'].concat(authority),
  );
}

export const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
export const heading = (page: Page, name: string) => page.getByRole('heading', { level: 1, name });

/** Takes a group in hand. */
export async function takeInHand(page: Page, group: string): Promise<void> {
  await button(page, /Group in hand/).click();
  await button(page, new RegExp(`^${group}`)).click();
  await heading(page, 'Today').waitFor();
}

/** Marks the next stem to be cut and comes back to Today; gives its tag. */
export async function mark(page: Page): Promise<string> {
  await button(page, 'Mark').click();
  const [, tag = ''] = /Next tag: (\w+)/.exec((await button(page, /Next tag/).textContent()) ?? '') ?? [];
  await button(page, 'Cut').click();
  const kept = page.getByText(/^Kept: \w+ marked to be cut/);
  await kept.waitFor();
  const said = (await kept.textContent()) ?? '';
  // A screen that has just saved takes no touch for a moment: it may be the same glove.
  await page.waitForTimeout(800);
  await button(page, 'Back to today').click();
  await heading(page, 'Today').waitFor();
  return /^Kept: (\w+)/.exec(said)?.[1] ?? tag;
}

/** Saves what a touch downloads; gives the path of the file. */
export async function download(page: Page, name: RegExp, place: Place): Promise<string> {
  const [file] = await Promise.all([page.waitForEvent('download'), button(page, name).click()]);
  const path = place.path(file.suggestedFilename());
  await file.saveAs(path);
  return path;
}
