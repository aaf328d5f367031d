// What every page of the desk has round its content.
import { cautions } from '../../felling/index.ts';
import { html, list, type Piece } from '../../reports/index.ts';

export type Framed = Readonly<{
  title: string;
  header: Piece;
  main: Piece;
  program: string;
}>;

/** A whole page. A form on it is sent with the name of this server, which tells it from a form of another site. */
export function framed({ title, header, main, program }: Framed): string {
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="same-origin">
<title>${title}</title>
<link rel="stylesheet" href="/style.css">
<link rel="icon" href="/icon.svg" type="image/svg+xml">
</head>
<body>
<header>
${header}
</header>
<main>
${main}
</main>
<footer><p>${program}. This page is shown on this machine only.</p></footer>
</body>
</html>
`.toString();
}

/** The cautions, which stand on every page that shows felling; a page of a plan or of a worksheet shows all of them at once. */
export function cautionBox(shown: 'all' | 'lead'): Piece {
  return html`<section class="box" id="cautions">
    <h2>${cautions.title}</h2>
    <p><strong>${cautions.lead}</strong></p>
    <details ${shown === 'all' ? 'open' : ''}><summary>What to hold to</summary>
      ${list(cautions.points.map(({ text }) => text))}
      <p class="lead">What each of these rests on stands in the <a href="/reports/harvest#cautions">harvest report</a>.</p>
    </details>
    <p>${cautions.end}</p>
  </section>`;
}
