// formats: bytes -> what the file holds. Which format it is follows from its first bytes, not from its name. Each parser is
// loaded when a file needs it.
import { ImportRefusal, limits, type Source } from '../source.ts';

/** A file by its name; a shapefile's parts stand beside it. */
export type FileBytes = Readonly<{
  name: string;
  bytes: Uint8Array;
  /** Gives a file that stands beside it with another ending (".dbf"), where there are files. */
  beside?: (ending: string) => Uint8Array | undefined;
  /** Which layer of a GeoPackage. */
  layer?: string | undefined;
}>;

/** @throws ImportRefusal for a file that is too large, damaged, or of a format that is not read */
export async function readSource(file: FileBytes): Promise<Source> {
  const { bytes, name } = file;
  if (bytes.length === 0) throw new ImportRefusal('file', name, 'is empty');
  if (bytes.length > limits.fileBytes)
    throw new ImportRefusal('file', name, `is larger than ${limits.fileBytes / 1e6} MB; divide it`);
  if (startsWith(bytes, 'PK')) return readZipped(file);
  if (startsWith(bytes, 'SQLite format 3\0')) {
    const { readGeoPackage } = await import('./geopackage.ts');
    return readGeoPackage(bytes, file.layer);
  }
  if (bytes[0] === 0 && bytes[1] === 0 && bytes[2] === 0x27 && bytes[3] === 0x0a) {
    const { readShapefile } = await import('./shapefile.ts');
    const beside = (ending: string) => file.beside?.(ending);
    return readShapefile({
      shp: bytes,
      dbf: beside('.dbf'),
      prj: await textIn(beside('.prj')),
      cpg: await textIn(beside('.cpg')),
    });
  }
  if (/\.(dbf|shx|prj|cpg)$/i.test(name))
    throw new ImportRefusal(
      'file',
      name,
      'is a part of a shapefile; give the .shp file, or all of them zipped',
    );
  return readText(bytes);
}

async function readText(bytes: Uint8Array): Promise<Source> {
  const { textOf } = await import('./text.ts');
  const text = textOf(bytes);
  const start = text.trimStart();
  if (start.startsWith('<')) return readXmlText(text);
  if (/^[{[]/.test(start)) {
    const { readGeoJson } = await import('./geojson.ts');
    return readGeoJson(text);
  }
  const { readTable } = await import('./table.ts');
  return readTable(text);
}

async function readXmlText(text: string): Promise<Source> {
  const { rootName } = await import('./xml.ts');
  const root = rootName(text);
  if (root === 'gpx') return (await import('./gpx.ts')).readGpx(text);
  if (root === 'kml') return (await import('./kml.ts')).readKml(text);
  throw new ImportRefusal('file', root ?? '', 'is XML, but neither GPX nor KML');
}

async function readZipped({ bytes, name }: FileBytes): Promise<Source> {
  const { unzip } = await import('./zip.ts');
  const members = unzip(bytes);
  const ending = (wanted: string) => [...members].filter(([member]) => member.toLowerCase().endsWith(wanted));
  const shapes = ending('.shp');
  const places = ending('.kml');
  const [shape] = shapes;
  if (shapes.length > 1)
    throw new ImportRefusal(
      'file',
      name,
      `holds ${shapes.length} shapefiles; zip the one that is wanted: ${shapes
        .map(([member]) => member)
        .join(', ')
        .slice(0, 300)}`,
    );
  if (shape !== undefined) {
    const stem = shape[0].slice(0, -4).toLowerCase();
    const part = (of: string) => [...members].find(([member]) => member.toLowerCase() === stem + of)?.[1];
    const { readShapefile } = await import('./shapefile.ts');
    return readShapefile({
      shp: shape[1],
      dbf: part('.dbf'),
      prj: await textIn(part('.prj')),
      cpg: await textIn(part('.cpg')),
    });
  }
  const [place] = places;
  if (place !== undefined) {
    const { textOf } = await import('./text.ts');
    const { readKml } = await import('./kml.ts');
    return readKml(textOf(place[1]));
  }
  const [only] = members;
  if (only !== undefined && members.size === 1 && !startsWith(only[1], 'PK'))
    return readSource({ name: only[0], bytes: only[1] });
  throw new ImportRefusal(
    'file',
    name,
    'is a zip file without a shapefile, a KML file or a single file of another format in it',
  );
}

async function textIn(bytes: Uint8Array | undefined): Promise<string | undefined> {
  if (bytes === undefined) return undefined;
  const { textOf } = await import('./text.ts');
  return textOf(bytes);
}

function startsWith(bytes: Uint8Array, text: string): boolean {
  return text === String.fromCharCode(...bytes.subarray(0, text.length));
}
