// Which of the shipped systems a .prj file means. Its names differ from program to program, so what counts is what it
// computes: the system of the same datum that takes the file's first point to the same place within a centimetre.
import proj4 from 'proj4';
import { listCrs, PlaceError, project } from '../../../place/index.ts';

/** "lonlat", an EPSG code, or undefined where none of the shipped systems computes the same. */
export function crsOfWkt(wkt: string, point: { x: number; y: number } | undefined): string | undefined {
  const text = wkt.trim();
  const datum = datumOf(text);
  if (/^GEOG/i.test(text)) return datum === undefined ? undefined : 'lonlat';
  const said = /(?:AUTHORITY|ID)\["EPSG",\s*"?(\d{4,6})"?\]\s*\]\s*$/i.exec(text)?.[1];
  if (said !== undefined) return `EPSG:${said}`;
  if (datum === undefined || point === undefined) return undefined;
  try {
    const [lon, lat] = proj4(text).inverse([point.x, point.y]);
    return listCrs().find((system) => {
      return system.datum === datum && agrees(system.code, { lon, lat }, point);
    })?.code;
  } catch {
    // proj4 throws plain text for what it cannot read: such a file names no system that is known here.
    return undefined;
  }
}

function agrees(code: string, at: { lon: number; lat: number }, point: { x: number; y: number }): boolean {
  try {
    const { x, y } = project(code, at);
    return Math.hypot(x - point.x, y - point.y) < 0.01;
  } catch (error) {
    if (error instanceof PlaceError) return false;
    throw error;
  }
}

/** The datum by its name in the table of shipped systems; realisations of one datum are different ones there. */
function datumOf(wkt: string): string | undefined {
  const name = /DATUM\s*\[\s*"([^"]*)"/i
    .exec(wkt)?.[1]
    ?.toUpperCase()
    .replace(/^D_/, '')
    .replaceAll(/[^A-Z0-9]/g, '');
  return name === undefined ? undefined : datums[name];
}

/** Names that programs write for a datum, without capitals and signs. */
const datums: Readonly<Record<string, string>> = {
  WGS84: 'WGS 84',
  WGS1984: 'WGS 84',
  WORLDGEODETICSYSTEM1984: 'WGS 84',
  WORLDGEODETICSYSTEM1984ENSEMBLE: 'WGS 84',
  NAD83: 'NAD83',
  NORTHAMERICAN1983: 'NAD83',
  NORTHAMERICANDATUM1983: 'NAD83',
  NAD832011: 'NAD83(2011)',
  NAD19832011: 'NAD83(2011)',
  NAD83NATIONALSPATIALREFERENCESYSTEM2011: 'NAD83(2011)',
  ETRS89: 'ETRS89',
  ETRS1989: 'ETRS89',
  EUROPEANTERRESTRIALREFERENCESYSTEM1989: 'ETRS89',
  EUROPEANTERRESTRIALREFERENCESYSTEM1989ENSEMBLE: 'ETRS89',
  SWEREF99: 'SWEREF99',
  RGF1993: 'RGF93 v1',
  RESEAUGEODESIQUEFRANCAIS1993: 'RGF93 v1',
  NZGD2000: 'NZGD2000',
  NEWZEALANDGEODETICDATUM2000: 'NZGD2000',
  GDA2020: 'GDA2020',
  GEOCENTRICDATUMOFAUSTRALIA2020: 'GDA2020',
};
