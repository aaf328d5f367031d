// The field page in the browser of the computer that keeps the logbook: paired there without a code, and then like a
// phone: what it records is signed, sent and known by its device.
import { expect, test } from 'vitest';
import { demo } from '../../cli/gapledger.ts';
import { needs } from '../../needs.ts';
import { button, heading, mark, openPhone, serving, takeInHand } from './house.ts';

type Device = { device: string; label: string; role: string; signs: boolean };

test.skipIf(!needs('chromium'))(
  'The desk pairs its own browser without a code, and nothing is sent before that',
  async () => {
    const woods = demo();
    const desk = serving(woods, ['--port', '0']);
    const [, address = ''] = await desk.says(/ is at (http:\S+)/);
    const { page, errors } = await openPhone();
    const asked: string[] = [];
    page.on('request', (request) => asked.push(new URL(request.url()).pathname));
    await page.goto(address);
    await page.getByRole('link', { name: 'To record here as on a phone' }).click();
    await heading(page, 'Gapledger').waitFor();
    // Without a word from the person the page asks the logbook for nothing.
    expect(asked.filter((path) => path.startsWith('/api/'))).toEqual([]);

    await button(page, /Pair with the logbook/).click();
    await page.getByText('not needed: this is the computer that keeps the logbook').waitFor();
    await page.getByLabel('Your name').fill('Ruth Calloway');
    await page.getByLabel('What this phone is called').fill('browser at the desk');
    await button(page, 'Pair').click();
    await heading(page, 'Today').waitFor();
    await takeInHand(page, 'G2');
    const tag = await mark(page);
    await page
      .getByText(/^All sent/)
      .first()
      .waitFor();

    expect(woods.json<{ devices: Device[] }>(['devices']).devices).toMatchObject([
      { label: 'browser at the desk', role: 'recorder', signs: true },
    ]);
    expect(woods.done(['stand', '--group', 'G2'])).toContain(tag);
    const { ok, notes } = woods.json<{ ok: boolean; notes: { signatures: object } }>(['verify']);
    expect(ok).toBe(true);
    expect(notes.signatures).toMatchObject({ signed: 1, keyUnknown: 0 });
    expect(errors).toEqual([]);
    expect(await desk.end()).toBe(0);
  },
  300_000,
);
