/**
 * The look of every HTML report. What was: blue and dashed; what is: amber and solid; so the two differ without
 * color too. All pairs of ink and paper have a contrast of at least 4.5 (WCAG 2.2, 1.4.3).
 */
export const HTML_STYLE = `
:root {
  color-scheme: light dark;
  --paper: #fdfcf9; --ink: #211f2c; --soft: #5d5a6e; --rule: #d9d5df; --panel: #f3f0f4;
  --accent: #5a3a86; --before: #2f6796; --after: #a84a08; --change: #5a3a86;
  --caution: #fff2cf; --caution-rule: #8a5a00; --scrim: #fdfcf9;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #16141d; --ink: #edebf3; --soft: #b0acc2; --rule: #3b374a; --panel: #211e2b;
    --accent: #c3a9f0; --before: #8fbce8; --after: #f4a763; --change: #c3a9f0;
    --caution: #2e2610; --caution-rule: #e3b655; --scrim: #16141d;
  }
}
* { box-sizing: border-box; }
body {
  margin: 0 auto; padding: 1.5rem 1rem 4rem; max-width: 62rem; background: var(--paper); color: var(--ink);
  font: 1rem/1.5 "Segoe UI", "Helvetica Neue", "Liberation Sans", Arial, sans-serif;
  font-variant-numeric: tabular-nums; overflow-wrap: anywhere;
}
header { border-bottom: 3px solid var(--accent); margin-bottom: 1.5rem; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0 0 .25rem; }
h2 { font-size: 1.25rem; margin: 2.25rem 0 .75rem; border-bottom: 1px solid var(--rule); padding-bottom: .2rem; }
h3 { font-size: 1.05rem; margin: 1.5rem 0 .5rem; }
p { margin: .5rem 0; max-width: 46rem; }
.subtitle { color: var(--soft); margin: 0 0 .75rem; }
.lead { font-size: 1.1rem; font-weight: 600; }
.note { color: var(--soft); font-size: .875rem; }
dl { margin: .75rem 0; }
dl > div { display: grid; grid-template-columns: minmax(7rem, 13rem) 1fr; gap: 1rem; padding: .2rem 0; border-bottom: 1px solid var(--rule); }
dt { color: var(--soft); }
dd { margin: 0; }
.items { margin: .75rem 0; padding-left: 1.6rem; }
.items.dot:has(> li.error, > li.warning, > li.advice) { list-style: none; padding-left: 0; }
.items.box { list-style: none; padding-left: 0; }
.items.box label { display: grid; grid-template-columns: 1.6rem 1fr; align-items: start; }
.items > li { margin: .35rem 0; padding-left: .2rem; break-inside: avoid; }
.items > li.error, .items > li.warning, .items > li.advice {
  background: var(--panel); border-left: 4px solid var(--rule); padding: .6rem .8rem; margin: .6rem 0; border-radius: 0 4px 4px 0;
}
.items > li.error { border-left: 10px double var(--accent); }
.items > li.warning { border-left-color: var(--accent); }
.head { display: block; }
.head + .text { display: block; }
.tag {
  display: inline-block; font-size: .75rem; letter-spacing: .03em; padding: 0 .5em; margin-left: .25em;
  border: 1px solid var(--soft); border-radius: 1em; color: var(--soft); background: var(--paper);
}
.notes { margin: .25rem 0 0; padding-left: 1.1rem; color: var(--soft); font-size: .9rem; }
input[type="checkbox"] { width: 1.05rem; height: 1.05rem; margin: .25rem 0 0; accent-color: var(--accent); }
.caution {
  border: 2px solid var(--caution-rule); border-left-width: 12px; background: var(--caution); padding: .75rem 1rem;
  margin: 1.25rem 0; border-radius: 4px; break-inside: avoid;
}
.caution .title { font-weight: 700; letter-spacing: .08em; text-transform: uppercase; margin: 0 0 .25rem; }
.caution ul { margin: 0; padding-left: 1.1rem; }
.scroll { overflow-x: auto; margin: 1rem 0; }
.scroll:focus-visible { outline: 2px solid var(--accent); outline-offset: 2px; }
table { border-collapse: collapse; font-size: .925rem; overflow-wrap: normal; }
.long { overflow-wrap: anywhere; }
caption { text-align: left; font-weight: 600; padding: .25rem 0; }
th, td { text-align: left; vertical-align: top; padding: .3rem .7rem .3rem 0; border-bottom: 1px solid var(--rule); }
thead th { color: var(--soft); font-weight: 600; font-size: .85rem; border-bottom: 2px solid var(--soft); vertical-align: bottom; }
tbody th { font-weight: 600; }
th.end, td.end { text-align: right; }
td.end { white-space: nowrap; }
th.center, td.center { text-align: center; }
td.box, th.box { width: 1.8rem; }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
figure { margin: 1.25rem 0; break-inside: avoid; }
figure svg { display: block; width: 100%; height: auto; max-width: 42rem; }
figcaption { color: var(--soft); font-size: .9rem; margin-top: .25rem; }
figure.code { display: flex; gap: 1rem; align-items: center; max-width: 46rem; }
figure.code svg { flex: none; width: 11rem; height: 11rem; border-radius: 4px; }
figure.code .held { display: block; font: .8rem/1.4 "Liberation Mono", Consolas, monospace; }
.draft {
  position: sticky; top: 0; z-index: 2; max-width: none; margin: 0 0 1rem; padding: .5rem 1rem; font-weight: 700;
  background: var(--ink); color: var(--paper);
}
.draft-mark {
  position: fixed; inset: 0; z-index: 1; display: grid; place-items: center; pointer-events: none; rotate: -30deg; white-space: nowrap;
  overflow-wrap: normal; font-size: min(20vw, 14rem); font-weight: 700; letter-spacing: .1em; color: var(--soft); opacity: .14;
}
.signatures { display: grid; grid-template-columns: repeat(auto-fit, minmax(15rem, 1fr)); gap: 0 2.5rem; margin-top: 1rem; break-inside: avoid; }
.signature { display: flex; justify-content: space-between; border-top: 1px solid var(--ink); margin-top: 4rem; padding-top: .25rem; }
.signature .date { width: 7rem; }
hr.page { border: 0; border-top: 1px solid var(--rule); margin: 2rem 0; }
@media (max-width: 30rem) {
  dl > div { grid-template-columns: 1fr; gap: 0; }
}
@media print {
  :root {
    --paper: #fff; --ink: #000; --soft: #444; --rule: #bbb; --panel: #fff; --accent: #3d2563; --before: #1f4f78;
    --after: #8a3b04; --change: #3d2563; --caution: #fff; --caution-rule: #000; --scrim: #fff;
  }
  @page { margin: 15mm; }
  .draft { position: static; border: 2px solid #000; background: #fff; color: #000; }
  .draft-mark { opacity: .2; font-size: 110pt; }
  html { font-size: 10pt; }
  body { padding: 0; max-width: none; }
  h2, h3, caption { break-after: avoid; }
  h1 { font-size: 16pt; }
  h2 { font-size: 13pt; margin-top: 1.25rem; }
  h3 { font-size: 11pt; }
  thead { display: table-header-group; }
  tr { break-inside: avoid; }
  thead { break-after: avoid; }
  tbody tr:nth-child(-n+2) { break-before: avoid; }
  .scroll { overflow: visible; margin: .5rem 0; }
  th, td { padding: .15rem .55rem .15rem 0; }
  .items { margin: .4rem 0; }
  .items > li { margin: .1rem 0; }
  .items.box label { grid-template-columns: 1.35rem 1fr; }
  input[type="checkbox"] { width: .85rem; height: .85rem; margin: .2rem 0 0; }
  .flow { columns: 2; column-gap: 8mm; column-fill: balance; }
  .flow h3 { margin-top: 0; }
  .group { break-inside: avoid; padding-bottom: .9rem; }
  figure.code svg { width: 36mm; height: 36mm; }
  hr.page { break-after: page; border: 0; margin: 0; }
}
.plot text { fill: var(--ink); font-size: 14px; font-family: inherit; }
.plot .soft { fill: var(--soft); }
.plot .halo { paint-order: stroke; stroke: var(--scrim); stroke-width: 4px; stroke-linejoin: round; }
.plot .grid { stroke: var(--rule); stroke-width: 1; fill: none; }
.plot .fine { stroke: var(--rule); stroke-width: 1; opacity: .5; fill: none; }
.plot .zero { stroke: var(--soft); stroke-width: 1; fill: none; }
.plot .before { stroke: var(--before); stroke-width: 1.75; stroke-dasharray: 6 4; fill: none; }
.plot .after { stroke: var(--after); stroke-width: 2; fill: none; }
.plot .change { stroke: var(--change); stroke-width: 1.5; fill: none; }
.plot .area { fill: var(--change); fill-opacity: .18; stroke: none; }
.plot .target { stroke: var(--soft); stroke-width: 1.75; stroke-dasharray: 6 4; fill: none; }
.plot .tolerance { fill: var(--soft); fill-opacity: .16; stroke: none; }
.plot .outside { fill: var(--paper); stroke: var(--after); stroke-width: 2; }
.plot .way { stroke-width: 1.25; }
.plot .thick { stroke-width: 3; }
.plot .mark { fill: var(--change); stroke: none; }
`;
