import { linesOf } from "../../../base/text/index.ts";
import type { Comparison, Configuration } from "../../../model/index.ts";
import { cautionBlock } from "../../cautions.ts";
import type { Block, ReportDocument } from "../../document.ts";
import { imprintFooter, warningBlocks } from "../imprint-block.ts";
import { comparisonCurves } from "./curves.ts";
import { delayTable } from "./delays.ts";
import { findingList, summary } from "./findings.ts";
import { routingGrids } from "./routing.ts";
import { standardBlocks } from "./standard.ts";

/** A service visit, as its report tells it. */
export interface VisitReport {
  /** Date of the visit, RFC 3339 full-date. */
  readonly date: string;
  /** Who: a team or a role. Absent: the signatures say it. */
  readonly by?: string;
  /** From the last as-left to as-found; with curves where plots are wanted. */
  readonly found: Comparison;
  /** From as-found to what was left; absent when nothing was done. */
  readonly done?: Comparison;
  /** What has to be read first, such as a read-back that differs. */
  readonly warnings?: readonly string[];
  /** What was done and why, in the engineer's own words; may have several lines. */
  readonly notes?: string;
  /** The configurations, for the tables. */
  readonly asLeftBefore: Configuration;
  readonly asFound: Configuration;
  readonly asLeft: Configuration;
}

/** The report of a service visit for the exhibitor: as found, what was done and why, as left, to be signed. */
export function visitReport(visit: VisitReport): ReportDocument {
  const { screen, unit } = visit.asLeft;
  return {
    title: `Service visit: ${screen.siteName}, ${screen.screenName}`,
    subtitle: visit.by === undefined ? visit.date : `${visit.date}, ${visit.by}`,
    ...imprintFooter(undefined, visit),
    blocks: [
      ...warningBlocks(visit.warnings),
      {
        kind: "facts",
        pairs: [
          ["Unit", `${unit.label} (${unit.profileId})`],
          ["Serial number", unit.serial],
          ["Firmware", unit.firmware],
          ["Seats", String(screen.seats)],
          ["Configuration as found", hashOf(visit.found.after.sha256)],
          ["Configuration as left", hashOf((visit.done ?? visit.found).after.sha256)],
        ],
      },
      { kind: "heading", level: 2, text: "As found: changed since the last visit" },
      ...findingsOf(visit.found),
      ...standardBlocks(visit.found),
      { kind: "heading", level: 2, text: "What was done and why" },
      ...doneBlocks(visit),
      ...evidence(visit),
      cautionBlock(),
      { kind: "heading", level: 2, text: "Signatures" },
      { kind: "signatures", roles: ["Engineer", "For the exhibitor"] },
    ],
  };
}

function hashOf(sha256: string | undefined): string {
  return sha256 === undefined ? "hash not worked out" : `SHA-256 ${sha256.replace(/.{16}(?=.)/g, "$& ")}`;
}

function findingsOf(comparison: Comparison): readonly Block[] {
  return [
    { kind: "paragraph", weight: "lead", text: summary(comparison) },
    ...(comparison.findings.length > 0 ? [findingList(comparison.findings)] : []),
  ];
}

function doneBlocks({ done, notes }: VisitReport): readonly Block[] {
  const remarks = linesOf(notes ?? "").map((text) => ({ kind: "paragraph" as const, text }));
  if (done === undefined || done.changes.length === 0) {
    return [...remarks, { kind: "paragraph", text: "The settings were left as they were found." }];
  }
  return [...remarks, ...findingsOf(done)];
}

/** Plots and tables of what was found, then of what was left. */
function evidence({ found, done, asLeftBefore, asFound, asLeft }: VisitReport): readonly Block[] {
  return [
    ...section("As found, in figures", [
      ...comparisonCurves(found),
      ...delayTable(found, { before: asLeftBefore, after: asFound }),
      ...routingGrids(found, { before: asLeftBefore, after: asFound }),
    ]),
    ...(done === undefined
      ? []
      : section("As left, in figures", [
          ...comparisonCurves(done),
          ...delayTable(done, { before: asFound, after: asLeft }),
          ...routingGrids(done, { before: asFound, after: asLeft }),
        ])),
  ];
}

/** Blocks under a heading of their own, their headings one level down; nothing without blocks. */
function section(text: string, blocks: readonly Block[]): readonly Block[] {
  if (blocks.length === 0) return [];
  const inner = blocks.map((block) => {
    if (block.kind === "heading") return { ...block, level: 3 as const };
    return block.kind === "table"
      ? { ...block, caption: `${block.caption} (${text.split(",")[0]?.toLowerCase()})` }
      : block;
  });
  return [{ kind: "heading", level: 2, text }, ...inner];
}
