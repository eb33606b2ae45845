import { createHash } from "node:crypto";
import type { AuditChange, AuditComparison } from "../../../fleet/audit/index.ts";
import type { Audit, AuditedScreen, AuditState } from "../../../model/index.ts";
import { attribute, escaped } from "../../render/html-escape.ts";
import { HTML_STYLE } from "../../render/html-style.ts";
import { grouped, MOST_IN_FULL, nameOf } from "./comparison.ts";
import { PAGE_SCRIPT } from "./page-script.ts";
import { PAGE_STYLE } from "./page-style.ts";
import { CHECK_WORDS, isToLookAt, STATE_ORDER, STATE_WORDS, worstState } from "./words.ts";

/** The page runs its one script and loads nothing (W3C Content Security Policy Level 3). */
const SCRIPT_HASH = createHash("sha256").update(PAGE_SCRIPT).digest("base64");
const POLICY = `default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-${SCRIPT_HASH}'`;

/**
 * An audit as one HTML file that needs nothing else: counts, what changed since the audit before, a grid of sites and
 * screens, and a table with every finding. Where scripts run, the table can be sorted and filtered; where not, it is
 * complete.
 *
 * @param comparison with the audit before, where there is one
 */
export function auditPage(audit: Audit, comparison?: AuditComparison): string {
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
${comparison === undefined ? "" : comparisonHtml(comparison)}<h2>Sites and screens</h2>
<p>Each screen with its worst state, and the checks that stand at act or look. ${[...STATE_ORDER]
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
    const open = screen.checks.filter((check) => check.state === "warning" || check.state === "error");
    const checks = open.map(({ check }) => CHECK_WORDS[check].toLowerCase()).join(", ");
    const words = checks === "" ? STATE_WORDS[state] : `${STATE_WORDS[state]}: ${checks}`;
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

function comparisonHtml({
  from,
  worse,
  better,
  otherwise,
  newScreens,
  goneScreens,
}: AuditComparison): string {
  const ways = [
    ["worse", worse],
    ["better", better],
    ["otherwise", otherwise],
  ] as const;
  const rowOf = (way: string) => (group: readonly AuditChange[]) => {
    const { check, before, after } = group[0]!;
    const screens =
      group.length <= MOST_IN_FULL
        ? group.map((change) => escaped(`${nameOf(change)}: ${change.words}`)).join("<br>")
        : `<details><summary>${group.length} screens</summary>${escaped(group.map(nameOf).join(", "))}</details>`;
    return `<tr><th scope="row">${CHECK_WORDS[check]}</th><td>${way}</td><td>${STATE_WORDS[before]}</td><td>${STATE_WORDS[after]}</td><td>${screens}</td></tr>`;
  };
  const rows = ways.flatMap(([way, changes]) => grouped(changes).map(rowOf(way)));
  const heads = ["Check", "Stands", "Was", "Is", "Screens"];
  const table =
    rows.length === 0
      ? ""
      : scrolling(
          "since",
          `<table id="changes">\n<caption id="since">Checks that stand otherwise than before</caption>\n<thead><tr>${heads.map((head) => `<th scope="col">${head}</th>`).join("")}</tr></thead>\n<tbody>\n${rows.join("\n")}\n</tbody>\n</table>`,
        );
  const list = (what: string, names: readonly string[]) =>
    names.length === 0 ? "" : `<p>${what}: ${escaped(names.join(", "))}.</p>\n`;
  return `<h2>Since the audit of ${escaped(from.slice(0, 10))}</h2>
<p>${worse.length} checks stand worse, ${better.length} better, ${otherwise.length} otherwise.</p>
${table}
${list("New screens", newScreens)}${list("Screens that are not there any more", goneScreens)}`;
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
