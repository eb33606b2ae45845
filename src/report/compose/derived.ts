import { printValue, type Standard } from "../../model/index.ts";
import type { Outlier } from "../../standard/index.ts";
import type { Item, ReportDocument } from "../document.ts";

/** A standard that was derived from many screens, with the screens that do not fit in. */
export function derivedReport({
  standard,
  outliers,
  screens,
}: {
  readonly standard: Standard;
  readonly outliers: readonly Outlier[];
  readonly screens: number;
}): ReportDocument {
  const count = (hold: string) => standard.lines.filter((line) => line.hold === hold).length;
  const left = count("left-to-screen");
  return {
    title: `${standard.title}, proposed`,
    subtitle: `From ${screens} screens: ${count("these-only") + count("at-least")} lists and ${count("exactly")} single values held, ${count("within")} within limits, ${left} left to the screen`,
    blocks: [
      ...(outliers.length === 0
        ? []
        : ([
            { kind: "heading", level: 2, text: "Screens that differ from nearly all" },
            { kind: "list", marker: "dot", items: outliers.map(itemOf) },
          ] as const)),
      {
        kind: "paragraph",
        weight: "note",
        text: "What nearly all have is not yet what is right. Read it, add the reasons, issue it as version 1.0.0.",
      },
    ],
  };
}

const MOST = 6;

function itemOf({ place, field, usual, others }: Outlier): Item {
  const isList = others.some(({ value }) => Array.isArray(value));
  const print = (value: unknown) => (value === null ? "nothing there" : printValue(field, value));
  const limits = Array.isArray(usual) && !isList ? `${print(usual[0])} to ${print(usual[1])}` : undefined;
  const words = others.map(({ value, screens, count }) => {
    const names = screens.slice(0, MOST).join(", ") + (count > MOST ? ` and ${count - MOST} more` : "");
    if (!isList) return `${print(value)} on ${names}`;
    const lacking = (usual as readonly string[]).filter((key) => !(value as readonly string[]).includes(key));
    return `${names} lacks ${lacking.join(", ")}`;
  });
  return {
    lead: place,
    text: `${isList ? "" : `nearly all ${limits ?? print(usual)}; `}${words.join("; ")}.`,
  };
}
