import type { Action, Configuration, Crossover, EqBand, Trigger, UnitProfile } from "../../model/index.ts";
import { printHz, printNumber } from "../../units/index.ts";

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
          return `fader to mark ${exactNumber(action.faderMark)}`;
        case "select-source":
          return `select '${source(action.sourceId)}'`;
        default:
          return action.kind;
      }
    },
  };
}

/** So many decimals show every step that a unit has. */
const DECIMALS_MAX = 4;
const SIGNIFICANT_DIGITS = 6;

/** A number to key in: as many decimals as it has, at least one. */
export function exactNumber(value: number, least = 1): string {
  let decimals = least;
  while (decimals < DECIMALS_MAX && Math.abs(Number(value.toFixed(decimals)) - value) > 1e-9) decimals += 1;
  return printNumber(value, decimals);
}

/** "−1.25 dB" */
export function exactDb(db: number): string {
  return `${exactNumber(db)} dB`;
}

/** "12.5 ms" */
export function exactMs(ms: number): string {
  return `${exactNumber(ms)} ms`;
}

/** A frequency to key in: in a few digits where these are exact. */
export function exactHz(frequencyHz: number): string {
  const short = Number(frequencyHz.toPrecision(4));
  return short === frequencyHz
    ? printHz(frequencyHz)
    : `${Number(frequencyHz.toPrecision(SIGNIFICANT_DIGITS))} Hz`;
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
  return `${FAMILY_WORDS[family]}${norm}, ${order * 6} dB/oct, ${exactHz(frequencyHz)}`;
}

/** The cells of a filter: kind, frequency, gain, width. */
export function filterCells(band: EqBand): readonly string[] {
  return [
    `${band.kind}${band.enabled === false ? " (bypassed)" : ""}`,
    exactHz(band.frequencyHz),
    "gainDb" in band ? exactDb(band.gainDb) : "",
    widthWords(band),
  ];
}

function widthWords(band: EqBand): string {
  if ("slope" in band && band.slope !== undefined) return `S ${exactNumber(band.slope, 2)}`;
  if (band.kind === "all-pass" && band.order === 1) return "first order";
  return "q" in band && band.q !== undefined ? `Q ${exactNumber(band.q, 2)}` : "";
}
