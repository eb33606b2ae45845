import type { ChannelLabel, Crossover, Limiter, Output } from "../../../src/model/index.ts";
import { waysBetween } from "./crossovers.ts";
import { placed, type Unplaced } from "./filters.ts";

/** What differs from one way to the next. */
export interface WaySetting {
  readonly wayId: string;
  readonly gainDb: number;
  /** Brings the way's driver in line with the deepest one. */
  readonly alignMs: number;
  readonly filters: readonly Unplaced[];
  readonly limiter: Limiter;
}

/** The outputs of a loudspeaker with an amplifier channel for each way, on neighbouring connectors. */
export function activeOutputs(description: {
  readonly loudspeakerId: string;
  /** Short name of the loudspeaker as the unit shows it: "Left". */
  readonly label: string;
  readonly channel: ChannelLabel;
  readonly firstConnector: number;
  /** Below the lowest way. */
  readonly protection: Crossover;
  /** Between the ways, from below. */
  readonly splits: readonly Crossover[];
  readonly ways: readonly WaySetting[];
  readonly trimDb?: number;
  readonly delayMs?: number;
}): Output[] {
  const { loudspeakerId, label, channel, firstConnector, protection, splits, ways } = description;
  const bands = waysBetween(splits);
  return ways.map((setting, index) => ({
    id: `${loudspeakerId}-${setting.wayId}`,
    label: `${label} ${setting.wayId}`,
    connectorId: outputConnector(firstConnector + index),
    feeds: { kind: "loudspeaker", loudspeakerId, wayId: setting.wayId },
    mix: [{ channelId: channel, gainDb: 0 }],
    ...(index === 0 ? { highPass: protection } : {}),
    ...bands[index]!,
    filters: placed(setting.filters),
    gainDb: setting.gainDb + (description.trimDb ?? 0),
    delayMs: setting.alignMs + (description.delayMs ?? 0),
    limiter: setting.limiter,
    mute: false,
  }));
}

/** One output for one loudspeaker, a headset feed or a monitor. */
export function singleOutput(
  description: Omit<Output, "connectorId" | "filters" | "polarity" | "mute"> & {
    readonly connector: number;
    readonly filters: readonly Unplaced[];
  },
): Output {
  const { connector, filters, ...rest } = description;
  return {
    ...rest,
    connectorId: outputConnector(connector),
    filters: placed(filters),
    polarity: "normal",
    mute: false,
  };
}

/** Every output that nothing is connected to: muted and flat. */
export function spareOutputs(total: number, used: readonly Output[]): Output[] {
  const taken = new Set(used.map((output) => output.connectorId));
  return Array.from({ length: total }, (_, index) => index + 1)
    .filter((number) => !taken.has(outputConnector(number)))
    .map((number) => ({
      id: `spare-${twoDigits(number)}`,
      label: `Spare ${number}`,
      connectorId: outputConnector(number),
      feeds: { kind: "spare" },
      mix: [],
      filters: [],
      gainDb: 0,
      delayMs: 0,
      polarity: "normal",
      mute: true,
    }));
}

export function limiterAt(thresholdDbfs: number, attackMs: number, releaseMs: number): Limiter {
  return { enabled: true, thresholdDbfs, attackMs, releaseMs };
}

function outputConnector(number: number): string {
  return `out-${twoDigits(number)}`;
}

function twoDigits(value: number): string {
  return String(value).padStart(2, "0");
}
