import type { ComparedDocument, Comparison, Configuration, ReorderedList } from "../../../model/index.ts";
import { printMs, printNumber } from "../../../words/index.ts";
import { cautionBlock } from "../../cautions.ts";
import type { Block, ReportDocument } from "../../document.ts";
import { comparisonCurves } from "./curves.ts";
import { delayTable } from "./delays.ts";
import { findingList, summary } from "./findings.ts";
import { rawTable } from "./raw.ts";
import { routingGrids } from "./routing.ts";
import { standardBlocks } from "./standard.ts";

/** How much of a comparison is printed, and from where its documents came. */
export interface ComparisonReportOptions {
  /**
   * `short`: what a person reads on a terminal: the findings, and the cautions when one is an error. `full`: also what was
   * compared, plots, delays, routing and always the cautions.
   */
  readonly detail: "short" | "full";
  /** Where each document comes from: "as left, 2026-03-17, North team, entry 3f2a9c". */
  readonly origin?: { readonly before: string; readonly after: string };
  /** The two configurations, for the tables of delays and routing. */
  readonly configurations?: { readonly before: Configuration; readonly after: Configuration };
  /** Whether every raw change is listed too. @defaultValue false */
  readonly raw?: boolean;
}

/** What differs between two configurations, from a comparison that was made with curves where plots are wanted. */
export function comparisonReport(comparison: Comparison, options: ComparisonReportOptions): ReportDocument {
  const { before, after } = comparison;
  const same = before.siteId === after.siteId && before.screenId === after.screenId;
  return {
    title: same
      ? `${screenName(after)}: what changed`
      : `${screenName(before)} and ${screenName(after)} compared`,
    ...(options.origin === undefined
      ? {}
      : { subtitle: `Before: ${options.origin.before}. After: ${options.origin.after}.` }),
    blocks: [
      ...(options.detail === "full" ? [comparedTable(comparison, options)] : []),
      ...findingBlocks(comparison),
      ...standardBlocks(comparison),
      ...(options.detail === "full" ? detailBlocks(comparison, options) : []),
      ...(options.raw && comparison.changes.length > 0 ? [rawTable(comparison)] : []),
      ...(options.detail === "full" || comparison.counts.error > 0 ? [cautionBlock()] : []),
    ],
  };
}

function screenName({ siteName, screenName: name }: ComparedDocument): string {
  return `${siteName}, ${name}`;
}

function findingBlocks(comparison: Comparison): readonly Block[] {
  return [
    { kind: "paragraph", weight: "lead", text: summary(comparison) },
    ...(comparison.findings.length > 0 ? [findingList(comparison.findings)] : []),
    ...footnotes(comparison).map((text) => ({ kind: "paragraph" as const, weight: "note" as const, text })),
  ];
}

function footnotes({ counts, tolerances, renames, orders }: Comparison): readonly string[] {
  const { levelDb, delayMs } = tolerances;
  const small = `${counts.belowTolerance} of ${counts.changes} differing values are below the tolerances (${printNumber(levelDb, 2)} dB, ${printMs(delayMs)}) and only counted.`;
  const followed = renames.filter(({ because }) => because !== "same-content").length;
  return [
    ...(counts.belowTolerance > 0 ? [small] : []),
    ...(followed > 0 ? [`${followed} outputs were followed by what they feed, not by their keys.`] : []),
    ...(orders.some(isReordered) ? ["Items that only stand elsewhere in their list count as equal."] : []),
  ];
}

/** Whether items that both lists have follow each other differently. */
function isReordered({ before, after }: ReorderedList): boolean {
  const shared = before.filter((key) => after.includes(key));
  return after.filter((key) => before.includes(key)).some((key, index) => key !== shared[index]);
}

function comparedTable({ before, after }: Comparison, { origin }: ComparisonReportOptions): Block {
  const row = (name: string, value: (document: ComparedDocument) => string) => [
    name,
    value(before),
    value(after),
  ];
  return {
    kind: "table",
    caption: "What was compared",
    rowNames: true,
    columns: [{ header: "" }, { header: "Before" }, { header: "After" }],
    rows: [
      ...(origin === undefined ? [] : [["Origin", origin.before, origin.after]]),
      row("Screen", screenName),
      row("Unit profile", ({ profileId, profileRevision }) => `${profileId} ${profileRevision}`),
      row("Serial number", ({ serial }) => serial),
      row("Firmware", ({ firmware }) => firmware),
      row("SHA-256", ({ sha256 }) => sha256?.replace(/.{16}(?=.)/g, "$& ") ?? "not worked out"),
    ],
  };
}

function detailBlocks(comparison: Comparison, { configurations }: ComparisonReportOptions): readonly Block[] {
  const blocks: readonly (readonly Block[])[] = [
    comparisonCurves(comparison),
    configurations === undefined ? [] : delayTable(comparison, configurations),
    configurations === undefined ? [] : routingGrids(comparison, configurations),
  ];
  return blocks.flat();
}
