import { CAUTION_STEPS } from "../../cautions.ts";
import type { Block } from "../../document.ts";
import type { SheetContext } from "./context.ts";

/** What the booth operates: fader, presets by themselves, emergency mute, feeds; what is not there is said too. */
export function operationList({ configuration: { operation }, words, numbers }: SheetContext): Block {
  const { emergencyMute, nonSync, paging, boothMonitor, hearingImpaired, narration } = operation;
  return {
    kind: "list",
    marker: "box",
    items: [
      { lead: "Fader at start-up", text: numbers.fader(operation) },
      {
        lead: "Preset at start-up",
        text: operation.startPresetId === undefined ? "the last one" : words.preset(operation.startPresetId),
      },
      {
        lead: "Emergency mute",
        text:
          emergencyMute === undefined
            ? `none. ${CAUTION_STEPS.askWhoever}`
            : `${emergencyMute.enabled ? "on" : "OFF"}, ${words.connector(emergencyMute.connectorId)}, mutes when ${emergencyMute.activeWhen}, sound returns ${RELEASE_WORDS[emergencyMute.release]}. ${CAUTION_STEPS.testIt}`,
      },
      {
        lead: "Non-sync",
        text:
          nonSync === undefined
            ? "none"
            : `source ${words.source(nonSync.sourceId)}, preset ${words.preset(nonSync.presetId)}`,
      },
      {
        lead: "Paging microphone",
        text:
          paging === undefined
            ? "none"
            : `source ${words.source(paging.sourceId)}, preset ${words.preset(paging.presetId)}, program lowered by ${numbers.db(paging, "programDuckDb")}`,
      },
      {
        lead: "Booth monitor",
        text:
          boothMonitor === undefined
            ? "none"
            : `${words.output(boothMonitor.outputId)}, ${numbers.db(boothMonitor, "levelDb")}`,
      },
      {
        lead: "Hearing-impaired feed",
        text:
          hearingImpaired === undefined
            ? "none"
            : `${words.output(hearingImpaired.outputId)}, ${numbers.db(hearingImpaired, "levelDb")}, without an HI channel ${ABSENT_WORDS[hearingImpaired.whenAbsent]}`,
      },
      {
        lead: "Narration feed",
        text:
          narration === undefined
            ? "none"
            : `${words.output(narration.outputId)}, ${numbers.db(narration, "levelDb")}`,
      },
    ],
  };
}

const RELEASE_WORDS = { automatic: "by itself", "by-hand": "by hand" } as const;
const ABSENT_WORDS = { "program-mix": "a mix of the program", silence: "silence" } as const;

export function automationBlocks({ configuration, words, numbers }: SheetContext): readonly Block[] {
  const { automation } = configuration;
  if (automation.length === 0) return [{ kind: "paragraph", text: "None." }];
  return [
    {
      kind: "table",
      caption: "Triggers and what they do",
      boxes: true,
      rowNames: true,
      columns: [
        { header: "Name" },
        { header: "Trigger" },
        { header: "Action" },
        { header: "Wait", align: "end" },
      ],
      rows: automation.map((item) => [
        item.label,
        words.trigger(item.trigger),
        words.action(item.action, numbers.fader),
        item.waitMs === undefined ? "none" : numbers.ms(item, "waitMs"),
      ]),
    },
  ];
}

export function networkBlocks({ configuration: { network } }: SheetContext): readonly Block[] {
  return [
    { kind: "list", marker: "box", items: [{ lead: "Host name", text: network.hostname }] },
    ...(network.interfaces.length === 0
      ? []
      : [
          {
            kind: "table" as const,
            caption: "Network interfaces",
            boxes: true,
            rowNames: true,
            columns: [
              { header: "Interface" },
              { header: "Purpose" },
              { header: "Mode" },
              { header: "Address" },
              { header: "Gateway" },
            ],
            rows: network.interfaces.map(({ label, purpose, mode, address, prefixLength, gateway }) => [
              label,
              purpose,
              mode,
              `${address ?? "none"}${prefixLength === undefined ? "" : `/${prefixLength}`}`,
              gateway ?? "none",
            ]),
          },
        ]),
  ];
}
