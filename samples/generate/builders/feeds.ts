import type { ChannelLabel, Limiter, Operation, Output } from "../../../src/model/index.ts";
import { crossover } from "./crossovers.ts";
import { bell } from "./filters.ts";
import { limiterAt, singleOutput } from "./outputs.ts";

/** The outputs that no loudspeaker of the auditorium plays: headset transmitters and the monitor in the booth. */
export function feedOutputs(description: {
  /** Output connectors of HI, narration and booth monitor. */
  readonly connectors: readonly [hearing: number, narration: number, monitor: number];
  readonly labels: readonly [hearing: string, narration: string, monitor: string];
  /** Program channels that the booth monitor sums. */
  readonly monitored: readonly ChannelLabel[];
  readonly limiters: { readonly headset: Limiter; readonly monitor: Limiter };
}): Output[] {
  const { connectors, labels, monitored, limiters } = description;
  const headset = {
    highPass: crossover("butterworth", 2, 100),
    filters: [bell(2500, 1.5, 1)],
    gainDb: -9,
    delayMs: 0,
    limiter: limiters.headset,
  } as const;
  return [
    singleOutput({
      id: "hearing",
      label: labels[0],
      connector: connectors[0],
      feeds: { kind: "hearing-impaired" },
      mix: [{ channelId: "HI", gainDb: 0 }],
      ...headset,
    }),
    singleOutput({
      id: "narration",
      label: labels[1],
      connector: connectors[1],
      feeds: { kind: "narration" },
      mix: [{ channelId: "VIN", gainDb: 0 }],
      ...headset,
    }),
    singleOutput({
      id: "monitor",
      label: labels[2],
      connector: connectors[2],
      feeds: { kind: "booth-monitor" },
      mix: monitored.map((channelId) => ({ channelId, gainDb: channelId === "LFE" ? -24 : -20 })),
      highPass: crossover("butterworth", 2, 90),
      filters: [bell(250, -2, 1)],
      gainDb: -6,
      delayMs: 0,
      limiter: limiters.monitor,
    }),
  ];
}

export const HEADSET_LIMITER = limiterAt(-10, 2, 200);

/** How the booth works with a unit whose sources, presets and outputs have the usual ids. */
export function usualOperation(description: {
  /** Fader mark of 0 dB on the unit's scale. */
  readonly faderMark: number;
  /** Contact of the fire alarm. */
  readonly alarm: string;
}): Operation {
  return {
    faderMark: description.faderMark,
    startPresetId: "feature-51",
    // A broken wire mutes as the alarm does; sound returns by hand only.
    emergencyMute: { enabled: true, connectorId: description.alarm, activeWhen: "open", release: "by-hand" },
    nonSync: { sourceId: "music", presetId: "music" },
    paging: { sourceId: "microphone", presetId: "microphone", programDuckDb: 20 },
    boothMonitor: { outputId: "monitor", levelDb: -12 },
    hearingImpaired: { outputId: "hearing", levelDb: -6, whenAbsent: "program-mix" },
    narration: { outputId: "narration", levelDb: -6 },
  };
}
