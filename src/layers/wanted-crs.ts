// In which reference system somebody wants the layers: read the same way for the command line and the server.
import { crs, whyNotCrs } from '../place/index.ts';

export type WantedCrs = Readonly<{ ok: true; code: string } | { ok: false; remedy: string }>;

/** Codes of latitude and longitude, which layers have without being asked. */
const geographic = /^(EPSG:)?4326$|^(OGC:)?CRS:?84$/i;

/**
 * Reads the code of a projected system.
 *
 * @param text - an EPSG code, or `working` for the logbook's own
 * @param working - working CRS of the logbook, where it has one
 * @param name - what leaving the value out is called where it was typed, such as `--crs`
 */
export function wantedCrs(text: string, working: string | undefined, name: string): WantedCrs {
  const written = text.trim();
  if (geographic.test(written)) return { ok: false, remedy: `leave ${name} out for longitude and latitude.` };
  const code = written.toLowerCase() === 'working' ? working : written;
  if (code === undefined)
    return { ok: false, remedy: 'this logbook has no working CRS; give a code such as EPSG:2264.' };
  const info = crs(code);
  return info === undefined ? { ok: false, remedy: whyNotCrs(code) } : { ok: true, code: info.code };
}
