// From the desk's screen to flight mode: the real program in a process of its own, an address of this machine in a net,
// HTTPS that the browser verifies, a phone that is paired by the code, works without any network, and comes back.
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { namesOfMachine } from '../../../src/server/trust/index.ts';
import { demo } from '../../cli/gapledger.ts';
import { needs } from '../../needs.ts';
import { ownEntries } from '../screens/page.ts';
import { button, download, heading, mark, openPhone, serving, takeInHand } from './house.ts';

const [address] = namesOfMachine().addresses;
const long = 300_000;

type Logged = { kind: string; entry: { id: string; device: string; position: number } };
type Verified = { ok: boolean; size: number; notes: { signatures: Record<string, number> } };

const allSent = (page: Page) => page.getByText(/^All sent/).first();
const person = 'Ruth Calloway';

async function pair(page: Page, link: string): Promise<void> {
  await page.goto(link);
  await page.getByRole('link', { name: 'Open the field page' }).first().click();
  await heading(page, 'Pair with the logbook').waitFor();
  await page.getByLabel('Your name').fill(person);
  await page.getByLabel('What this phone is called').fill("Ruth's phone");
  await button(page, 'Pair').click();
  await heading(page, 'Today').waitFor();
}

describe.skipIf(address === undefined || !needs('chromium', 'certutil'))('A phone in the net', () => {
  test(
    'is led by the printed address to HTTPS, paired once, works in flight mode, and everything arrives signed',
    async () => {
      const woods = demo();
      const first = serving(woods, ['--lan', '--port', '0', '--tls-port', '0', '--by', person]);
      const [, link = '', code = ''] = await first.says(/^ {2}(http:\S+#code=(\S+))$/m);
      const [, field = '', tlsPort = ''] = await first.says(
        /^Phones that are paired open (https:\S+:(\d+)\/field\/)$/m,
      );
      expect(first.printed()).toContain(`Code for one recorder, for 10 minutes: ${code}`);

      const { context, page, errors } = await openPhone(woods.path('home/trust/authority.crt.pem'));
      await page.goto(link);
      // The phone shows the fingerprint that stands on the desk's screen.
      const shown = await page.locator('.fingerprint').first().textContent();
      const printed = /\(SHA-256\)[^\n]*\n\s+(\S+)\n\s+(\S+)/.exec(first.printed());
      expect(shown?.replaceAll(/[^0-9A-F]/g, '')).toBe(
        `${printed?.[1]}${printed?.[2]}`.replaceAll(/[^0-9A-F]/g, ''),
      );
      await pair(page, link);
      expect(page.url()).toContain(field);
      expect(page.url()).not.toContain('code');
      await first.says(/^Paired: "Ruth's phone" as recorder/m);
      // The next code is there at once, and it is another one.
      await first.says(new RegExp(`for 10 minutes: (?!${code})\\S+`));

      await takeInHand(page, 'G2');
      const tags = [await mark(page)];
      await allSent(page).waitFor();
      await page.evaluate('navigator.serviceWorker.ready.then(() => true)');

      expect(await first.end()).toBe(0);
      await context.setOffline(true);
      tags.push(await mark(page));
      await page.reload();
      await heading(page, 'Today').waitFor();
      tags.push(await mark(page));
      await page.close();
      const later = await context.newPage();
      await later.goto(field);
      await later.getByText(/^2 not sent/).waitFor();
      tags.push(await mark(later));
      expect(new Set(tags).size).toBe(4);

      const port = /^http:\/\/[^:]+:(\d+)/.exec(link)?.[1] ?? '';
      const words = ['--lan', '--port', port, '--tls-port', tlsPort, '--by', person];
      const second = serving(woods, words);
      await second.says(/^Code for one recorder/m);
      await context.setOffline(false);
      await allSent(later).waitFor({ timeout: 60_000 });

      const own = await ownEntries(later);
      const [device] = woods.json<{ devices: { device: string; role: string; signs: boolean }[] }>([
        'devices',
      ]).devices;
      expect(device).toMatchObject({ role: 'recorder', signs: true });
      const logged = woods.json<Logged[]>(['log']).filter(({ entry }) => entry.device === device?.device);
      expect(logged.map(({ entry }) => entry.id).sort()).toEqual(
        (own as unknown as { id: string }[]).map(({ id }) => id).sort(),
      );
      expect(logged.filter(({ kind }) => kind === 'stem-marked')).toHaveLength(4);
      const verified = woods.json<Verified>(['verify']);
      expect(verified.ok).toBe(true);
      expect(verified.notes.signatures).toMatchObject({ signed: logged.length, keyUnknown: 0 });
      expect(errors).toEqual([]);
      expect(await second.end()).toBe(0);
    },
    long,
  );

  test(
    'that was revoked says so, keeps what it has, and that goes by file; the audit asks about it',
    async () => {
      const woods = demo();
      const desk = serving(woods, ['--lan', '--port', '0', '--tls-port', '0', '--by', person]);
      const [, link = ''] = await desk.says(/^ {2}(http:\S+#code=\S+)$/m);
      const { page } = await openPhone(woods.path('home/trust/authority.crt.pem'));
      await pair(page, link);
      await takeInHand(page, 'G2');
      await allSent(page).waitFor();
      woods.done(['devices', 'revoke', "Ruth's phone", '--reason', 'lost in the woods', '--by', person]);
      expect(woods.done(['devices'])).toMatch(/Ruth's phone.*revoked/);

      const tag = await mark(page);
      await button(page, /1 not sent/).click();
      await heading(page, 'Sending').waitFor();
      await button(page, 'Send now').click();
      await page.getByText(/was revoked/).waitFor();
      await page.getByText(/^The logbook does not know this phone any more; 1 not sent/).waitFor();
      await page
        .getByText(/what is kept here stays/)
        .first()
        .waitFor();
      const file = await download(page, /Save the outbox/, woods);
      const before = woods.json<Logged[]>(['log']).length;
      expect(woods.done(['record', '--from', file])).toContain('1 recorded');
      const after = woods.json<Logged[]>(['log']);
      expect(after).toHaveLength(before + 1);
      expect(readFileSync(file, 'utf8')).toContain(after.at(-1)?.entry.id);
      expect(woods.done(['stand', '--group', 'G2'])).toContain(tag);
      expect(woods.json<Verified>(['verify']).ok).toBe(true);
      expect(woods.done(['findings'])).toMatch(/revoked/);
      await desk.end();
    },
    long,
  );

  test(
    'that came over plain HTTP is told in plain words what works and what does not, and that is so',
    async () => {
      const woods = demo();
      const desk = serving(woods, ['--lan', '--port', '0', '--tls-port', '0', '--by', person]);
      const [, link = ''] = await desk.says(/^ {2}(http:\S+)#code=\S+$/m);
      const { page, errors } = await openPhone();
      await page.goto(link);
      await page.getByText(/Does not work:/).waitFor();
      // The built program reads its own quotation marks as they were written (UTF-8).
      await page.getByText('(“gapledger record --from FILE”)').waitFor();
      await page.getByRole('link', { name: 'Open it over plain HTTP' }).click();
      await heading(page, 'Gapledger').waitFor();
      expect(await page.evaluate<boolean>('isSecureContext')).toBe(false);
      await page.getByText(/NOT trusted: no location, no signing/).waitFor();

      await button(page, /Pair with the logbook/).click();
      await page.getByLabel('One-time code').fill('7K2-XQ4-9FM');
      await page.getByLabel('Your name').fill(person);
      await page.getByLabel('What this phone is called').fill("Ruth's phone");
      await button(page, 'Pair').click();
      await page.getByText(/^Not paired\. The page did not come over HTTPS, so nothing is sent/).waitFor();
      const way = page.getByRole('link', { name: 'Show the way to a trusted connection' });
      expect(await way.getAttribute('href')).toBe('/trust/');

      // What works: recording, and the file.
      await page.goBack();
      await button(page, /Work by files/).click();
      const copy = woods.path('copy.jsonl');
      woods.done(['log', '--copy', copy]);
      await page.setInputFiles('input[type=file]', copy);
      await page.getByText(/Taken in: \d+ new/).waitFor();
      await page.getByLabel('Your name').fill(person);
      await page.getByLabel('What this phone is called').fill("Ruth's phone");
      await button(page, 'Begin').click();
      await heading(page, 'Today').waitFor();
      await takeInHand(page, 'G2');
      const tag = await mark(page);
      await button(page, /1 not sent/).click();
      await page.getByText(/NOT trusted/).waitFor();
      const file = await download(page, /Save the outbox/, woods);
      expect(woods.done(['record', '--from', file])).toMatch(/[1-9]\d* recorded/);
      expect(woods.done(['stand', '--group', 'G2'])).toContain(tag);
      expect(errors).toEqual([]);
      await desk.end();
    },
    long,
  );
});
