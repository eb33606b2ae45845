import type { Outlier } from "../../../fleet/standard/index.ts";
import type { Standard } from "../../../model/index.ts";
import { printValue } from "../../../words/index.ts";
import type { Block, Item, ReportDocument } from "../../document.ts";

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
      ...looseBlocks(standard),
      {
        kind: "paragraph",
        weight: "note",
        text: "What nearly all have is not yet what is right. Read it, add the reasons, issue it as version 1.0.0.",
      },
    ],
  };
}

/** So many names of one kind are told; the rest are counted. */
const MOST = 6;
/** So many places at which screens differ are told; the standard has all. */
const MOST_PLACES = 12;

/** Where screens differ too much for one value: what the standard says there, and why. */
function looseBlocks({ lines }: Standard): readonly Block[] {
  const loose = lines.flatMap((line): readonly Item[] => {
    if (line.hold !== "within" && line.hold !== "left-to-screen") return [];
    const held = line.hold === "within" ? `held within ${line.min} to ${line.max}. ` : "left to the screen. ";
    return [{ lead: line.place, text: `${held}${line.reason ?? ""}` }];
  });
  if (loose.length === 0) return [];
  const more = loose.length - MOST_PLACES;
  return [
    { kind: "heading", level: 2, text: "Places at which screens differ" },
    { kind: "list", marker: "dot", items: loose.slice(0, MOST_PLACES) },
    ...(more > 0
      ? ([{ kind: "paragraph", weight: "note", text: `${more} more stand in the standard itself.` }] as const)
      : []),
  ];
}

function itemOf({ place, field, usual, others }: Outlier): Item {
  const isList = others.some(({ value }) => Array.isArray(value));
  const print = (value: unknown) => (value === null ? "nothing there" : printValue(field, value));
  const limits = Array.isArray(usual) && !isList ? `${print(usual[0])} to ${print(usual[1])}` : undefined;
  const words = others.map(({ value, screens, count }) => {
    const names = screens.slice(0, MOST).join(", ") + (count > MOST ? ` and ${count - MOST} more` : "");
    if (!isList) return `${print(value)} on ${names}`;
    const lacking = (usual as readonly string[]).filter((key) => !(value as readonly string[]).includes(key));
    const more = lacking.length - MOST;
    return `${names} lacks ${lacking.slice(0, MOST).join(", ")}${more > 0 ? ` and ${more} more` : ""}`;
  });
  return {
    lead: place,
    text: `${isList ? "" : `nearly all ${limits ?? print(usual)}; `}${words.join("; ")}.`,
  };
}
