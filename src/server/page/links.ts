// Where everything is: reports, map layers, data.
import { layers } from '../../layers/index.ts';
import { html, list, type Piece } from '../../reports/index.ts';

/** @param field whether the field page is there to be opened */
export function linkSection(crs: string | undefined, field: boolean): Piece {
  return html`<section id="more">
    <h2>Reports, layers, data</h2>
    ${
      field &&
      html`<h3>Field page</h3>
    <p><a href="/field/">To record here as on a phone</a>. A phone gets there by “gapledger serve --lan”.</p>`
    }
    <h3>Harvest report</h3>
    ${list([
      html`<a href="/reports/harvest.html">To read and print</a>`,
      html`<a href="/reports/harvest.json">As data</a>`,
    ])}
    <h3>Emergency card</h3>
    ${list([
      html`<a href="/reports/emergency-card.html">To print and carry</a>`,
      html`<a href="/reports/emergency-card.json">As data</a>`,
    ])}
    <h3>Map layers</h3>
    <p class="lead">GeoJSON in longitude and latitude${crs !== undefined && `, or in the working CRS ${crs}`}.</p>
    <ul class="columns">${layers.map(
      ({ name, title }) =>
        html`<li><a href="/layers/${name}.geojson">${title}</a>${
          crs !== undefined &&
          html`, <a href="/layers/${name}.geojson?crs=${crs}" aria-label="${title} in ${crs}">${crs}</a>`
        }</li>`,
    )}</ul>
    <h3>Data</h3>
    ${list([
      html`<a href="/api/stand">The stand</a>`,
      html`<a href="/api/findings">Findings</a>`,
      html`<a href="/api/events">Entries</a>`,
      html`<a href="/api/head">Tree head</a>`,
      html`<a href="/layers">List of layers with their columns</a>`,
      html`<a href="/api/openapi.json">Description of all addresses (OpenAPI)</a>`,
    ])}
  </section>`;
}
