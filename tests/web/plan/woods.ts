// An invented group for plans: three stems in a row that lean to the east with a sapling before each, one that sounds hollow and
// whose lean nobody noted, and one far from all of them. Feet in EPSG:2264, whose axes are near enough to east and north.
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { program } from '../../cli/gapledger.ts';
import type { DayHouse } from '../day/house.ts';

export const group = 'P1';
export const row = ['P11', 'P12', 'P13'] as const;
export const hollow = 'P14';
/** 400 ft from the others, which are 60 ft tall: beyond two tree lengths, the distance of 29 CFR 1910.266(d)(6). It has conks. */
export const far = 'P15';

const at = (east: number, north: number) => `EPSG:2264 ${1_209_500 + east},${741_400 + north}`;

export async function layOutGroup({ record }: DayHouse): Promise<void> {
  await record('group-laid-out', { label: group, block: 'Lower bench' });
  const measures = { mark: 'cut', group, species: 'scarlet oak', height: '60 ft', dbh: '14 in' };
  const crown = { crownRadius: '7 ft', crownBase: '30 ft' };
  const lean = '1.5 ft at 90 true';
  for (const [place, tag] of row.entries())
    await record('stem-marked', { ...measures, ...crown, tag, lean, position: at(0, 25 * place) });
  await record('stem-marked', {
    ...measures,
    ...crown,
    tag: far,
    lean,
    decaySigns: ['conks'],
    position: at(0, 400),
  });
  await record('stem-marked', {
    ...measures,
    tag: hollow,
    decaySigns: ['hollow-sound'],
    position: at(-40, -50),
  });
  for (const [label, east, north] of [
    ['S11', 30, 14],
    ['S12', 30, 38],
    ['S13', 30, 66],
    ['S14', 30, -14],
  ] as const)
    await record('sapling-protected', { label, species: 'white oak', group, position: at(east, north) });
}

export type DeskPlan = Readonly<{
  plan: string;
  falls: readonly Readonly<{ label: string; stem: string; aim: { aim: number } }>[];
  aside: readonly Readonly<{ label: string }>[];
}>;

/** What the command line at the desk says of the group now. */
export function planAtTheDesk(house: DayHouse): DeskPlan {
  const home = join(house.path, '..', 'desk');
  const { stdout, stderr } = spawnSync(
    process.execPath,
    [program, 'plan', group, '--json', '--logbook', house.path],
    {
      env: { PATH: process.env.PATH, HOME: home, GAPLEDGER_HOME: home, TZ: 'America/New_York' },
      encoding: 'utf8',
      maxBuffer: 64 * 1024 * 1024,
    },
  );
  if (stdout === '') throw new Error(stderr);
  return JSON.parse(stdout) as DeskPlan;
}
