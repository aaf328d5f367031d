// The picture that "gapledger serve --lan" draws at a terminal, read by another's decoder as a phone's camera would.
import { spawn } from 'node:child_process';
import jsqr from 'jsqr';
import { describe, expect, it } from 'vitest';
import { namesOfMachine } from '../../src/server/trust/index.ts';
import { needs } from '../needs.ts';
import { demo, type Place, program } from './gapledger.ts';

/** Runs it at a pseudo-terminal made by util-linux' script until there is a code, then ends it by Ctrl+C. */
function screenOf(place: Place): Promise<string> {
  const words = [process.execPath, program, 'serve', '--lan', '--port', '0', '--tls-port', '0'];
  const by = ['--by', "'Ruth Calloway'"];
  const child = spawn('script', ['-qec', [...words, ...by].join(' '), '/dev/null'], {
    cwd: place.folder,
    env: { ...place.env, TERM: 'xterm' },
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  let screen = '';
  let told = false;
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    screen += text;
    if (told || !/#code=\S+\s/.test(screen)) return;
    told = true;
    child.stdin.write('\u0003');
  });
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', () => resolve(screen));
  });
}

/** Each character is two cells, one above the other; its colours are said: white on black. */
const cells: Readonly<Record<string, readonly [boolean, boolean]>> = {
  ' ': [false, false],
  '▀': [true, false],
  '▄': [false, true],
  '█': [true, true],
};

/** The picture as a camera sees it: 6 dots for each cell, white where the terminal is white. */
function seen(lines: readonly string[]): { dots: Uint8ClampedArray; width: number; height: number } {
  const light = lines.flatMap((line) => {
    const halves = line.split('').map((character) => cells[character] ?? [false, false]);
    return [halves.map(([upper]) => upper), halves.map(([, lower]) => lower)];
  });
  const scale = 6;
  const [width, height] = [(light[0]?.length ?? 0) * scale, light.length * scale];
  const dots = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) {
      const at = (y * width + x) * 4;
      const isLight = light[Math.floor(y / scale)]?.[Math.floor(x / scale)] === true;
      dots.fill(isLight ? 255 : 0, at, at + 3);
    }
  return { dots, width, height };
}

describe.skipIf(namesOfMachine().addresses.length === 0 || !needs('script'))(
  'serve --lan at a terminal',
  () => {
    it('draws the very address that it prints below', async () => {
      const screen = await screenOf(demo());
      const address = / {2}(http:\S+#code=\S+)/.exec(screen)?.[1] ?? '';
      // White on black, and back (ECMA-48, SGR).
      const [on, off] = ['\u001b[97;40m', '\u001b[0m'];
      const drawn = screen.split(/\r?\n/).filter((line) => line.startsWith(on));
      const lines = drawn.map((line) => line.slice(on.length, line.indexOf(off)));
      expect(lines.length).toBeGreaterThan(10);
      const { dots, width, height } = seen(lines);
      expect(jsqr.default(dots, width, height)?.data).toBe(address);
    }, 120_000);
  },
);
