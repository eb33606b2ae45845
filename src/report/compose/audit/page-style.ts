/** Style of the audit page, besides that of every report. Borders tell states apart, so that no color is needed. */
export const PAGE_STYLE = `
body { max-width: 92rem; }
.grid td { vertical-align: top; }
.grid ul { list-style: none; margin: 0; padding: 0; display: flex; flex-wrap: wrap; gap: .35rem; }
.grid a { display: block; box-sizing: border-box; overflow-wrap: anywhere; height: 100%; padding: .2rem .5rem; border: 1px solid; text-decoration: none; color: inherit; width: 9.5rem; font-size: .875rem; line-height: 1.3; }
.grid a b { display: block; font-weight: 600; }
.grid .good { border-style: dotted; }
.grid .advice, .grid .unknown { border-style: dashed; }
.grid .warning { border-width: 2px; }
.grid .error { border-width: 4px; border-style: double; }
.grid th, #changes th { white-space: nowrap; }
#screens td, #screens th, #changes td, #changes th { vertical-align: top; }
#screens td:nth-child(2), #screens td:nth-child(3), #screens tbody th { white-space: nowrap; }
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
@media (max-width: 40rem) {
  .grid, .grid caption, .grid tbody, .grid tr, .grid th, .grid td { display: block; }
  .grid thead { display: none; }
  .grid th { border-bottom: 0; }
  .grid a { width: 8.5rem; }
}
@media print {
  @page { size: A4 landscape; margin: 12mm; }
  #controls { display: none; }
  .grid a { width: 7.5rem; }
  #screens, #changes { font-size: .75rem; }
  #screens th, #screens td { padding: .15rem .3rem; }
  #screens th button::after { content: ""; }
}
#screens tr:target { outline: 3px solid; outline-offset: -3px; }
`;
