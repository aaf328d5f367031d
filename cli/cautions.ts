// The cautions as the command line prints them; the text is that of the felling room. One line wherever felling is shown;
// all of it, after what is open, where somebody could be hurt now.
import { cautions, type StopReason, stopCards } from '../src/felling/index.ts';
import { dangersIn, hazardWords, type Stand, stemLabel } from '../src/stand/index.ts';
import { paint, say, tell } from './terminal/index.ts';

/** The one line that stands wherever felling is shown. */
export function sayCaution(): void {
  say(paint.dim(cautions.lead));
}

/** The same where standard output is not for reading. */
export function tellCaution(): void {
  tell(cautions.lead);
}

/** What is hung up and which hazards are open, with all cautions; where nothing is, the one line. */
export function sayDangers(stand: Stand): void {
  const lines = dangerLines(stand);
  if (lines.length === 0) {
    sayCaution();
    return;
  }
  say(paint.bold('Open now: keep away'));
  for (const line of lines) say(`  ${line}`);
  for (const line of cautionLines()) say(paint.dim(line));
}

/** Hung-up stems and open hazards, a line each. */
export function dangerLines(stand: Stand): string[] {
  const { hungUp, hazards } = dangersIn(stand);
  return [
    ...hungUp.map((stem) => {
      const holder = stem.felling?.hungOn;
      return `${stemLabel(stem)} is hung up${holder === undefined ? '' : ` in ${stemLabel(stand.stems.get(holder))}`}`;
    }),
    ...hazards.map((hazard) => hazardWords(stand, hazard)),
  ];
}

/** All cautions, where the dangers above have not brought them already. */
export function sayAllCautions(stand: Stand): void {
  if (dangerLines(stand).length > 0) return;
  for (const line of cautionLines().slice(1)) say(paint.dim(line));
}

function cautionLines(): string[] {
  return [cautions.lead, ...cautions.points.map(({ text }) => `- ${text}`), cautions.end];
}

/** What comes first when something has just been recorded that work must stop for. */
export function stopLines(reason: StopReason): string[] {
  const { title, because, points, end } = stopCards[reason];
  return [`${title} ${because}`, ...points.map(({ text }) => `  - ${text}`), end];
}
