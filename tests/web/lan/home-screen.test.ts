// What a phone asks of a page before it puts it on the home screen: the manifest and the pictures, as the browser sees
// them where the page lies on a host of its own.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { emptyPlace } from '../../cli/gapledger.ts';
import { needs } from '../../needs.ts';
import { openPhone } from './house.ts';
import { staticHost } from './static-host.ts';

type Icon = { src: string; sizes: string; type: string; purpose: string };

const published = () => {
  const place = emptyPlace();
  place.done(['field-page', '--to', 'public']);
  return place;
};
/** Width and height of a PNG file: the first chunk, IHDR (W3C Portable Network Graphics, 11.2.1). */
function sizeOfPng(file: string): string {
  const bytes = readFileSync(file);
  expect(bytes.subarray(0, 8).toString('latin1')).toBe('\x89PNG\r\n\x1a\n');
  expect(bytes.subarray(12, 16).toString('latin1')).toBe('IHDR');
  return `${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`;
}

test('every picture is there, of the size that the manifest says', () => {
  const place = published();
  const folder = place.path('public');
  const { icons } = JSON.parse(readFileSync(join(folder, 'manifest.webmanifest'), 'utf8')) as {
    icons: Icon[];
  };
  const png = icons.filter(({ type }) => type === 'image/png');
  for (const { src, sizes } of png) expect(sizeOfPng(join(folder, src)), src).toBe(sizes);
  expect(png.map(({ sizes }) => sizes)).toEqual(expect.arrayContaining(['192x192', '512x512']));
  expect(icons.map(({ purpose }) => purpose)).toContain('maskable');
  expect(sizeOfPng(join(folder, 'icon-180.png'))).toBe('180x180');
  expect(readFileSync(join(folder, 'index.html'), 'utf8')).toMatch(
    /<link rel="apple-touch-icon" href="\.\/icon-180\.png"/,
  );
});

describe.skipIf(!needs('chromium', 'certutil'))('In Chromium', () => {
  test('nothing keeps the page from being installed', async () => {
    const place = published();
    const host = await staticHost(place.path('public'), place.path('host'));
    const { context, page } = await openPhone(host.authority);
    await page.goto(host.address);
    await page.evaluate('navigator.serviceWorker.ready.then(() => true)');
    const inspector = await context.newCDPSession(page);
    const { errors, manifest } = await inspector.send('Page.getAppManifest');
    expect(errors).toEqual([]);
    expect(manifest).toMatchObject({ display: 'kStandalone' });
    expect((await inspector.send('Page.getInstallabilityErrors')).installabilityErrors).toEqual([]);
  }, 120_000);

  test('where a phone cuts the shape itself, the picture is full to its corners', async () => {
    const place = published();
    const host = await staticHost(place.path('public'), place.path('host'));
    const { page } = await openPhone(host.authority);
    await page.goto(host.address);
    const corners = (name: string) =>
      page.evaluate<number[]>(`(async () => {
        const picture = await createImageBitmap(await (await fetch('./${name}')).blob());
        const canvas = new OffscreenCanvas(picture.width, picture.height);
        const paint = canvas.getContext('2d');
        paint.drawImage(picture, 0, 0);
        const edge = picture.width - 1;
        return [[0, 0], [edge, 0], [0, edge], [edge, edge]].map(([x, y]) => paint.getImageData(x, y, 1, 1).data[3]);
      })()`);
    for (const name of ['icon-180.png', 'icon-cut-512.png'])
      expect(await corners(name), name).toEqual([255, 255, 255, 255]);
    expect(await corners('icon-192.png')).toEqual([0, 0, 0, 0]);
    expect(host.notFound).toEqual([]);
  }, 120_000);
});
