// Places: stems held against a long boundary, and stems measured each from the one before, beside the bare geometry.
import { destination, isUnresolved, type LonLat, nearSideOf, project } from '../../src/place/index.ts';
import { fold, type LogEntry, locate } from '../../src/stand/index.ts';
import { deviceA, idOf, person } from '../log/invented.ts';
import { type BenchRow, interleaved } from './row.ts';

/** With less than three times the rate of a plain loop, boxes round the sides would not be worth their lines. */
const lineGoal = 3;
/** A link may cost twenty geodesics: reading what was entered, the error that grows, and a sentence for it are in it. */
const chainGoal = 0.05;

const centre: LonLat = { lon: -81.68, lat: 35.71 };

/** @param corners - of a boundary that winds round the stems */
export async function benchLines(stems: number, corners: number): Promise<BenchRow> {
  const ring = Array.from({ length: corners }, (_, corner) => {
    const azimuth = (corner * 360) / corners;
    return destination(centre, azimuth, 500 + 40 * Math.sin((17 * azimuth * Math.PI) / 180));
  });
  // A sunflower's angle spreads them evenly; some lie outside.
  const places = Array.from({ length: stems }, (_, index) =>
    destination(centre, (index * 137.508) % 360, 530 * Math.sqrt(index / stems)),
  );
  const seconds = await interleaved(
    {
      ours: () => () => {
        const nearSide = nearSideOf(ring);
        for (const at of places) nearSide(at);
      },
      bare: () => () => eachSide(ring, places),
    },
    5,
  );
  const [measured, baseline] = [stems / seconds.ours, stems / seconds.bare];
  return {
    what: `${stems.toLocaleString('en')} stems to the nearest of ${corners.toLocaleString('en')} sides of a boundary`,
    measured,
    unit: 'stems/s',
    against: 'looking at every side in a plane',
    baseline,
    ratio: measured / baseline,
    goal: `ratio ≥ ${lineGoal}`,
    met: measured / baseline >= lineGoal,
  };
}

/** The least that can be done without an index: every side, in a plane that is there already. */
function eachSide(ring: readonly LonLat[], places: readonly LonLat[]): number {
  const flat = (at: LonLat) => project('EPSG:32617', at);
  const corners = ring.map(flat);
  let sum = 0;
  for (const { x, y } of places.map(flat)) {
    let nearest = Number.POSITIVE_INFINITY;
    for (const [position, from] of corners.entries()) {
      const to = corners[position + 1] ?? corners[0] ?? from;
      const [along, up] = [to.x - from.x, to.y - from.y];
      const share = ((x - from.x) * along + (y - from.y) * up) / (along * along + up * up);
      const held = Math.max(0, Math.min(share, 1));
      nearest = Math.min(nearest, (x - from.x - held * along) ** 2 + (y - from.y - held * up) ** 2);
    }
    sum += nearest;
  }
  return sum;
}

/** @param links - stems, each measured from the one before; the first from a fix, or from the last in a circle */
export async function benchChain(links: number): Promise<BenchRow> {
  const { findings } = fold(chain(links, true));
  if (!findings.some(({ entries }) => entries.length >= links))
    throw new Error('A circle of offsets is no finding.');
  const seconds = await interleaved(
    {
      ours: () => {
        // Folded anew each time: places that were worked out once would be known already.
        const { stand } = fold(chain(links, false));
        return () => {
          const last = locate(stand).stem(idOf(links - 1, 'stem'));
          if (isUnresolved(last)) throw new Error(last.why);
        };
      },
      bare: () => () => {
        let at = centre;
        for (let link = 0; link < links; link += 1) at = destination(at, (link * 37) % 360, 5);
        return at;
      },
    },
    3,
  );
  const [measured, baseline] = [links / seconds.ours, links / seconds.bare];
  return {
    what: `${links.toLocaleString('en')} stems, each measured from the one before, placed`,
    measured,
    unit: 'stems/s',
    against: 'as many geodesics one after the other',
    baseline,
    ratio: measured / baseline,
    goal: `ratio ≥ ${chainGoal}`,
    met: measured / baseline >= chainGoal,
  };
}

function chain(links: number, isCircle: boolean): LogEntry[] {
  return Array.from({ length: links }, (_, link): LogEntry => {
    const at = new Date(Date.parse('2026-01-05T13:00:00Z') + link * 1000).toISOString();
    const azimuth = String((link * 37) % 360);
    const from = isCircle ? (link + links - 1) % links : link - 1;
    const position =
      from < 0
        ? { how: 'fix', lat: String(centre.lat), lon: String(centre.lon) }
        : {
            how: 'offset',
            from: { stem: idOf(from, 'stem') },
            azimuth: { text: `${azimuth} true`, value: azimuth, reference: 'true' },
            distance: { text: '5 m', value: '5', unit: 'm' },
          };
    return {
      id: idOf(link),
      type: 'stem-marked',
      v: 1,
      happenedAt: { at, precision: 'instant' },
      recordedAt: at,
      by: person,
      device: deviceA,
      seq: link + 1,
      body: { stem: idOf(link, 'stem'), mark: 'leave', tag: `A${link}`, position },
      position: link,
    };
  });
}
