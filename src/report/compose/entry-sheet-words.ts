import type { Action, Configuration, Crossover, EqBand, Trigger, UnitProfile } from "../../model/index.ts";
import { printDb, printHz, printNumber } from "../../units/index.ts";

/** Names of what a configuration refers to by id. */
export interface EntryWords {
  readonly connector: (id: string) => string;
  readonly source: (id: string) => string;
  readonly channel: (id: string) => string;
  readonly preset: (id: string) => string;
  readonly equalization: (id: string) => string;
  readonly output: (id: string) => string;
  readonly trigger: (trigger: Trigger) => string;
  readonly action: (action: Action) => string;
}

export function entryWords(configuration: Configuration, profile: UnitProfile): EntryWords {
  const names = (list: readonly { readonly id: string; readonly label: string }[]) => {
    const labels = new Map(list.map(({ id, label }) => [id, label]));
    return (id: string) => labels.get(id) ?? id;
  };
  const connectors = new Map(profile.connectors.map((item) => [item.id, `${item.group}: ${item.label}`]));
  const connector = (id: string) => connectors.get(id) ?? id;
  const source = names(configuration.sources);
  const preset = names(configuration.presets);
  const interfaces = names(configuration.network.interfaces);
  return {
    connector,
    source,
    preset,
    channel: names(configuration.channels),
    equalization: names(configuration.equalizations),
    output: names(configuration.outputs),
    trigger: (trigger) => {
      switch (trigger.kind) {
        case "contact":
          return `${connector(trigger.connectorId)}, ${trigger.edge}`;
        case "serial":
          return `${connector(trigger.connectorId)}: ${trigger.text}`;
        case "network":
          return `${interfaces(trigger.interfaceId)}: ${trigger.text}`;
      }
    },
    action: (action) => {
      switch (action.kind) {
        case "recall-preset":
          return `recall '${preset(action.presetId)}'`;
        case "set-fader":
          return `fader to mark ${printNumber(action.faderMark, 1)}`;
        case "select-source":
          return `select '${source(action.sourceId)}'`;
        default:
          return action.kind;
      }
    },
  };
}

const FAMILY_WORDS = {
  butterworth: "Butterworth",
  bessel: "Bessel",
  "linkwitz-riley": "Linkwitz-Riley",
} as const;

export function crossoverWords(crossover: Crossover | undefined): string {
  if (crossover === undefined) return "off";
  const { family, order, frequencyHz, normalization } = crossover;
  const norm = normalization === undefined ? "" : ` (${normalization})`;
  return `${FAMILY_WORDS[family]}${norm}, ${order * 6} dB/oct, ${printHz(frequencyHz)}`;
}

/** The cells of a filter: kind, frequency, gain, width. */
export function filterCells(band: EqBand): readonly string[] {
  return [
    `${band.kind}${band.enabled === false ? " (bypassed)" : ""}`,
    printHz(band.frequencyHz),
    "gainDb" in band ? printDb(band.gainDb) : "",
    widthWords(band),
  ];
}

function widthWords(band: EqBand): string {
  if ("slope" in band && band.slope !== undefined) return `S ${printNumber(band.slope, 2)}`;
  if (band.kind === "all-pass" && band.order === 1) return "first order";
  return "q" in band && band.q !== undefined ? `Q ${printNumber(band.q, 2)}` : "";
}
