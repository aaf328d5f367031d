// The style sheet of the pages: the look of the report, and what only the start page needs.
import { pageStyle } from '../../reports/index.ts';
import { planStyle } from './plan/style.ts';

export const styleSheet = `${pageStyle}
h1 .lead { display: block; font-size: 1rem; font-weight: 400; letter-spacing: 0; }
summary { cursor: pointer; padding: .4rem 0; font-weight: 600; }
.remedy { display: block; color: var(--soft); }
nav ul { display: flex; flex-wrap: wrap; gap: .2rem 1.6rem; padding: 0; margin: .6rem 0 0; list-style: none; }
nav a, #more li a { display: inline-block; padding: .25rem 0; }
#more li { margin: 0; }
#more ul { max-width: none; }
.columns { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(20rem, 100%), 1fr)); column-gap: 2rem; }
:focus-visible { outline: 3px solid var(--ink); outline-offset: 2px; }
${planStyle}
`;

/** A ring of crowns with a gap in it. */
export const icon = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><rect width="32" height="32" fill="#fdfcf8"/><path d="M22.5 6.5A11.5 11.5 0 1 0 27.4 14" fill="none" stroke="#1e211c" stroke-width="4.5" stroke-linecap="round"/></svg>
`;
