import type { ChannelLabel, Configuration, EqSet, ProgramChannel } from "../../../../src/model/index.ts";
import { delayToArrive } from "../arrival.ts";
import { calibrated } from "../calibration.ts";
import { graphicEqSet } from "../equalizers.ts";
import { usualOperation } from "../feeds.ts";
import { presetsFrom } from "../presets.ts";
import { largeAutomation } from "./automation.ts";
import { LARGE_CHANNELS, type LargeAuditorium } from "./description.ts";
import { largeLoudspeakers } from "./loudspeakers.ts";
import { largeOutputs } from "./outputs.ts";
import { LARGE_SOURCES } from "./sources.ts";

/**
 * A large 7.1DS auditorium on a Skarn 30: three screen channels with three amplified ways each, side arrays in two
 * halves, rear arrays in two halves, two subwoofers, headset feeds and a booth monitor. Numbers are wishes: they are
 * not yet on the unit's steps.
 */
export function largeAuditorium(hall: LargeAuditorium): Configuration {
  const presets = presetsFrom(hall.presets, LARGE_SOURCES, LARGE_CHANNELS);
  return {
    $schema: "../../../schemas/configuration.schema.json",
    kind: "boothkeep.configuration",
    schemaVersion: "1.0.0",
    screen: hall.screen,
    unit: hall.unit,
    sources: LARGE_SOURCES,
    channels: programChannels(hall),
    equalizations: eqSets(hall),
    presets,
    loudspeakers: largeLoudspeakers(hall),
    outputs: largeOutputs(hall),
    operation: usualOperation({ faderMark: 80, alarm: "alarm-01" }),
    automation: largeAutomation(presets),
    network: hall.network,
    calibration: {
      date: hall.calibration.date,
      by: "Alignment team",
      equalizationId: "feature",
      microphonePositions: hall.calibration.positions,
      channels: calibrated(roomOf(hall), LARGE_CHANNELS),
      notes: "Power average over the positions, pink noise at -20 dBFS RMS, one channel at a time.",
    },
    notes: hall.notes,
  };
}

function roomOf({ screen }: LargeAuditorium): string {
  return `${screen.siteId}/${screen.screenId}`;
}

function programChannels(hall: LargeAuditorium): ProgramChannel[] {
  const { center, side, rear } = hall.distancesM;
  const surround = (nearM: number) =>
    delayToArrive({
      farM: center,
      nearM,
      afterMs: hall.surroundAfterMs,
      temperatureC: hall.screen.temperatureC,
    });
  const sideMs = surround(Math.max(...side));
  const rearMs = surround(Math.max(...rear));
  const delays: Partial<Record<ChannelLabel, number>> = {
    Lss: sideMs,
    Rss: sideMs,
    Lrs: rearMs,
    Rrs: rearMs,
  };
  return LARGE_CHANNELS.map((label) => ({
    id: label,
    label,
    levelDb: hall.levelsDb[label] ?? 0,
    delayMs: delays[label] ?? 0,
    mute: false,
  }));
}

function eqSets(hall: LargeAuditorium): EqSet[] {
  const shared = { room: roomOf(hall), channels: LARGE_CHANNELS };
  return [
    graphicEqSet({ id: "feature", label: "Feature", purpose: "feature", ...shared }),
    graphicEqSet({ id: "event", label: "Event and music", purpose: "event", ...shared }),
    graphicEqSet({ id: "speech", label: "Speech", purpose: "speech", ...shared }),
    graphicEqSet({ id: "archive", label: "Archive", purpose: "archive", ...shared }),
  ];
}
