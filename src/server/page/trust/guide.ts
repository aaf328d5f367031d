// The pages of /trust/: what a phone has to be told once, and what that means. They work without a script; one of
// our own carries the pairing code of a scanned address on to the next link.
import { html, list, type Piece } from '../../../reports/index.ts';
import { phonePicture } from './picture.ts';
import { type Guide, guides, type Step } from './steps.ts';

export type GuideFacts = Readonly<{
  /** The field page over HTTPS, at the name by which this page was asked. */
  fieldAddress: string;
  /** This page came over HTTPS already. */
  secure: boolean;
  /** The authority of this machine; missing where the keeper brought a certificate along. */
  authority?: Readonly<{ name: string; fingerprint: string; ends: string; permits: readonly string[] }>;
}>;

/** The first page: which phone, and why. */
export function overviewPage(facts: GuideFacts): string {
  const { authority, secure } = facts;
  return page(
    'A phone for the logbook',
    html`<h1>A phone for the logbook <span class="lead">Once for each phone, about five minutes, in the net of this computer.</span></h1>
    ${secure || authority === undefined ? nothingToDo(facts) : whichPhone(facts)}
    ${authority !== undefined && fingerprintSection(authority)}
    ${authority !== undefined && meaningSection(authority)}
    ${withoutSection()}`,
  );
}

/** The steps on one kind of phone; undefined when there is no such guide. */
export function stepsPage(name: string, facts: GuideFacts): string | undefined {
  const guide = guides.find((one) => one.name === name);
  const { authority } = facts;
  if (guide === undefined || authority === undefined) return undefined;
  return page(
    guide.title,
    html`<h1>${guide.title} <span class="lead">Makers and versions name their menus a little differently.</span></h1>
    <p><a class="go quiet" href="/trust/" data-carries-code>All about trusting this computer</a></p>
    <ol class="steps">${guide.steps.map((step) => stepItem(step, facts))}</ol>
    ${fingerprintSection(authority)}
    ${meaningSection(authority)}
    ${removalSection([guide])}`,
  );
}

function page(title: string, content: Piece): string {
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${title}: Gapledger</title>
<link rel="stylesheet" href="/trust/guide.css">
<link rel="icon" href="/trust/icon.svg" type="image/svg+xml">
<script src="/trust/code.js" defer></script>
</head>
<body>
<main>
${content}
</main>
</body>
</html>
`.toString();
}

function nothingToDo({ fieldAddress, secure }: GuideFacts): Piece {
  return html`<div class="box">
    <p><strong>${
      secure
        ? 'This page came over HTTPS without a warning? Then this phone trusts the computer already.'
        : 'This computer shows a certificate that its keeper brought along; nothing has to be installed.'
    }</strong></p>
    <p><a class="go" href="${fieldAddress}" data-carries-code>Open the field page</a></p>
  </div>`;
}

function whichPhone({ fieldAddress }: GuideFacts): Piece {
  return html`<p>A phone gives a page its position, lets it work without a signal and keeps its key only when the page comes over
      HTTPS, from a computer that the phone trusts. No public authority vouches for a computer in your house, so this
      one vouches for itself, and the phone has to be told once. Which phone is it?</p>
    <p class="choices">${guides.map(
      ({ name, title }) => html`<a class="go" href="/trust/${name}" data-carries-code>${title}</a>`,
    )}</p>
    <p>Done before on this phone? Then nothing is left to do here. If the field page asks for a code, that stands on the
      screen of the computer.</p>
    <p><a class="go quiet" href="${fieldAddress}" data-carries-code>Open the field page</a></p>`;
}

function stepItem(
  { title, words, path, picture, does }: Step,
  { fieldAddress, authority }: GuideFacts,
): Piece {
  return html`<li>
    <div>
      <h2>${title}</h2>
      ${words.map((sentence) => html`<p>${sentence}</p>`)}
      ${path !== undefined && menuPath(path)}
      ${does === 'take' && html`<p><a class="go" href="/trust/gapledger.crt">Take the certificate</a></p>`}
      ${does === 'compare' && authority !== undefined && fingerprint(authority.fingerprint)}
      ${does === 'open' && html`<p><a class="go" href="${fieldAddress}" data-carries-code>Open the field page</a></p>`}
    </div>
    ${phonePicture(picture.said, picture.heading, picture.lines)}
  </li>`;
}

function menuPath(path: readonly string[]): Piece {
  return html`<p class="path">${path.map(
    (menu, index) => html`${index > 0 && html`<span aria-label="then"> › </span>`}<b>${menu}</b>`,
  )}</p>`;
}

function fingerprintSection({ name, fingerprint: pairs, ends }: NonNullable<GuideFacts['authority']>): Piece {
  return html`<section id="fingerprint">
    <h2>The fingerprint</h2>
    <p>The certificate is called “${name}” and counts until ${ends}. Its SHA-256 fingerprint, as this page was sent:</p>
    ${fingerprint(pairs)}
    <p>This page came without protection, so it proves nothing by itself. Compare three: here, on the phone after installing,
      and <strong>on the screen of the computer</strong>, where it stands below the address. The computer’s is the one that counts.</p>
  </section>`;
}

function fingerprint(pairs: string): Piece {
  const groups = pairs.match(/(?:[0-9A-F]{2}:?){1,8}/g) ?? [pairs];
  return html`<p class="fingerprint">${groups.map((group) => html`<span>${group.replace(/:$/, '')}</span> `)}</p>`;
}

function meaningSection({ permits }: NonNullable<GuideFacts['authority']>): Piece {
  return html`<section id="meaning">
    <h2>What trusting means</h2>
    <p>This computer keeps a key with which it vouches for pages. The key stays in a file of the person who runs Gapledger here.
      <strong>Whoever gets hold of that file could pretend to be any web page in the names below</strong>, to every phone that
      trusts it: the page of your router, a printer, another computer in a house where the phone is a guest.</p>
    <p>It cannot pretend to be your bank or any other site in the internet: the certificate holds only for</p>
    ${list(permits)}
    <p>So trust it only on phones that need it, keep the computer’s account to yourself, and remove the certificate from the
      phone when it is needed no more.</p>
  </section>`;
}

function removalSection(of: readonly Guide[]): Piece {
  return html`<section id="removal">
    <h2>How to remove it later</h2>
    ${of.map(({ removal }) => html`${menuPath(removal.path)}<p>${removal.words}</p>`)}
    <p>On the computer, “gapledger devices revoke” refuses a phone that is lost; for that nothing has to be done on the phone.</p>
  </section>`;
}

function withoutSection(): Piece {
  return html`<section id="without">
    <h2>Without it</h2>
    <p>The field page opens over plain HTTP too. In plain words:</p>
    ${list([
      html`<strong>Works:</strong> recording while the page stays open; saving what you recorded as a file and taking it in at
        the computer (“gapledger record --from FILE”).`,
      html`<strong>Does not work:</strong> opening the page out of reach of this computer, your position, signing, keeping the
        screen awake, and sending. The phone may throw away what is not saved as a file.`,
    ])}
    <p><a class="go quiet" href="/field/" data-carries-code>Open it over plain HTTP</a></p>
    <p>Another way: “gapledger field-page --to FOLDER” copies the page for any host with HTTPS; entries then go by file only.</p>
  </section>`;
}
