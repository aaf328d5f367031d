// Which reference systems fit a block or a place, and what a zone as somebody wrote it may mean.
import { type CrsInfo, explainZone, type LonLat, proposeZones } from '../../place/index.ts';

export type ZonesAsked = Readonly<{
  places: readonly LonLat[];
  /** A zone as it was written somewhere, such as "17S". */
  zone?: string;
}>;

export type ZoneRow = Readonly<Pick<CrsInfo, 'code' | 'name' | 'unit' | 'note'>>;

export type ZonesFigures = Readonly<{
  utm: readonly ZoneRow[];
  statePlane: readonly ZoneRow[];
  /** What the zone that was asked about means; null where none was. */
  explained: string | null;
  remarks: readonly string[];
}>;

export function zonesFigures({ places, zone }: ZonesAsked): ZonesFigures {
  const { utm, statePlane, remarks } = proposeZones(places);
  const explained = zone === undefined ? null : explainZone(zone, places[0]);
  const row = ({ code, name, unit, note }: CrsInfo): ZoneRow => ({ code, name, unit, note });
  return {
    utm: utm.map(row),
    statePlane: statePlane.map(row),
    explained: explained === null ? null : explained.ok ? explained.words : `"${zone}": ${explained.remedy}.`,
    remarks: places.length === 0 ? [] : remarks,
  };
}
