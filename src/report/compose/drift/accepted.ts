import type { DriftedScreen, DriftFinding } from "../../../fleet/drift/index.ts";
import { fieldAt } from "../../../model/index.ts";
import { counted, firstOf } from "../../../words/index.ts";
import type { Block, Item } from "../../document.ts";
import { HOW, valueNotes } from "./words.ts";

/** What stays by decision: told, but nothing that somebody has to see to. */
export function acceptedBlocks(accepted: readonly DriftFinding[], all: number): readonly Block[] {
  if (accepted.length === 0) return [];
  return [
    { kind: "heading", level: 2, text: "Otherwise by decision" },
    {
      kind: "list",
      marker: "dot",
      items: ofOneItem(accepted).map((findings) => acceptedItem(findings, all)),
    },
  ];
}

/** What one decision led to in many places of one preset is one thing to tell. */
function ofOneItem(accepted: readonly DriftFinding[]): readonly (readonly DriftFinding[])[] {
  const groups = new Map<string, DriftFinding[]>();
  for (const finding of accepted) {
    const item = finding.place.split("/").slice(0, 2).join("/");
    const key = `${item}\n${finding.screens.map(({ name }) => name).join("\n")}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [finding]);
    else group.push(finding);
  }
  return [...groups.values()];
}

function acceptedItem(findings: readonly DriftFinding[], all: number): Item {
  const [{ words, label, code, screens }] = findings as readonly [DriftFinding];
  const names = screens.map(({ name }) => name);
  const on = `on ${screens.length} of ${counted(all, "screen")}, accepted by decision ${decidedWhen(screens)}.`;
  const where = all > 1 ? [`On ${firstOf(names, 6)}.`] : [];
  if (findings.length === 1) {
    return {
      lead: `${words}, ${label}`,
      text: `${HOW[code]} ${on}`,
      notes: [...valueNotes(findings[0]!), ...where],
    };
  }
  const sorts = new Map<string, number>();
  for (const { field, code: what } of findings) {
    const sort = `${fieldAt(field)?.label ?? fieldAt(`${field}[].id`)?.label ?? field}: ${HOW[what]}`;
    sorts.set(sort, (sorts.get(sort) ?? 0) + 1);
  }
  const lead = findings.map((finding) => finding.words).reduce((a, b) => (b.length < a.length ? b : a));
  return {
    lead,
    text: `otherwise in ${findings.length} places ${on}`,
    notes: [...[...sorts].map(([sort, times]) => (times === 1 ? sort : `${sort} (${times})`)), ...where],
  };
}

/** "of 2026-03-01 (entry 4, Service team)", "of 2026-03-01 to 2026-03-14" */
function decidedWhen(screens: readonly DriftedScreen[]): string {
  const known = screens.flatMap(({ accepted }) => accepted ?? []);
  const days = known.map(({ recordedAt }) => recordedAt.slice(0, 10)).sort();
  const [first, last] = [days[0]!, days.at(-1)!];
  const [only] = known;
  if (known.length === 1) return `of ${first} (entry ${only!.number}, ${only!.recordedBy})`;
  return first === last ? `of ${first}` : `of ${first} to ${last}`;
}
