// Runs the built program as a person or a script would: its own home, its own folder, no terminal unless asked.
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { onTestFinished } from 'vitest';

export const program = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));

export type Ran = Readonly<{ code: number | null; out: string; error: string }>;

export type Place = Readonly<{
  folder: string;
  path: (name: string) => string;
  env: NodeJS.ProcessEnv;
  /** Runs gapledger; words as the shell would give them. */
  run: (words: readonly string[], input?: string) => Ran;
  /** Runs it and expects exit code 0. */
  done: (words: readonly string[], input?: string) => string;
  /** Runs it with --json, expects exit code 0, and reads what it printed. */
  json: <T = Record<string, unknown>>(words: readonly string[]) => T;
}>;

/** An empty folder with a home of its own; commands there work on woods.logbook. */
export function emptyPlace(logbook = 'woods.logbook'): Place {
  return place(logbook, (remove) => {
    onTestFinished(remove);
  });
}

/** @param whenDone is told how the folder is taken away again */
function place(logbook: string, whenDone: (remove: () => void) => void): Place {
  if (!existsSync(program)) throw new Error('build the program first: npm run build');
  const folder = mkdtempSync(join(tmpdir(), 'gapledger-cli-'));
  whenDone(() => rmSync(folder, { recursive: true, force: true }));
  const path = (name: string) => join(folder, name);
  const env = {
    PATH: process.env.PATH,
    HOME: path('home'),
    GAPLEDGER_HOME: path('home'),
    GAPLEDGER_LOGBOOK: path(logbook),
    TZ: 'America/New_York',
    LANG: 'C.UTF-8',
  };
  const run: Place['run'] = (words, input = '') => {
    const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...words], {
      cwd: folder,
      env,
      input,
      encoding: 'utf8',
      maxBuffer: 64 * 1024 * 1024,
    });
    return { code: status, out: stdout, error: stderr };
  };
  const done: Place['done'] = (words, input) => {
    const { code, out, error } = run(words, input);
    if (code !== 0) throw new Error(`gapledger ${words.join(' ')} ended with ${code}: ${error}${out}`);
    return out;
  };
  return {
    folder,
    path,
    env,
    run,
    done,
    json: <T>(words: readonly string[]) => JSON.parse(done([...words, '--json'])) as T,
  };
}

/** The same with a logbook that has just been started. */
export function started(): Place {
  const place = emptyPlace();
  place.done(opening('woods.logbook'));
  return place;
}

/** The same with the invented woodlot. */
export function demo(): Place {
  return withDemo(emptyPlace('demo.logbook'));
}

function withDemo(at: Place): Place {
  at.done(['demo', 'demo.logbook']);
  return at;
}

let read: Place | undefined;

/** A demo that several tests read and none writes to: making one takes longer than asking it. */
export function demoToRead(): Place {
  read ??= withDemo(place('demo.logbook', (remove) => process.once('exit', remove)));
  return read;
}

/** Words that start a logbook. */
export function opening(file: string, more: Readonly<Record<string, string>> = {}): string[] {
  const flags = {
    name: 'Cold Spring woods',
    zone: 'America/New_York',
    units: 'us',
    crs: 'EPSG:2264',
    by: 'Ann Weaver',
    ...more,
  };
  return ['init', file, ...Object.entries(flags).flatMap(([name, value]) => [`--${name}`, value])];
}

/**
 * Runs gapledger at a pseudo-terminal made by util-linux' script. Each answer is typed once its prompt has come
 * up on the screen.
 */
export async function atTerminal(
  place: Place,
  words: readonly string[],
  answers: readonly (readonly [prompt: string, answer: string])[],
): Promise<{ code: number | null; screen: string }> {
  const quoted = [process.execPath, program, ...words].map((word) => `'${word.replaceAll("'", `'\\''`)}'`);
  const child = spawn('script', ['-qec', quoted.join(' '), '/dev/null'], {
    cwd: place.folder,
    env: { ...place.env, TERM: 'xterm' },
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  let screen = '';
  let from = 0;
  const left = [...answers];
  child.stdout.setEncoding('utf8');
  child.stdout.on('data', (text: string) => {
    screen += text;
    const [next] = left;
    const at = next === undefined ? -1 : screen.indexOf(next[0], from);
    if (next === undefined || at === -1) return;
    from = at + next[0].length;
    left.shift();
    child.stdin.write(next[1]);
  });
  const code = await new Promise<number | null>((resolve, reject) => {
    child.on('error', reject);
    child.on('close', resolve);
  });
  return { code, screen };
}
