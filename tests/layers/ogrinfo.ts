// What GDAL says about a file. Its text is read and not its JSON, which only came with GDAL 3.7.
import { spawnSync } from 'node:child_process';

export type Seen = Readonly<{
  name: string;
  geometry: string;
  count: number;
  /** West or left, south or bottom, east or right, north or top; absent for an empty layer. */
  extent?: readonly number[];
  /** Authority code of the reference system: the last ID of its WKT. */
  srs?: string;
  fields: Readonly<Record<string, string>>;
  /** Of every feature, its fields as text; those without a value are missing. */
  features: readonly Readonly<Record<string, string>>[];
}>;

/** Opens a file with ogrinfo and reads its one layer. */
export function ogrinfo(file: string): Seen {
  const { stdout, stderr, status } = spawnSync('ogrinfo', ['-ro', '-al', '-wkt_format', 'WKT2', file], {
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
  });
  if (status !== 0) throw new Error(`ogrinfo ${file}: ${stderr}${stdout}`);
  if (stderr.trim() !== '') throw new Error(`ogrinfo ${file} warns: ${stderr}`);
  const [head = '', ...features] = stdout.split(/^OGRFeature\(.*$/m);
  const extent = /^Extent: \((\S+), (\S+)\) - \((\S+), (\S+)\)$/m.exec(head)?.slice(1).map(Number);
  const srs = [...head.matchAll(/ID\["EPSG",(\d+)\]\]$/gm)].at(-1)?.[1];
  return {
    name: line(head, 'Layer name'),
    geometry: line(head, 'Geometry'),
    count: Number(line(head, 'Feature Count')),
    ...(extent === undefined ? {} : { extent }),
    ...(srs === undefined ? {} : { srs: `EPSG:${srs}` }),
    fields: pairs(head, /^(\w+): (\w+(?:\(\w+\))?) \(\d+\.\d+\)/gm),
    features: features.map((text) => pairs(text, /^ {2}(\w+) \(\w+(?:\(\w+\))?\) = (?!\(null\)$)(.*)$/gm)),
  };
}

function line(text: string, name: string): string {
  const found = new RegExp(`^${name}: (.*)$`, 'm').exec(text)?.[1];
  if (found === undefined) throw new Error(`ogrinfo says no ${name}.`);
  return found;
}

function pairs(text: string, pattern: RegExp): Readonly<Record<string, string>> {
  const found = [...text.matchAll(pattern)].map(([, name = '', value = '']) => [name, value] as const);
  return Object.fromEntries(found);
}
