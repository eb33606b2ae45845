import { createHash } from "node:crypto";
import type { Audit, AuditedScreen, AuditState } from "../../model/index.ts";
import { attribute, escaped } from "../render/html-escape.ts";
import { HTML_STYLE } from "../render/html-style.ts";
import { PAGE_SCRIPT } from "./page-script.ts";
import { PAGE_STYLE } from "./page-style.ts";
import { CHECK_WORDS, isToLookAt, STATE_ORDER, STATE_WORDS, worstState } from "./words.ts";

/** The page runs its one script and loads nothing (W3C Content Security Policy Level 3). */
const SCRIPT_HASH = createHash("sha256").update(PAGE_SCRIPT).digest("base64");
const POLICY = `default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-${SCRIPT_HASH}'`;

/**
 * An audit as one HTML file that needs nothing else: counts, a grid of sites and screens, and a table with every finding.
 * Where scripts run, the table can be sorted and filtered; where not, it is complete.
 */
export function auditPage(audit: Audit): string {
  const { screens, auditedAt, standards } = audit;
  const held = standards.map(({ id, version }) => `${id} ${version}`).join(", ");
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta http-equiv="Content-Security-Policy" content="${attribute(POLICY)}">
<title>Audit of ${escaped(auditedAt.slice(0, 10))}</title>
<style>
${HTML_STYLE}${PAGE_STYLE}</style>
</head>
<body>
<header>
<h1>Audit</h1>
<p class="subtitle">${screens.length} screens on ${escaped(auditedAt.slice(0, 10))}${held === "" ? "" : `; standards ${escaped(held)}`}</p>
</header>
<main>
<h2>Screens by check</h2>
${countsHtml(audit)}
<h2>Sites and screens</h2>
<p>Each screen with its worst state. ${[...STATE_ORDER]
    .reverse()
    .map((state) => `<b>${STATE_WORDS[state]}</b>: ${MEANING[state]}`)
    .join("; ")}.</p>
${gridHtml(screens)}
<h2>Every screen</h2>
${controlsHtml(audit)}
${tableHtml(audit)}
</main>
<script>${PAGE_SCRIPT}</script>
</body>
</html>
`;
}

const MEANING: Readonly<Record<AuditState, string>> = {
  error: "somebody has to do something",
  warning: "somebody has to look",
  advice: "worth knowing",
  unknown: "could not be told",
  good: "nothing found",
  none: "does not apply",
};

function scrolling(id: string, inner: string): string {
  return `<section class="scroll" tabindex="0" aria-labelledby="${id}">\n${inner}\n</section>`;
}

function countsHtml({ counts }: Audit): string {
  const states = [...STATE_ORDER].reverse();
  const heads = states.map((state) => `<th scope="col" class="end">${STATE_WORDS[state]}</th>`).join("");
  const rows = counts.map((count) => {
    const cells = states
      .map((state) => `<td class="end">${count[state] === 0 ? "" : count[state]}</td>`)
      .join("");
    return `<tr><th scope="row">${CHECK_WORDS[count.check]}</th>${cells}</tr>`;
  });
  return scrolling(
    "counts",
    `<table>\n<caption id="counts">How many screens stand how</caption>\n<thead><tr><th scope="col">Check</th>${heads}</tr></thead>\n<tbody>\n${rows.join("\n")}\n</tbody>\n</table>`,
  );
}

function gridHtml(screens: readonly AuditedScreen[]): string {
  const sites = new Map<string, { readonly name: string; readonly cells: string[] }>();
  for (const [index, screen] of screens.entries()) {
    const site = sites.get(screen.siteId) ?? { name: screen.siteName, cells: [] };
    sites.set(screen.siteId, site);
    const state = worst(screen);
    const open = screen.checks.filter((check) => isToLookAt(check.state)).length;
    const words =
      open === 0 ? STATE_WORDS[state] : `${STATE_WORDS[state]}, ${open} of ${screen.checks.length}`;
    site.cells.push(
      `<li><a class="${state}" href="#s${index + 1}"><b>${escaped(screen.screenName)}</b> ${words}</a></li>`,
    );
  }
  const rows = [...sites.values()].map(
    ({ name, cells }) => `<tr><th scope="row">${escaped(name)}</th><td><ul>${cells.join("")}</ul></td></tr>`,
  );
  return scrolling(
    "grid",
    `<table class="grid">\n<caption id="grid">Worst state of each screen</caption>\n<thead><tr><th scope="col">Site</th><th scope="col">Screens</th></tr></thead>\n<tbody>\n${rows.join("\n")}\n</tbody>\n</table>`,
  );
}

function controlsHtml({ counts }: Audit): string {
  const checks = counts
    .map(({ check }) => `<option value="${dataName(check)}">${CHECK_WORDS[check]}</option>`)
    .join("");
  const states = [...STATE_ORDER]
    .reverse()
    .map((state) => `<option value="${state}">${STATE_WORDS[state]}</option>`)
    .join("");
  return `<div id="controls" hidden>
<label>Words<input id="filter-text" type="search"></label>
<label>Check<select id="filter-check"><option value="">any</option>${checks}</select></label>
<label>State<select id="filter-state"><option value="">any</option>${states}</select></label>
<p id="shown" role="status"></p>
</div>`;
}

/** "as-left" is read by the script as dataset.asLeft. */
function dataName(check: string): string {
  return check.replace(/-([a-z])/g, (_all, letter: string) => letter.toUpperCase());
}

function tableHtml({ screens, counts }: Audit): string {
  const checks = counts.map(({ check }) => check);
  const heads = ["Site", "Screen", "Unit", ...checks.map((check) => CHECK_WORDS[check]), "To look at"];
  const rows = screens.map((screen, index) => {
    const stateOf = (name: string) => screen.checks.find(({ check }) => check === name)?.state ?? "unknown";
    const data = checks.map((check) => ` data-${check}="${stateOf(check)}"`).join("");
    const cells = checks.map((check) => stateCell(stateOf(check)));
    const open = screen.checks.filter(({ state }) => isToLookAt(state));
    const list = open.map(({ check, words }) => `<li>${CHECK_WORDS[check]}: ${escaped(words)}</li>`).join("");
    const states = [...new Set(screen.checks.map(({ state }) => state))].join(" ");
    return `<tr id="s${index + 1}" data-states="${states}"${data}><th scope="row">${escaped(screen.siteName)}</th><td>${escaped(screen.screenName)}</td><td>${escaped(screen.profileId)}<br>${escaped(screen.serial)}</td>${cells.join("")}<td data-key="${String(open.length).padStart(3, "0")}">${list === "" ? "nothing" : `<ul>${list}</ul>`}</td></tr>`;
  });
  return scrolling(
    "table",
    `<table id="screens">\n<caption id="table">Every check of every screen</caption>\n<thead><tr>${heads.map((head) => `<th scope="col">${head}</th>`).join("")}</tr></thead>\n<tbody>\n${rows.join("\n")}\n</tbody>\n</table>`,
  );
}

function stateCell(state: AuditState): string {
  return `<td class="${state}" data-key="${STATE_ORDER.indexOf(state)}">${STATE_WORDS[state]}</td>`;
}

function worst({ checks }: AuditedScreen): AuditState {
  return worstState(checks.map(({ state }) => state));
}
