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
      if (!system.datum.replaceAll(/[\s_]/g, '').toUpperCase().startsWith(datum)) return false;
      return agrees(system.code, { lon, lat }, point);
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

/** Datums that need no shift to WGS 84 beyond 1 to 2 m; others are left to the person. */
function datumOf(wkt: string): string | undefined {
  if (/WGS[_ ]?(19)?84/i.test(wkt)) return 'WGS84';
  if (/NAD[_ ]?(19)?83|North[_ ]American[_ ](Datum[_ ])?(of[_ ])?1983/i.test(wkt)) return 'NAD83';
  if (/ETRS[_ ]?(19)?89|European[_ ]Terrestrial[_ ]Reference/i.test(wkt)) return 'ETRS89';
  return undefined;
}
