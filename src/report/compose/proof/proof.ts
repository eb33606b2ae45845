import type { PathCounts, Proof } from "../../../model/index.ts";
import { printDb, printHz, printMs, printNumber, printSigned } from "../../../words/index.ts";
import { cautionBlock } from "../../cautions.ts";
import type { Block, ReportDocument, Table } from "../../document.ts";
import { connectorBlocks, connectorCountWords } from "./connectors.ts";
import { headline, partsTable } from "./parts.ts";
import { pathBlocks } from "./paths.ts";
import { settingBlocks, settingCountWords } from "./settings.ts";
import { sumBlocks } from "./sums.ts";

/** How much of a proof is printed. */
export interface ProofReportOptions {
  /** How many groups of paths are told one by one, the most serious first. @defaultValue 12 */
  readonly groupsShown?: number;
}

/** A proof for people: the verdict, a summary by loudspeaker and preset, the worst paths with their numbers, the cautions. */
export function proofReport(proof: Proof, { groupsShown = 12 }: ProofReportOptions = {}): ReportDocument {
  return {
    title: "Proof of every path",
    subtitle: `${unitWords(proof.before)} before, ${unitWords(proof.after)} after`,
    blocks: [
      { kind: "paragraph", text: headline(proof), weight: "lead" },
      cautionBlock(),
      partsTable(proof),
      facts(proof),
      { kind: "heading", level: 2, text: "By loudspeaker and feed" },
      countTable("Paths to each way and feed", proof.feeds),
      { kind: "heading", level: 2, text: "By preset" },
      countTable("Paths that each preset opens", proof.presets),
      ...presetDelays(proof),
      ...pathBlocks(proof, groupsShown),
      ...sumBlocks(proof),
      ...settingBlocks(proof),
      ...connectorBlocks(proof),
      { kind: "heading", level: 2, text: "How it was computed" },
      { kind: "paragraph", text: methodWords(proof), weight: "note" },
      toleranceFacts(proof),
    ],
  };
}

/** How far it is in a few lines, and the first of what differs: for a terminal, before the proof itself is read. */
export function proofSummary(proof: Proof): ReportDocument {
  return {
    title: "Proof",
    blocks: [
      { kind: "paragraph", text: headline(proof), weight: "lead" },
      partsTable(proof),
      facts(proof),
      ...(proof.verdict === "differs"
        ? [
            ...pathBlocks(proof, GROUPS_IN_SUMMARY),
            ...settingBlocks(proof),
            ...connectorBlocks(proof).slice(0, 3),
          ]
        : []),
    ],
  };
}

const GROUPS_IN_SUMMARY = 3;

function unitWords({ profileId, serial, sampleRateHz }: Proof["before"]): string {
  return `${profileId} ${serial} at ${printHz(sampleRateHz)}`;
}

function facts(proof: Proof): Block {
  const { counts, commonDelayMs } = proof;
  return {
    kind: "facts",
    pairs: [
      ["Paths", countWords(counts)],
      ["Settings", settingCountWords(proof)],
      ["Connectors", connectorCountWords(proof)],
      [
        "Common delay",
        commonDelayMs === 0
          ? "none: sound stays where it was against the picture"
          : `${printSigned(commonDelayMs, 3)} ms on every path, which moves sound against the picture`,
      ],
    ],
  };
}

const COUNT_NAMES = [
  ["equal", "Equal", "equal"],
  ["withinTolerance", "Within", "within tolerance"],
  ["audible", "Audible", "audible"],
  ["missing", "Missing", "missing"],
  ["changedByDecision", "Changed", "changed by decision"],
  ["leftOut", "Left out", "left out by decision"],
  ["new", "New", "new"],
] as const satisfies readonly (readonly [keyof PathCounts, string, string])[];

function countWords(counts: PathCounts): string {
  const parts = COUNT_NAMES.flatMap(([name, , words]) =>
    counts[name] > 0 ? [`${counts[name]} ${words}`] : [],
  );
  return parts.length === 0 ? "none" : `${counts.paths}: ${parts.join(", ")}`;
}

interface CountRow {
  readonly label: string;
  readonly counts: PathCounts;
}

/** Only columns in which something stands. */
function countTable(caption: string, rows: readonly CountRow[]): Table {
  const names = COUNT_NAMES.filter(([name]) => rows.some(({ counts }) => counts[name] > 0));
  return {
    kind: "table",
    caption,
    rowNames: true,
    columns: [
      { header: "" },
      { header: "Paths", align: "end" },
      ...names.map(([, header]) => ({ header, align: "end" as const })),
    ],
    rows: rows.map(({ label, counts }) => [
      label,
      String(counts.paths),
      ...names.map(([name]) => (counts[name] === 0 ? "" : String(counts[name]))),
    ]),
  };
}

/** Presets that are audibly late or early as a whole, one by one; what the others are off at most. */
function presetDelays({ presets }: Proof): readonly Block[] {
  const audible = presets.filter(({ delayVerdict }) => delayVerdict === "audible");
  const within = presets.filter(({ delayVerdict }) => delayVerdict === "within-tolerance");
  const most = Math.max(0, ...within.map(({ delayMs }) => Math.abs(delayMs)));
  const pairs: (readonly [string, string])[] = [
    ...audible.map(
      ({ label, delayMs }) =>
        [label, `${printSigned(delayMs, 2)} ms on all its paths beyond the common delay: audible`] as const,
    ),
    ...(within.length === 0
      ? []
      : [["Whole presets", `off by ${printMs(most, 3)} at most, within tolerance`] as const]),
  ];
  return pairs.length === 0 ? [] : [{ kind: "facts", pairs }];
}

function methodWords({ method }: Proof): string {
  return `Complex responses at ${method.frequencies} frequencies from ${printHz(method.lowestHz)} to ${printHz(method.highestHz)}, judged from ${printHz(method.fromHz)} to ${printHz(method.toHz)}. ${method.weighting} Computed from the two documents and what the two units do to sound, without the plan; equal settings are not equal sound if anything else has changed.`;
}

function toleranceFacts({ tolerances, groups }: Proof): Block {
  return {
    kind: "facts",
    pairs: [
      [
        "Tolerances",
        `response ${printDb(tolerances.responseDb, 2)}, rms ${printDb(tolerances.responseRmsDb, 2)}, level ${printDb(tolerances.levelDb, 2)}, below 40 Hz ${printDb(tolerances.lowEdgeDb, 2)}, phase ${printNumber(tolerances.phaseDeg, 0)}°`,
      ],
      [
        "Delay",
        `${printMs(tolerances.delayMs, 3)} between paths, ${printMs(tolerances.presetDelayMs, 1)} between presets, ${printMs(tolerances.commonDelayMs, 1)} in common`,
      ],
      [
        "Sum of ways",
        `${printDb(tolerances.sumDb, 2)}, phase at the crossover ${printNumber(tolerances.crossoverPhaseDeg, 0)}°`,
      ],
      ...(groups.some(({ deviation }) => deviation?.seatsDb !== undefined)
        ? [
            [
              "At the seats",
              `${printDb(tolerances.seatsDb, 2)}, where loudspeakers play together by decision: their powers add, each as loud as the old settings and the calibration record say`,
            ] as const,
          ]
        : []),
    ],
  };
}
