// gapledger init: starts a logbook.
import { createLogbook, mustBePlaceable, remember } from '../src/log/store/index.ts';
import { nearestZones } from '../src/place/index.ts';
import { openBook, sitDown } from '../src/record/index.ts';
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

  const device = { device: outside.newId(), counter: { last: 0 } };
  // Looked at before there is a file, so that bad input leaves nothing behind.
  const log = await createLogbook(file);
  const desk = sitDown(log, device, outside);
  try {
    const opened = await openBook(desk, { logbook: typed, person: who });
    if (!opened.ok) {
      const sentences = opened.problems.map((problem) => problemSentence(problem));
      throw new Failure(exitCodes.badInput, sentences.join('\n'), { problems: opened.problems });
    }
    const head = await log.head();
    const logbook = log.facts().logbook ?? '';
    remember(log.facts().path, logbook, {
      device: desk.device,
      person: opened.person,
      lastSeq: desk.counter.last,
      lastHead: head,
    });
    if (flags.json) sayJson({ file, logbook, head });
    else {
      say(`Started ${file}.`);
      say(`Next: gapledger record block-laid-out --logbook ${file} --name "North cove"`);
      say(`      gapledger record stem-marked --logbook ${file} --mark cut --tag A1`);
    }
  } catch (error) {
    await log.close();
    if (error instanceof Failure) await removeEmpty(file);
    throw error;
  }
  await log.close();
}

async function removeEmpty(file: string): Promise<void> {
  const { rmSync } = await import('node:fs');
  for (const ending of ['', '-wal', '-shm']) rmSync(`${file}${ending}`, { force: true });
}

async function complete(flags: Flags): Promise<Flags> {
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
    if (answers[flag] !== undefined) continue;
    if (!canAsk())
      throw new Failure(
        exitCodes.badInput,
        `--${flag} is needed: ${question.charAt(0).toLowerCase()}${question.slice(1)}.`,
      );
    answers[flag] = await ask(question, fallback);
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
