// The way by files: the page as static files on a host with HTTPS that knows no logbook, a copy carried to the phone, the
// outbox carried back, and a fresh copy that confirms. No server of the logbook runs at any time.
import { writeFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { openLogbook } from '../../../src/log/store/index.ts';
import { demo, type Place } from '../../cli/gapledger.ts';
import { needs } from '../../needs.ts';
import { button, download, heading, mark, openPhone, takeInHand } from './house.ts';
import { staticHost } from './static-host.ts';

const long = 300_000;

type Logged = { kind: string; entry: { id: string; device: string; position: number; sealed?: string[] } };
type Verified = { ok: boolean; notes: Record<string, unknown> };

async function takeIn(page: Page, file: string): Promise<string> {
  await page.setInputFiles('input[type=file]', file);
  const said = page.getByText(/Taken in: |Not taken in: /);
  await said.waitFor();
  return (await said.textContent()) ?? '';
}

/** The first start of a phone that works by files. */
async function begin(page: Page, address: string, who: { person: string; label: string; copy: string }) {
  await page.goto(address);
  await button(page, /Work by files/).click();
  expect(await takeIn(page, who.copy)).toMatch(/Taken in: \d+ new/);
  await page.getByLabel('Your name').fill(who.person);
  await page.getByLabel('What this phone is called').fill(who.label);
  await button(page, 'Begin').click();
  await heading(page, 'Today').waitFor();
}

async function openSending(page: Page): Promise<void> {
  await button(page, /Open Sending/).click();
  await heading(page, 'Sending').waitFor();
}

function copyOf(woods: Place, name: string): string {
  const file = woods.path(name);
  woods.done(['log', '--copy', file]);
  return file;
}

/** A picture, drawn in the page, as a camera would hand it over. */
async function takePhoto(page: Page, woods: Place): Promise<void> {
  const drawn = await page.evaluate<string>(`new Promise((resolve) => {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [2400, 1800];
    const paint = canvas.getContext('2d');
    paint.fillStyle = '#3f5a2e';
    paint.fillRect(0, 0, 2400, 1800);
    resolve(canvas.toDataURL('image/jpeg'));
  })`);
  const file = woods.path('stump.jpg');
  writeFileSync(file, Buffer.from(drawn.split(',')[1] ?? '', 'base64'));
  await button(page, 'Other work').click();
  await button(page, 'Take a photo').click();
  await page.setInputFiles('input[type=file]', file);
  await page.getByText(/1,600 × 1,200/).waitFor();
  await button(page, 'Keep the photo').click();
  await heading(page, 'Today').waitFor();
}

/** The bytes under a hash in the logbook, as the reader of a report would get them. */
async function rowIn(woods: Place, hash: string): Promise<Uint8Array | undefined> {
  const log = await openLogbook(woods.path('demo.logbook'), { readOnly: true });
  try {
    return (await log.sealed(hash))?.bytes;
  } finally {
    await log.close();
  }
}

describe.skipIf(!needs('chromium', 'certutil'))('By files', () => {
  test(
    'a copy goes out, the outbox comes back with the photo, and only a fresh copy calls it sent',
    async () => {
      const woods = demo();
      const copied = woods.done(['field-page', '--to', 'public']);
      expect(copied).toMatch(/files copied to public/);
      const host = await staticHost(woods.path('public'), woods.path('host'));
      const { context, page, errors } = await openPhone(host.authority);
      const copy = copyOf(woods, 'for-the-phone.jsonl');
      await begin(page, host.address, { person: 'Ruth Calloway', label: "Ruth's phone", copy });
      await takeInHand(page, 'G2');
      await page.evaluate('navigator.serviceWorker.ready.then(() => true)');

      await host.close();
      await context.setOffline(true);
      const tags = [await mark(page)];
      await page.reload();
      await heading(page, 'Today').waitFor();
      tags.push(await mark(page));
      await takePhoto(page, woods);

      await openSending(page);
      await page.getByText('This phone is not paired: entries go to the desk as a file.').waitFor();
      const waiting = Number(
        /(\d+) entries/.exec((await page.locator('.tag-large').textContent()) ?? '')?.[1],
      );
      expect(waiting).toBeGreaterThanOrEqual(3);
      const outbox = await download(page, /Save the outbox/, woods);
      // What was saved as a file has not arrived anywhere yet.
      expect(await page.locator('.tag-large').textContent()).toBe(`${waiting} entries`);

      const before = woods.json<Logged[]>(['log']).length;
      expect(woods.done(['record', '--from', outbox, '--dry-run'])).toContain(`${waiting} would be recorded`);
      expect(woods.json<Logged[]>(['log'])).toHaveLength(before);
      expect(woods.done(['record', '--from', outbox])).toContain(`${waiting} recorded, 0 already recorded`);
      expect(woods.done(['record', '--from', outbox])).toContain(`0 recorded, ${waiting} already recorded`);
      const after = woods.json<Logged[]>(['log']);
      expect(after).toHaveLength(before + waiting);
      const stand = woods.done(['stand', '--group', 'G2']);
      for (const tag of tags) expect(stand).toContain(tag);

      const [hash = ''] =
        after.find(({ kind, entry }) => kind === 'photo-taken' && entry.position >= before)?.entry.sealed ??
        [];
      const picture = await rowIn(woods, hash);
      // A JPEG file begins with FF D8 FF (ISO/IEC 10918-1, markers SOI and the next one).
      expect(Buffer.from(picture ?? []).toString('hex')).toMatch(/^ffd8ff/);
      const verified = woods.json<Verified>(['verify']);
      expect(verified.ok).toBe(true);

      expect(await takeIn(page, copyOf(woods, 'back.jsonl'))).toContain(`${waiting} of this phone confirmed`);
      await page.getByText(`${waiting} of this phone in the logbook`).waitFor();
      expect(await page.locator('.tag-large').textContent()).toBe('0 entries');
      // Twice is harmless.
      await page.reload();
      expect(await takeIn(page, woods.path('back.jsonl'))).toMatch(
        /0 new entries, 0 of this phone confirmed/,
      );
      expect(errors).toEqual([]);
      // A page by files asks the host for nothing but its own files.
      expect(host.notFound).toEqual([]);
    },
    long,
  );

  test(
    'the whole copy of one phone is taken in by another, which then can bring it to the desk',
    async () => {
      const woods = demo();
      woods.done(['field-page', '--to', 'public']);
      const host = await staticHost(woods.path('public'), woods.path('host'));
      const copy = copyOf(woods, 'for-the-phones.jsonl');
      const ann = await openPhone(host.authority);
      await begin(ann.page, host.address, { person: 'Ruth Calloway', label: "Ruth's phone", copy });
      await takeInHand(ann.page, 'G2');
      const tag = await mark(ann.page);
      await openSending(ann.page);
      const whole = await download(ann.page, /Save everything/, woods);

      const jo = await openPhone(host.authority);
      await begin(jo.page, host.address, { person: 'Jo Sawyer', label: "Jo's phone", copy: whole });
      await takeInHand(jo.page, 'G2');
      await button(jo.page, 'It is down').click();
      await jo.page.getByText(tag, { exact: true }).first().waitFor();
      await button(jo.page, 'Back to today').click();
      await mark(jo.page);
      await openSending(jo.page);
      const everything = await download(jo.page, /Save everything/, woods);

      const before = woods.json<Logged[]>(['log']);
      const said = woods.done(['record', '--from', everything]);
      expect(said).toContain(`${before.length} already recorded, 0 in conflict, 0 unreadable`);
      const devices = new Set(
        woods
          .json<Logged[]>(['log'])
          .slice(before.length)
          .map(({ entry }) => entry.device),
      );
      expect(devices.size).toBe(2);
      expect(woods.done(['stand', '--group', 'G2'])).toContain(tag);
      expect(woods.json<Verified>(['verify']).ok).toBe(true);
      expect([...ann.errors, ...jo.errors]).toEqual([]);
    },
    long,
  );
});
