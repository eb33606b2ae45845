/** Style of the audit page, besides that of every report. Borders tell states apart, so that no color is needed. */
export const PAGE_STYLE = `
body { max-width: 92rem; }
.grid td { vertical-align: top; }
.grid ul { list-style: none; margin: 0; padding: 0; display: flex; flex-wrap: wrap; gap: .35rem; }
.grid a { display: block; padding: .2rem .5rem; border: 1px solid; text-decoration: none; color: inherit; min-width: 5.5rem; }
.grid a b { display: block; font-weight: 600; }
.grid .good { border-style: dotted; }
.grid .advice, .grid .unknown { border-style: dashed; }
.grid .warning { border-width: 2px; font-weight: 600; }
.grid .error { border-width: 4px; border-style: double; font-weight: 700; }
#screens td, #screens th { vertical-align: top; }
#screens td ul { margin: 0; padding-left: 1.1rem; min-width: 18rem; }
#screens .error { font-weight: 700; text-decoration: underline; }
#screens .warning { font-weight: 700; }
#screens th button { font: inherit; font-weight: 600; background: none; border: 0; padding: 0; color: inherit; cursor: pointer; text-align: inherit; min-height: 24px; }
#screens th[aria-sort=ascending] button::after { content: " \\2191"; }
#screens th[aria-sort=descending] button::after { content: " \\2193"; }
#controls { display: flex; flex-wrap: wrap; gap: .75rem 1.25rem; align-items: end; margin: 1rem 0; }
#controls[hidden] { display: none; }
#controls label { display: block; }
#controls input, #controls select { display: block; font: inherit; min-height: 2rem; max-width: 100%; }
#shown { margin: 0; }
#screens tr:target { outline: 3px solid; outline-offset: -3px; }
`;
