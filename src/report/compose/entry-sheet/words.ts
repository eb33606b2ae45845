import type {
  Action,
  Configuration,
  Crossover,
  Feed,
  SourceKind,
  Trigger,
  UnitProfile,
} from "../../../model/index.ts";
import { printHz, printNumber } from "../../../words/index.ts";

/** Names of what a configuration refers to by id. */
export interface EntryWords {
  readonly connector: (id: string) => string;
  readonly source: (id: string) => string;
  readonly channel: (id: string) => string;
  readonly preset: (id: string) => string;
  readonly equalization: (id: string) => string;
  readonly output: (id: string) => string;
  readonly feed: (feed: Feed) => string;
  readonly trigger: (trigger: Trigger) => string;
  /** @param fader how a fader mark is said */
  readonly action: (action: Action, fader?: (action: { readonly faderMark: number }) => string) => string;
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
  const loudspeaker = names(configuration.loudspeakers);
  return {
    connector,
    source,
    preset,
    channel: names(configuration.channels),
    equalization: names(configuration.equalizations),
    output: names(configuration.outputs),
    feed: (feed) =>
      feed.kind === "loudspeaker"
        ? `${loudspeaker(feed.loudspeakerId)}, ${feed.wayId} way`
        : FEED_WORDS[feed.kind],
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
    action: (action, fader = ({ faderMark }) => `mark ${exactNumber(faderMark, 0)}`) => {
      switch (action.kind) {
        case "recall-preset":
          return `recall '${preset(action.presetId)}'`;
        case "set-fader":
          return `fader to ${fader(action)}`;
        case "select-source":
          return `select '${source(action.sourceId)}'`;
        default:
          return action.kind;
      }
    },
  };
}

const FEED_WORDS = {
  "hearing-impaired": "hearing-impaired transmitter",
  narration: "narration transmitter",
  "booth-monitor": "booth monitor",
  spare: "nothing: spare",
} as const;

export const SOURCE_KIND_WORDS: Readonly<Record<SourceKind, string>> = {
  aes3: "AES3 digital",
  aes67: "AES67 network",
  "analog-multichannel": "analog multichannel",
  spdif: "S/PDIF",
  "analog-stereo": "analog stereo",
  microphone: "microphone",
};

/** So many decimals show every step that a unit has. */
const DECIMALS_MAX = 4;
const SIGNIFICANT_DIGITS = 6;

/** A number to key in: as many decimals as it has, at least one. */
export function exactNumber(value: number, least = 1): string {
  let decimals = least;
  while (decimals < DECIMALS_MAX && Math.abs(Number(value.toFixed(decimals)) - value) > 1e-9) decimals += 1;
  return printNumber(value, decimals);
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

/** @param hz how its corner is said */
export function crossoverWords(
  crossover: Crossover | undefined,
  hz: (crossover: Crossover) => string = ({ frequencyHz }) => exactHz(frequencyHz),
): string {
  if (crossover === undefined) return "off";
  const { family, order, normalization } = crossover;
  const norm = normalization === undefined ? "" : ` (${normalization})`;
  return `${FAMILY_WORDS[family]}${norm}, ${order * 6} dB/oct, ${hz(crossover)}`;
}
