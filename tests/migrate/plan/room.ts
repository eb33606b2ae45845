import type {
  ChannelLabel,
  Configuration,
  Output,
  Placement,
  UnitProfile,
} from "../../../src/model/index.ts";
import type { Draft } from "../../proof/samples.ts";
import { SCREEN } from "./example.ts";

const PLACES: Readonly<Partial<Record<ChannelLabel, Placement>>> = {
  L: "screen-left",
  C: "screen-center",
  R: "screen-right",
  Lc: "screen-left-center",
  Lss: "surround-left-side",
  Lrs: "surround-left-rear",
  Ls: "surround-left",
};

/** How loud each channel was measured, in dB(C). */
const MEASURED: Readonly<Partial<Record<ChannelLabel, number>>> = {
  L: 85,
  C: 85,
  R: 85,
  Lc: 84.4,
  Lss: 82,
  Lrs: 81,
  Ls: 82,
};

/** A room with a loudspeaker of one way for each channel; each channel comes in by a source channel of its own. */
export function room(
  labels: readonly ChannelLabel[],
  change: (draft: Draft<Configuration>) => void = () => {},
) {
  const configuration = structuredClone(SCREEN) as Draft<Configuration>;
  configuration.channels = labels.map((label) => ({
    id: label,
    label,
    levelDb: -1,
    delayMs: 0,
    mute: false,
  }));
  configuration.loudspeakers = labels.map((label) => ({
    id: `speaker-${label}`,
    label: `Loudspeaker ${label}`,
    placement: PLACES[label]!,
    drive: "passive",
    boxes: 1,
    ways: [{ id: "full", band: "full" }],
  }));
  configuration.outputs = labels.map(
    (label, index): Draft<Output> => ({
      id: `out-${label}`,
      label,
      connectorId: `out-${index + 1}`,
      feeds: { kind: "loudspeaker", loudspeakerId: `speaker-${label}`, wayId: "full" },
      mix: [{ channelId: label, gainDb: 0 }],
      filters: [],
      gainDb: -index,
      delayMs: 0,
      polarity: "normal",
      mute: false,
    }),
  );
  configuration.sources[0]!.channels = labels.map((label, index) => ({
    id: `in-${label}`,
    position: index + 1,
    connectorId: `digital-${index + 1}`,
    carries: label,
    gainDb: 0,
  }));
  configuration.equalizations = [
    {
      id: "film",
      label: "Film",
      channels: labels.map((channelId, index) => ({
        channelId,
        parametric: [{ id: "b1", kind: "peaking", frequencyHz: 1000, gainDb: index - 2, q: 1 }],
      })),
    },
  ];
  configuration.presets = [
    {
      ...structuredClone(SCREEN.presets[0]!),
      routing: labels.map((label) => ({
        id: `r-${label}`,
        sourceChannelId: `in-${label}`,
        channelId: label,
        gainDb: 0,
      })),
    } as Draft<Configuration>["presets"][number],
  ];
  configuration.sources = configuration.sources.slice(0, 1);
  delete configuration.operation.paging;
  configuration.calibration = {
    date: "2026-05-04",
    by: "Service",
    equalizationId: "film",
    microphonePositions: [],
    channels: labels.map((channelId) => ({ channelId, levelDbC: MEASURED[channelId]! })),
  };
  change(configuration);
  return configuration as Configuration;
}

const lines = Array.from({ length: 6 }, (_, index) => ({
  id: `digital-${index + 1}`,
  label: `Digital ${index + 1}`,
  group: "Digital",
  position: index + 1,
  rack: 1,
  direction: "input" as const,
  kind: "aes3" as const,
  style: "xlr" as const,
}));
/** A unit that has just these program channels. */
export const unitWith = (profile: UnitProfile, labels: readonly ChannelLabel[]): UnitProfile => ({
  ...profile,
  connectors: [...profile.connectors.filter(({ kind }) => kind !== "aes3"), ...lines],
  channels: { ...profile.channels, labels: [...labels] },
});
