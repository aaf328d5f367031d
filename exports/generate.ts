// Makes everything in this folder from the demo logbook: npm run generate. For reading, not for testing the
// program against itself; the check that it has not drifted only keeps it true.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { writeDemo } from '../cli/demo.ts';
import { sheetLines } from '../cli/sheet.ts';
import { cautions, planAsked, planJson } from '../src/felling/index.ts';
import { fileName, geoJsonText, layers, toGeoJson, viewOf } from '../src/layers/index.ts';
import { headText } from '../src/log/entry/index.ts';
import { createLogbook, verifyLogbook } from '../src/log/store/index.ts';
import { knownNames, loadAll } from '../src/record/index.ts';
import {
  emergencyCard,
  fellingMap,
  harvestReport,
  planSheet,
  renderEmergencyCard,
  renderFellingMap,
  renderFellingMapPdf,
  renderHtml,
} from '../src/reports/index.ts';
import { findThing, fold, standJson } from '../src/stand/index.ts';

const here = new URL('./', import.meta.url).pathname;
/** The demo's own clock: the reports say when they would have been made. */
const madeAt = '2026-11-25T18:30:00-05:00';
const projected = 'EPSG:2264';

const folder = mkdtempSync(join(tmpdir(), 'gapledger-exports-'));
try {
  const path = join(folder, 'woodlot.logbook');
  const log = await createLogbook(path);
  await writeDemo(log);
  const head = await log.head();
  const entries = await loadAll(log);
  const folded = fold(entries);
  const names = await knownNames(log, folded);

  const lines: string[] = [];
  for await (const page of log.read())
    for (const { bytes } of page) lines.push(new TextDecoder().decode(bytes));
  write('entries.jsonl', `${lines.join('\n')}\n`);
  write('stand.json', json(standJson(folded, { head, names })));
  write('findings.json', json(folded.findings));

  const view = viewOf(folded);
  for (const layer of layers) {
    for (const crs of [undefined, projected]) {
      const { collection } = toGeoJson(layer, view, {
        head: headText(head),
        ...(crs === undefined ? {} : { crs }),
      });
      write(fileName(layer, crs), geoJsonText(collection, layer));
    }
  }

  const positions = new Map(entries.map(({ id, position }) => [id, position ?? -1]));
  const asked = { head, madeAt, program: 'gapledger demo', names, positions };
  const report = harvestReport(folded, asked);
  write('harvest-report.json', json(report));
  write('harvest-report.html', await renderHtml(report));
  const card = emergencyCard(folded, asked);
  write('emergency-card.json', json(card));
  write('emergency-card.html', renderEmergencyCard(card));
  await writePlan('G5');
  await log.close();
  const { ok, size, root } = await verifyLogbook(path);
  write(
    'verification.txt',
    `${ok ? 'Verified' : 'Not verified'}: ${size} entries.\nHead: ${headText({ size, root })}\n`,
  );

  /** The felling plan of a group that is still open, with wedges at hand. */
  async function writePlan(label: string): Promise<void> {
    const found = findThing(folded.stand, 'group', label, names);
    const group = found.ok ? folded.stand.groups.get(found.value) : undefined;
    if (group === undefined) throw new Error(`The demo has no group ${label}.`);
    const plan = planAsked(folded.stand, group, { wedges: true }, new Date(madeAt).toISOString());
    const said = [cautions.lead, ...cautions.points.map(({ text }) => `- ${text}`), cautions.end];
    const map = fellingMap(plan, {
      system: 'inch',
      zone: folded.stand.logbook?.body.zone ?? 'UTC',
    });
    write('felling-plan.json', json(planJson(plan, folded)));
    write('felling-plan.txt', `${[...said, '', ...sheetLines(planSheet(plan, 'inch'))].join('\n')}\n`);
    write('felling-map.svg', renderFellingMap(map));
    write('felling-map.pdf', await renderFellingMapPdf(map, asked.program));
  }
} finally {
  rmSync(folder, { recursive: true });
}

function write(name: string, content: string | Uint8Array): void {
  writeFileSync(join(here, name), content);
}

function json(value: unknown): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}
