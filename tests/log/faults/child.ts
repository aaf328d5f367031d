// Starting writers, and reading what they wrote down as acknowledged.
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll } from 'vitest';
import { bundleProgram } from '../../../cli/bundle.mjs';
import { root } from '../../../cli/prepare.mjs';

export type Task = Readonly<{
  path: string;
  /** File for what was acknowledged. */
  acknowledged: string;
  writer: number;
  /** Entries of a batch. */
  size: number;
  /** First batch, and how many. */
  first: number;
  count: number;
}>;

export type Ended = Readonly<{
  code: number | null;
  signal: NodeJS.Signals | null;
  said: string;
  errors: string;
}>;

export type Writer = Readonly<{
  child: ChildProcess;
  /** Its first batch is acknowledged, or it has ended. */
  writing: Promise<void>;
  ended: Promise<Ended>;
}>;

/** @param under - a program and its arguments that starts the writer, such as strace */
export type StartWriter = (task: Task, under?: readonly string[]) => Writer;

/**
 * Bundles the writer as the command line is bundled, before the tests of a file: it is started hundreds of times.
 * It stands among the packages, where Node finds SQLite.
 */
export function writers(): StartWriter {
  const cache = join(root, 'node_modules/.cache');
  let folder = '';
  beforeAll(async () => {
    mkdirSync(cache, { recursive: true });
    folder = mkdtempSync(join(cache, 'writer-'));
    await bundleProgram({ entry: join(import.meta.dirname, 'writer.ts'), outputFolder: folder, version: '' });
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return (task, under = []) => start(join(folder, 'main.js'), task, under);
}

function start(program: string, task: Task, under: readonly string[]): Writer {
  const { path, acknowledged, writer, size, first, count } = task;
  const numbers = [writer, size, first, count].map(String);
  const [command = '', ...words] = [...under, process.execPath, program, path, acknowledged, ...numbers];
  const child = spawn(command, words, { stdio: ['ignore', 'pipe', 'pipe'] });
  let [said, errors] = ['', ''];
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    errors += text;
  });
  const ended = new Promise<Ended>((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code, signal) => resolve({ code, signal, said: said.trim(), errors }));
  });
  const writing = new Promise<void>((resolve) => {
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      said += text;
      resolve();
    });
    child.on('close', () => resolve());
  });
  return { child, writing, ended };
}

/** Numbers of the batches that a writer wrote down, with what became of them. A last line without end counts not. */
export function acknowledgedIn(file: string): { number: number; outcomes: string }[] {
  if (!existsSync(file)) return [];
  return readFileSync(file, 'utf8')
    .split('\n')
    .slice(0, -1)
    .map((line) => {
      const [number = '', outcomes = ''] = line.split(' ');
      return { number: Number(number), outcomes };
    });
}
