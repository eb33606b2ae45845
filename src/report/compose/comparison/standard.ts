import type { Comparison } from "../../../model/index.ts";
import type { Block, Item } from "../../document.ts";
import { findingList, summary } from "./findings.ts";

/** What is off the house standard, each with whether it changed since the last visit. Nothing without a standard. */
export function standardBlocks({ offStandard }: Comparison): readonly Block[] {
  if (offStandard === undefined) return [];
  const { comparison, changedSince } = offStandard;
  const list = findingList(comparison.findings, "standard");
  const items = list.items.map(
    (item, index): Item => ({
      ...item,
      tags: [...(item.tags ?? []), changedSince[index] ? "changed since we left" : "was so when we left"],
    }),
  );
  return [
    { kind: "heading", level: 2, text: "Off the house standard" },
    {
      kind: "paragraph",
      text:
        comparison.findings.length === 0
          ? "Nothing: the screen follows the house standard in everything that the house decides."
          : `${summary(comparison)} Told as the way from the standard to the screen.`,
    },
    ...(items.length > 0 ? [{ ...list, items }] : []),
  ];
}
