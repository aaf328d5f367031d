// gapledger init: starts a logbook.
import { createLogbook, mustBePlaceable, remember } from '../src/log/store/index.ts';
import { nearestZones } from '../src/place/index.ts';
import { appendOpening, type OpeningRead, readOpening, sitDown } from '../src/record/index.ts';
import { kebab } from './record-flags.ts';
import { ask, canAsk, exitCodes, Failure, outside, problemSentence, say, sayJson } from './terminal/index.ts';

type Flags = {
  name?: string;
  zone?: string;
  units?: string;
  crs?: string;
  near?: string;
  breastHeight?: string;
  declination?: string;
  by?: string;
  json?: boolean;
};

export async function work([file = '']: string[], flags: Flags): Promise<void> {
  if (flags.near !== undefined && flags.crs === undefined) return propose(flags.near, flags.json === true);
  mustBePlaceable(file);
  const answers = await complete(flags);
  const { name, zone, units, crs: code, breastHeight, declination } = answers;
  const typed = Object.fromEntries(
    Object.entries({ name, zone, units, crs: code, breastHeight, declination }).filter(
      ([, value]) => value !== undefined,
    ),
  );
  const who = { name: answers.by ?? '', part: 'owner' };
  // Looked at before there is a file, so that bad input leaves nothing behind.
  const reading = readOpening(outside, { logbook: typed, person: who });
  if (!reading.ok) {
    const { problems } = reading;
    const sentences = problems.map((problem) => problemSentence(problem, flagOf(problem.field)));
    if (problems.some(({ field }) => field === 'crs'))
      sentences.push(`"gapledger init ${file} --near LAT,LON" proposes a CRS.`);
    throw new Failure(exitCodes.badInput, sentences.join('\n'), { problems });
  }
  await start(file, reading.read, flags.json === true);
}

async function start(file: string, opening: OpeningRead, json: boolean): Promise<void> {
  const log = await createLogbook(file);
  try {
    const desk = sitDown(log, { device: outside.newId(), counter: { last: 0 } }, outside);
    const person = await appendOpening(desk, opening);
    const head = await log.head();
    const logbook = log.facts().logbook ?? '';
    remember(log.facts().path, logbook, {
      device: desk.device,
      person,
      lastSeq: desk.counter.last,
      lastHead: head,
    });
    if (json) sayJson({ file, logbook, head });
    else {
      say(`Started ${file}.`);
      say(`Next: gapledger record block-laid-out --logbook ${file} --name "North cove"`);
      say(`      gapledger record stem-marked --logbook ${file} --mark cut --tag A1`);
    }
  } finally {
    await log.close();
  }
}

/** What the person is called is --by; all else has the name of its flag. */
function flagOf(field: string): string {
  return field === 'person.name' ? '--by' : `--${kebab(field)}`;
}

/** Asks for what was left out; where nobody can be asked, the reading names all of it. */
async function complete(flags: Flags): Promise<Flags> {
  if (!canAsk()) return flags;
  const zoneHere = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const wanted = [
    ['name', 'What the property is called', ''],
    ['zone', 'Time zone of the woods', zoneHere],
    ['units', 'Units of bare numbers, us or metric', 'us'],
    ['crs', 'Working CRS, such as EPSG:2264 ("gapledger init FILE --near LAT,LON" proposes one)', ''],
    ['by', 'Your name', ''],
  ] as const;
  const answers: Flags = { ...flags };
  for (const [flag, question, fallback] of wanted) {
    answers[flag] ??= await ask(question, fallback);
  }
  return answers;
}

/** Reference systems that fit a place, to choose one from. */
function propose(near: string, json: boolean): void {
  const [lat, lon] = near.split(',').map(Number);
  if (lat === undefined || lon === undefined || !(Math.abs(lat) <= 90) || !(Math.abs(lon) <= 180)) {
    throw new Failure(
      exitCodes.badInput,
      `--near "${near}": write latitude and longitude in degrees, such as 35.7121,-81.6834.`,
    );
  }
  const { utm, statePlane } = nearestZones({ lon, lat });
  const fitting = [...utm, ...statePlane];
  if (fitting.length === 0)
    throw new Failure(exitCodes.badInput, `--near "${near}": no system that is shipped fits this place.`);
  if (json) {
    sayJson(fitting);
    return;
  }
  say('These fit the place; start the logbook with one of them as --crs:');
  for (const { code, name, unit } of fitting) say(`  ${code}  ${name} (${unit})`);
}
