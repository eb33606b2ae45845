import type { Finding } from "../../../base/findings/index.ts";
import type { MovedNumber, TakenTable } from "../../../exchange/tables/index.ts";
import { type Comparison, type Configuration, fieldAt } from "../../../model/index.ts";
import { printValue } from "../../../words/index.ts";
import { cautionBlock } from "../../cautions.ts";
import type { Block, ReportDocument } from "../../document.ts";
import { findingList, summary } from "../comparison/findings.ts";
import { ruleFindingItem } from "../validation.ts";

/** What the account of taken tables is made of. */
export interface TablesTakenReport {
  readonly configuration: Configuration;
  readonly tables: readonly TakenTable[];
  readonly moved: readonly MovedNumber[];
  readonly comparison: Comparison;
  readonly newFindings: readonly Finding[];
  readonly withProfile: boolean;
}

/** What tables changed in a configuration: protection first, then the rest, then what the rule book newly finds. */
export function tablesTakenReport(report: TablesTakenReport): ReportDocument {
  const { configuration, tables, moved, comparison, newFindings, withProfile } = report;
  const { siteName, screenName } = configuration.screen;
  const cells = tables.reduce((sum, table) => sum + table.cells, 0);
  return {
    title: `${siteName}, ${screenName}: taken from tables`,
    subtitle:
      cells === 0
        ? "The tables change nothing."
        : `${cells} ${cells === 1 ? "cell changes" : "cells change"} something. ${summary(comparison)}`,
    blocks: [
      ...(withProfile
        ? []
        : [remark("The unit's profile was not at hand: nothing was held against what the unit can do.")]),
      ...protectionBlocks(comparison),
      ...movedBlocks(moved),
      ...ruleBlocks(newFindings),
      tableOfTables(tables),
      cautionBlock(),
    ],
  };
}

function protectionBlocks({ findings }: Comparison): readonly Block[] {
  const guarding = findings.filter(({ kind }) => kind === "protection");
  const others = findings.filter(({ kind }) => kind !== "protection");
  if (guarding.length === 0) return others.length === 0 ? [] : [heading("What changed"), findingList(others)];
  return [
    heading("Protection of drivers and people"),
    {
      kind: "paragraph",
      text: "These guard drivers or people. Hold each one against the loudspeaker's data sheet before it is loaded.",
    },
    findingList(guarding),
    ...(others.length === 0 ? [] : [heading("What else changed"), findingList(others)]),
  ];
}

function movedBlocks(moved: readonly MovedNumber[]): readonly Block[] {
  if (moved.length === 0) return [];
  return [
    heading("Moved to the unit's nearest step"),
    {
      kind: "table",
      caption: `${moved.length} ${moved.length === 1 ? "number" : "numbers"}`,
      columns: [
        { header: "Where" },
        { header: "Column" },
        { header: "Typed", align: "end" },
        { header: "Taken as", align: "end" },
      ],
      rows: moved.map(({ file, sheet, row, heading: column, from, to, field }) => [
        `${sheet ?? file} row ${row}`,
        column ?? fieldAt(field)?.label ?? field,
        String(from),
        printValue(field, to),
      ]),
    },
  ];
}

function ruleBlocks(findings: readonly Finding[]): readonly Block[] {
  if (findings.length === 0) return [];
  return [
    heading("What the rule book newly finds"),
    { kind: "list", marker: "dot", items: findings.map(ruleFindingItem) },
  ];
}

function tableOfTables(tables: readonly TakenTable[]): Block {
  return {
    kind: "table",
    caption: "Tables that were read",
    rowNames: true,
    columns: [
      { header: "Table" },
      { header: "Rows", align: "end" },
      { header: "Changing cells", align: "end" },
      { header: "New rows", align: "end" },
      { header: "Taken out", align: "end" },
      { header: "File" },
    ],
    rows: tables.map(({ name, rows, cells, addedRows, takenOutRows, file }) => [
      name,
      String(rows),
      String(cells),
      String(addedRows),
      String(takenOutRows),
      file,
    ]),
  };
}

function heading(text: string): Block {
  return { kind: "heading", level: 2, text };
}

function remark(text: string): Block {
  return { kind: "paragraph", weight: "note", text };
}
