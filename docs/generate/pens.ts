// Drawing in metres: a picture of a part of the plane, and pens for circles, lines, sectors and words.
/** Pixels to a metre. */
export const PIXELS = 20;
export const round = (value: number) => Math.round(value * 100) / 100;

/** A picture of a part of the plane, in metres, with y upwards as on a map. */
export function picture(
  title: string,
  [west, south, east, north]: readonly [number, number, number, number],
  scale: number,
  body: readonly string[],
): string {
  const [width, height] = [(east - west) * scale, (north - south) * scale].map(round);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" font-family="sans-serif" font-size="14" role="img">`,
    `<title>${title}</title>`,
    `<rect width="${width}" height="${height}" fill="#fff"/>`,
    `<g transform="translate(${round(-west * scale)} ${round(north * scale)})" fill="none" stroke="#111" stroke-width="1.5">`,
    ...body,
    '</g>',
    '</svg>',
    '',
  ].join('\n');
}

/** Pens that draw in metres at a scale. */
export function pens(scale: number) {
  const at = (x: number, y: number) => `${round(x * scale)} ${round(-y * scale)}`;
  const out = (azimuth: number, length: number): readonly [number, number] => [
    length * Math.sin((azimuth * Math.PI) / 180),
    length * Math.cos((azimuth * Math.PI) / 180),
  ];
  return {
    at,
    out,
    circle: (x: number, y: number, radius: number, more = '') =>
      `<circle cx="${round(x * scale)}" cy="${round(-y * scale)}" r="${round(radius * scale)}" ${more}/>`,
    line: (from: readonly [number, number], to: readonly [number, number], more = '') =>
      `<path d="M${at(...from)} L${at(...to)}" ${more}/>`,
    sector: (bearing: number, half: number, length: number, more = '') => {
      const radius = round(length * scale);
      return `<path d="M0 0 L${at(...out(bearing - half, length))} A${radius} ${radius} 0 0 1 ${at(...out(bearing + half, length))} Z" ${more}/>`;
    },
    text: (x: number, y: number, words: string) =>
      `<text x="${round(x * scale)}" y="${round(-y * scale)}" fill="#111" stroke="none">${words}</text>`,
  };
}
