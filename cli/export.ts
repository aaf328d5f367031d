// gapledger export: map layers as files for desktop GIS.
import { join } from 'node:path';
import { nearest } from '../src/events/index.ts';
import {
  fileName,
  geoJsonText,
  layerNamed,
  layers,
  toGeoJson,
  viewOf,
  wantedCrs,
} from '../src/layers/index.ts';
import { headText } from '../src/log/entry/index.ts';
import { headAt } from '../src/record/index.ts';
import { tellCaution } from './cautions.ts';
import {
  type CommonOptions,
  counted,
  exitCodes,
  Failure,
  type MomentOptions,
  problemSentence,
  readMoment,
  say,
  sayJson,
  standAt,
  withLog,
  writeWhole,
} from './terminal/index.ts';

type Flags = CommonOptions & MomentOptions & { out?: string; crs?: string };

export async function work(names: string[], flags: Flags): Promise<void> {
  const chosen = names.length === 0 ? layers : names.map(findLayer);
  await withLog(flags, async (log) => {
    const moment = await readMoment(log, flags);
    const folded = await standAt(log, moment);
    const code = readCode(flags.crs, folded.stand.logbook?.body.crs);
    const head = headText(await headAt(log, moment));
    const view = viewOf(folded);
    const written = chosen.map((layer) => {
      const { collection, leftOut } = toGeoJson(layer, view, {
        head,
        ...(code === undefined ? {} : { crs: code }),
      });
      const path = join(flags.out ?? 'layers', fileName(layer, code));
      writeWhole(path, geoJsonText(collection, layer));
      return { layer: layer.name, path, features: collection.features.length, leftOut };
    });
    if (chosen.some(({ name }) => showsFelling.has(name))) tellCaution();
    if (flags.json) return sayJson({ head, crs: code ?? 'OGC:CRS84', written });
    for (const { path, features, leftOut } of written) {
      say(
        `${path}: ${counted(features, 'feature')}${leftOut.length === 0 ? '' : `, ${leftOut.length} left out:`}`,
      );
      for (const { label, why } of leftOut.slice(0, 5)) say(`  ${label}: ${why}`);
      if (leftOut.length > 5) say(`  and ${leftOut.length - 5} more; --json lists them all`);
    }
  });
}

/** Layers that show where stems fell. */
const showsFelling = new Set(['lays', 'stumps']);

function findLayer(name: string) {
  const layer = layerNamed(name);
  if (layer) return layer;
  const all = layers.map((known) => known.name);
  const near = nearest(name, all);
  throw new Failure(
    exitCodes.badInput,
    `layer "${name}": there is no such layer; ${near === undefined ? `there are ${all.join(', ')}` : `did you mean ${near}?`}`,
  );
}

function readCode(text: string | undefined, working: string | undefined): string | undefined {
  if (text === undefined) return undefined;
  const wanted = wantedCrs(text, working, '--crs');
  if (wanted.ok) return wanted.code;
  // The remedy names the code as it was read.
  throw new Failure(
    exitCodes.badInput,
    problemSentence({ field: '--crs', value: '', remedy: wanted.remedy }),
  );
}
