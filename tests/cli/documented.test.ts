// Every command in the guides runs as it is printed there, from the top to the bottom of the page.
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { fileOf, markOf, phone } from '../record/phone.ts';
import { demo, emptyPlace, type Place, program, started } from './gapledger.ts';

type Printed = { command: string; answer: string[] };

const page = (name: string) => readFileSync(fileURLToPath(new URL(`../../${name}`, import.meta.url)), 'utf8');

/** The commands of a page with what it prints below them; a backslash goes on in the next line. */
function commandsOf(text: string): Printed[] {
  const printed: Printed[] = [];
  for (const [, language, block = ''] of text.matchAll(/^```(sh|console)\n([\s\S]*?)^```/gm)) {
    for (const line of block.replaceAll('\\\n', ' ').split('\n')) {
      if (line.trim() === '') continue;
      if (language === 'sh') printed.push({ command: line, answer: [] });
      else if (line.startsWith('$ ')) printed.push({ command: line.slice(2), answer: [] });
      else printed.at(-1)?.answer.push(line);
    }
  }
  // "npx gapledger" is the built program; what is begun and goes on, or holds a place to fill in, is for elsewhere.
  return printed
    .map(({ command, answer }) => ({ command: command.replace(/^npx (?=gapledger)/, ''), answer }))
    .filter(({ command }) => !/^gapledger serve|^npm|…/.test(command));
}

function typed(place: Place, command: string): { code: number | null; text: string } {
  const shell = `gapledger() { "${process.execPath}" "${program}" "$@"; }\n${command}`;
  const { status, stdout, stderr } = spawnSync('sh', ['-c', shell], {
    cwd: place.folder,
    env: place.env,
    input: '',
    encoding: 'utf8',
  });
  return { code: status, text: stdout + stderr };
}

/** What the page itself says of a command that asks. */
const asks = /# asks about/;

function follow(place: Place, commands: readonly Printed[]): void {
  for (const { command, answer } of commands) {
    const { code, text } = typed(place, command);
    expect(`${command}: ${code} ${code === 0 ? '' : text}`).toContain(
      `${command}: ${asks.test(command) ? 2 : 0}`,
    );
    for (const line of answer) expect(text).toContain(line.replace(/…$/, ''));
  }
}

it('docs/guide.md: from an empty logbook to a report', () => {
  const place = emptyPlace();
  const commands = commandsOf(page('docs/guide.md'));
  expect(commands.length).toBeGreaterThan(40);
  follow(place, commands);
  expect(place.done(['verify', '--logbook', 'restored.logbook'])).toContain('Verified');
}, 180_000);

it('README.md: a look round the demo, with what it prints', () => {
  const place = demo();
  const commands = commandsOf(page('README.md')).filter(({ command }) => !command.startsWith('export '));
  expect(commands.length).toBeGreaterThan(5);
  follow(place, commands);
}, 120_000);

it('docs/phone.md: the way by files', () => {
  const place = started();
  const jo = phone();
  writeFileSync(place.path('outbox.ndjson'), fileOf([jo.write('stem-marked', markOf('A1'))]));
  const commands = commandsOf(page('docs/phone.md'));
  expect(commands).toHaveLength(5);
  follow(place, commands);
}, 120_000);
