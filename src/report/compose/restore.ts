import type { Finding, Severity } from "../../base/findings/index.ts";
import type { PrintedImprint } from "../../logbook/imprint/index.ts";
import type { Configuration, Entry, Output, UnitProfile } from "../../model/index.ts";
import { groupedDigits, outputName, passBand } from "../../words/index.ts";
import { CAUTION_STEPS, cautionBlock } from "../cautions.ts";
import type { Block, Item, ReportDocument } from "../document.ts";
import { imprintBlocks, imprintFooter } from "./imprint-block.ts";

/** What a restore sheet is made from. */
export interface RestoreSheetInput {
  /** What will be loaded. */
  readonly configuration: Configuration;
  /** Profile of the unit at hand. */
  readonly profile: UnitProfile;
  readonly entry: Entry;
  readonly entryId: string;
  readonly findings: readonly Finding[];
  /** Name of the file to load, as it was written; absent: nothing was written. */
  readonly fileName?: string;
  /** SHA-256 of its bytes. */
  readonly fileSha256?: string;
  /** The code by which the sheet is matched with the entry; printed on a sheet to work by, at its end. */
  readonly imprint?: PrintedImprint;
}

/**
 * The sheet for a person with a laptop in a dark booth: what is loaded into which unit, what speaks against it, and what
 * to do, step by step, with boxes to tick.
 */
export function restoreSheet(input: RestoreSheetInput): ReportDocument {
  const { configuration, findings, fileName } = input;
  const imprint = fileName === undefined ? undefined : input.imprint;
  const { screen } = configuration;
  return {
    title: "Restore sheet",
    subtitle: `${screen.siteName}, ${screen.screenName}`,
    ...imprintFooter(imprint),
    blocks: [
      cautionBlock(),
      facts(input),
      ...findingBlocks(findings),
      ...(fileName === undefined ? [nothingWritten()] : steps(input, fileName)),
      ...imprintBlocks(imprint),
    ],
  };
}

function facts({ configuration, profile, entry, entryId, fileName, fileSha256 }: RestoreSheetInput): Block {
  const { unit } = configuration;
  return {
    kind: "facts",
    pairs: [
      [
        "Entry",
        `${entry.number}, ${entry.reason.replace("-", " ")}, recorded ${entry.recordedAt} by ${entry.recordedBy}`,
      ],
      ["Entry id", groupedDigits(entryId)],
      ["Recorded on", `${entry.unit.profileId}, serial number ${entry.unit.serial}`],
      fileName === undefined
        ? ["Unit at hand", profile.label]
        : ["To be loaded into", `${profile.label}, serial number ${unit.serial}, firmware ${unit.firmware}`],
      ...(fileName === undefined ? [] : ([["File", fileName]] as const)),
      ...(fileSha256 === undefined ? [] : ([["SHA-256", groupedDigits(fileSha256)]] as const)),
    ],
  };
}

const SEVERITY_WORDS: Readonly<Record<Severity, string>> = {
  error: "do not load",
  warning: "look twice",
  advice: "note",
};

function findingBlocks(findings: readonly Finding[]): readonly Block[] {
  if (findings.length === 0) return [];
  return [
    { kind: "heading", level: 2, text: "Before loading" },
    {
      kind: "list",
      marker: "dot",
      items: findings.map(({ code, place, words, severity, remedy }) => ({
        lead: place.words,
        text: words,
        // Damage elsewhere in the logbook forbids nothing.
        tags: [SEVERITY_WORDS[code.startsWith("restore/") || severity !== "error" ? severity : "warning"]],
        severity,
        ...(remedy !== undefined && { notes: [remedy] }),
      })),
    },
  ];
}

function nothingWritten(): Block {
  return {
    kind: "paragraph",
    weight: "lead",
    text: "No file was written: something above says that these settings must not be loaded into this unit.",
  };
}

function steps(input: RestoreSheetInput, fileName: string): readonly Block[] {
  const { configuration, profile, entry } = input;
  return [
    { kind: "heading", level: 2, text: "Load" },
    {
      kind: "list",
      marker: "box",
      items: [
        { text: CAUTION_STEPS.beforeLoading },
        { text: "Every cable in the connector that the table below names." },
        { text: `Load '${fileName}' into unit ${configuration.unit.serial}. The amplifiers stay off.` },
        {
          text: "Read the unit back into a file and compare it; amplifiers stay off until this says equal:",
          notes: [
            `boothkeep confirm LOGBOOK --site ${entry.siteId} --screen ${entry.screenId} READBACK.json`,
          ],
        },
      ],
    },
    { kind: "heading", level: 2, text: "Listen" },
    {
      kind: "paragraph",
      text: CAUTION_STEPS.eachWayAlone,
    },
    wayTable(configuration, profile),
    { kind: "list", marker: "box", items: lastSteps(configuration) },
  ];
}

/** In the order in which a person works along the rear panel. */
function wayTable(configuration: Configuration, profile: UnitProfile): Block {
  const connectors = new Map(profile.connectors.map((connector) => [connector.id, connector]));
  const order = ({ connectorId }: Output) => {
    const connector = connectors.get(connectorId);
    return connector === undefined ? Number.POSITIVE_INFINITY : connector.rack * 1000 + connector.position;
  };
  const outputs = configuration.outputs.filter(({ feeds }) => feeds.kind !== "spare");
  return {
    kind: "table",
    caption: "Each way alone",
    boxes: true,
    columns: [{ header: "Connector" }, { header: "Feeds" }, { header: "Plays" }, { header: "Limiter" }],
    rows: outputs
      .toSorted((a, b) => order(a) - order(b))
      .map((output) => [
        connectors.get(output.connectorId)?.label ?? output.connectorId,
        outputName(configuration, output),
        output.mute ? "muted" : passBand(output),
        output.limiter?.enabled ? "on" : "none",
      ]),
  };
}

const RELEASE_WORDS = { automatic: "by itself", "by-hand": "by hand" } as const;

function lastSteps(configuration: Configuration): readonly Item[] {
  const { operation } = configuration;
  return [
    ...(operation.emergencyMute?.enabled
      ? [
          {
            text: `Emergency mute: acts when the contact is ${operation.emergencyMute.activeWhen}, sound returns ${RELEASE_WORDS[operation.emergencyMute.release]}. ${CAUTION_STEPS.testIt}`,
          },
        ]
      : []),
    ...(operation.paging === undefined ? [] : [{ text: CAUTION_STEPS.testPaging }]),
    { text: `Fader at mark ${operation.faderMark}; a known program at its usual level.` },
    { text: CAUTION_STEPS.measureAgain },
  ];
}
