// `npm start`: from a fresh clone to a page in the browser. Installs, builds, makes the demo logbook where there
// is none, and serves it on this machine only. What follows `npm start --` is passed on to `gapledger serve`.
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync } from 'node:fs';
import { createServer } from 'node:net';
import { dirname, join } from 'node:path';
import { buildProgram, installPackages, program, root, run } from './prepare.mjs';

const host = '127.0.0.1';
const usualPort = 4747;
const demo = join(root, 'demo/woodlot.logbook');

try {
  installPackages();
  buildProgram();
  await serve(process.argv.slice(2));
} catch (error) {
  console.error(`npm start: ${error instanceof Error ? error.message : error}`);
  process.exitCode = 1;
}

/** @param {readonly string[]} further what was typed after `npm start --` */
async function serve(further) {
  const args = [...further];
  if (!has(args, '--logbook')) args.push('--logbook', demoLogbook());
  const port = has(args, '--port') ? undefined : await freePort();
  if (port !== undefined) args.push('--port', String(port));

  const server = spawn(process.execPath, [program, 'serve', ...args], {
    cwd: root,
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  // The server gets the time to close its logbook; this process ends when the server has. A terminal sends
  // Ctrl+C to both by itself, and a second one would tell the server to hurry.
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP'])) {
    process.on(signal, () => {
      if (!(signal === 'SIGINT' && process.stdin.isTTY)) server.kill(signal);
    });
  }
  let ended = false;
  server.on('error', (error) => {
    ended = true;
    console.error(`npm start: the server could not be started: ${error.message}`);
    process.exitCode = 1;
  });
  server.on('exit', (code, signal) => {
    ended = true;
    if (code)
      console.error(`npm start: the server ended with exit code ${code}. Its own message stands above.`);
    process.exitCode = code ?? (signal === 'SIGINT' || signal === 'SIGTERM' ? 0 : 1);
  });
  if (port !== undefined) await sayWhereToLook(`http://${host}:${port}/`, () => ended);
}

/** A logbook that is there is never touched: people try things out in it. */
function demoLogbook() {
  if (existsSync(demo)) return demo;
  console.log(`Making the demo logbook ${demo} …`);
  mkdirSync(dirname(demo), { recursive: true });
  const failed = run(process.execPath, [program, 'demo', demo]);
  if (failed)
    throw new Error(`the demo logbook could not be made (${failed}). Its own message stands above.`);
  return demo;
}

/**
 * @param {string} url
 * @param {() => boolean} isOver true once the server has gone, when there is nothing left to wait for
 */
async function sayWhereToLook(url, isOver) {
  while (!isOver()) {
    const answered = await fetch(url).then(
      () => true,
      () => false,
    );
    if (answered) return console.log(`\nGapledger is running. Open ${url} in a browser; Ctrl+C stops it.`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

/** @returns {Promise<number>} the usual port, or one the system picks where that is taken. */
async function freePort() {
  try {
    return await tryPort(usualPort);
  } catch {
    const other = await tryPort(0);
    console.log(`Port ${usualPort} is taken; using ${other}.`);
    return other;
  }
}

/**
 * @param {number} port
 * @returns {Promise<number>}
 */
function tryPort(port) {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(port, host, () => {
      const address = probe.address();
      const free = address !== null && typeof address === 'object' ? address.port : port;
      probe.close(() => resolve(free));
    });
  });
}

/**
 * @param {readonly string[]} args
 * @param {string} option
 */
function has(args, option) {
  return args.some((arg) => arg === option || arg.startsWith(`${option}=`));
}
