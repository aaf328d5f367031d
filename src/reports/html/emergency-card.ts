// The emergency card as one self-contained HTML file: big type, what is needed first on top, one page of paper.
import type { Cautions } from '../../felling/index.ts';
import type { EmergencyCardReport } from '../emergency-card.ts';
import type { Evidence, Fact } from '../model.ts';
import { cardStyle } from './emergency-card-style.ts';
import { factText, html, list, type Piece } from './markup.ts';

/** The card, to be printed, folded and carried, or looked at on a phone. */
export function renderEmergencyCard(card: EmergencyCardReport): string {
  const { title, madeLocal, program, shows, evidence } = card;
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title>
<style>${cardStyle}</style>
</head>
<body>
<header>
<h1>${title}</h1>
<p class="lead">Made ${madeLocal} by ${program}; shows what was recorded by then. ${shows.join(' ')}</p>
</header>
<main>
${card.call.state === 'overdue' && expectedCall(card)}
${callFirst(card)}
${meetingPlace(card)}
<div class="columns">
${part('Where a telephone works', card.signal)}
${part('Nearest help', card.nearestHelp)}
${part('Whom else to call', card.contacts)}
${blocks(card)}
</div>
${card.call.state !== 'overdue' && expectedCall(card)}
${dangers(card)}
${cautionPart(card.cautions)}
</main>
${foot(evidence)}
</body>
</html>
`.toString();
}

function callFirst({ callFirst: number }: EmergencyCardReport): Piece {
  return html`<section class="first"><h2>Call first</h2><p class="${number.known ? 'huge' : ''}">${factText(number)}</p></section>`;
}

function meetingPlace({ place, wayIn }: EmergencyCardReport): Piece {
  if (!place.entered.known)
    return html`<section class="place"><h2>Help is met at</h2><p>${factText(place.entered)}</p>
      <h3>Way in</h3><p>${factText(wayIn)}</p></section>`;
  return html`<section class="place"><h2>Help is met at</h2>
    <p class="large">${unbroken(place.degreesMinutes)}</p>
    <p class="large">${unbroken(place.decimalDegrees)}</p>
    <p>UTM ${factText(place.utm)}. All on ${factText(place.datum)}. <span class="small">Recorded ${factText(place.entered)}.</span></p>
    <h3>Way in</h3><p class="way">${factText(wayIn)}</p></section>`;
}

/** Latitude and longitude may stand on two lines, but neither is broken. */
function unbroken(fact: Fact): Piece {
  if (!fact.known) return factText(fact);
  const [latitude = '', longitude = ''] = fact.text.split(', ');
  return html`<span class="whole">${latitude},</span> <span class="whole">${longitude}</span>`;
}

function part(title: string, fact: Fact): Piece {
  return html`<section><h2>${title}</h2><p class="lines">${factText(fact)}</p></section>`;
}

function blocks({ blocks: all }: EmergencyCardReport): Piece {
  return html`<section><h2>Blocks</h2>${
    all.length === 0
      ? html`<p><i class="unknown">none is recorded</i></p>`
      : list(all.map(({ term, fact }) => html`${term}, ${factText(fact)}`))
  }</section>`;
}

function expectedCall({ call }: EmergencyCardReport): Piece {
  const overdue = call.state === 'overdue';
  return html`<section class="${overdue ? 'alarm' : 'call'}"><h2>Call expected</h2>
    ${call.facts.map((fact) => html`<p>${factText(fact)}${fact.known && '.'}</p>`)}
    ${overdue && html`<p>Try to reach them at once. If you cannot, call the number below and say where they went.</p>`}
  </section>`;
}

function dangers({ dangers: all }: EmergencyCardReport): Piece {
  return html`<section class="${all.length === 0 ? 'dangers' : 'dangers warn'}"><h2>Dangerous now, as recorded</h2>
    ${
      all.length === 0
        ? html`<p>No hung-up stem and no open hazard is recorded. That nobody wrote one down does not say that there is
          none.</p>`
        : list(all.map(factText))
    }</section>`;
}

/** What each caution rests on stands in the harvest report; here the room belongs to the card. */
function cautionPart({ title, lead, points, end }: Cautions): Piece {
  return html`<section class="cautions" id="cautions"><h2>${title}</h2>
    <p><strong>${lead}</strong></p>
    ${list(points.map(({ text }) => text))}
    <p>${end}</p></section>`;
}

function foot({ size, command }: Evidence): Piece {
  return html`<footer><p>Log of ${size} entries. Check with <code>${command}</code></p></footer>`;
}
