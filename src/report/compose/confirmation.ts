import type { Confirmation, ConfirmedDifference } from "../../model/index.ts";
import { groupedDigits, printReadBack } from "../../words/index.ts";
import { cautionBlock } from "../cautions.ts";
import type { Block, ReportDocument, Table } from "../document.ts";

/** How much of a confirmation is printed. */
export interface ConfirmationReportOptions {
  /** How many differences within the unit's steps are listed. @defaultValue 20 */
  readonly withinStepsShown?: number;
  /** Firmware for which the unit profile holds; given where the unit that was read back runs another one. */
  readonly firmwareRange?: string;
}

/** What was read back from a unit against what was to be loaded, for people. */
export function confirmationReport(
  confirmation: Confirmation,
  { withinStepsShown = 20, firmwareRange }: ConfirmationReportOptions = {},
): ReportDocument {
  const { verdict, screen, readBack, differences } = confirmation;
  const of = (outcome: ConfirmedDifference["outcome"]) =>
    differences.filter((item) => item.outcome === outcome);
  const within = of("within-step");
  return {
    title: "Read-back",
    subtitle: `${screen.siteId}, ${screen.screenId}; ${readBack.profileId} ${readBack.serial}, firmware ${readBack.firmware}`,
    blocks: [
      { kind: "paragraph", weight: "lead", text: VERDICT_WORDS[verdict] },
      cautionBlock(),
      ...unitNotes(confirmation, firmwareRange),
      facts(confirmation),
      ...differenceBlocks("Differs", of("differs")),
      ...differenceBlocks("Equal within the unit's steps", within.slice(0, withinStepsShown)),
      ...(within.length > withinStepsShown
        ? [
            note(
              `${within.length - withinStepsShown} more are equal within the unit's steps; the JSON holds all.`,
            ),
          ]
        : []),
    ],
  };
}

const VERDICT_WORDS: Readonly<Record<Confirmation["verdict"], string>> = {
  equal: "The unit holds what was to be loaded, value for value.",
  "within-steps":
    "The unit holds what was to be loaded; some numbers were rounded to its steps, which counts as equal.",
  differs:
    "The unit does NOT hold what was to be loaded. Leave the amplifiers off, load again, and read back once more.",
};

/** What is to be looked at twice about the unit itself: it says nothing of the settings that it holds. */
function unitNotes(
  { intended, readBack }: Confirmation,
  firmwareRange: string | undefined,
): readonly Block[] {
  const items = [
    ...(intended.serial === readBack.serial
      ? []
      : [
          {
            lead: "Serial number",
            text: `${readBack.serial} was read back, ${intended.serial} stands in what was to be loaded: right after a swap, else look whether this is the right unit.`,
          },
        ]),
    ...(firmwareRange === undefined
      ? []
      : [
          {
            lead: "Firmware",
            text: `The unit runs ${readBack.firmware}; its profile holds for ${firmwareRange}. Limits and steps may be others: bring the unit to a version in this range, or compare with a profile for its version.`,
          },
        ]),
    ...(firmwareRange === undefined && intended.firmware !== readBack.firmware
      ? [
          {
            lead: "Firmware",
            text: `${readBack.firmware} was read back, ${intended.firmware} stands in what was to be loaded; the unit profile holds for it.`,
          },
        ]
      : []),
  ];
  return items.length === 0 ? [] : [{ kind: "list", marker: "dot", items }];
}

function facts({ counts, intended, readBack }: Confirmation): Block {
  return {
    kind: "facts",
    pairs: [
      ["Values compared", String(counts.compared)],
      ["Rounded to steps", String(counts.withinSteps)],
      ["Different", String(counts.differing)],
      ...(counts.notHeld > 0
        ? ([["Not in a unit", `${counts.notHeld} (auditorium, remarks, calibration): not compared`]] as const)
        : []),
      [
        intended.entryId === undefined ? "To be loaded" : "Entry to be loaded",
        groupedDigits(intended.entryId ?? intended.sha256),
      ],
      ["Read back", groupedDigits(readBack.sha256)],
    ],
  };
}

function differenceBlocks(title: string, differences: readonly ConfirmedDifference[]): readonly Block[] {
  if (differences.length === 0) return [];
  const table: Table = {
    kind: "table",
    caption: "What was to be loaded and what was read back",
    columns: [{ header: "Where" }, { header: "Value" }, { header: "To be loaded" }, { header: "Read back" }],
    rows: differences.map(({ place, label, unit, intended, readBack }) => [
      place,
      label,
      printReadBack(intended, unit),
      printReadBack(readBack, unit),
    ]),
  };
  return [{ kind: "heading", level: 2, text: title }, table];
}

function note(text: string): Block {
  return { kind: "paragraph", weight: "note", text };
}
