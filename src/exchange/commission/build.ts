import { BoothkeepError } from "../../base/errors/index.ts";
import type { Finding } from "../../base/findings/index.ts";
import type { Configuration, LoudspeakerData, ScreenDescription, UnitProfile } from "../../model/index.ts";
import { faderMarkAt, GRAPHIC_BANDS, labelLimits, shortLabel } from "../../profile/index.ts";
import { validateConfiguration } from "../../rules/index.ts";
import { startDelays } from "./delays.ts";
import { outputsFor } from "./outputs.ts";
import { polarities } from "./polarity.ts";
import { presetsOf, sourceOf } from "./program.ts";
import { type Room, roomOf } from "./room.ts";
import { onUnitSteps } from "./settle.ts";

/** How much later than the screen surrounds arrive, in ms (precedence effect; the value: common practice, no source). */
const SURROUND_AFTER_MS = 15;

const EQUALIZATION_ID = "start";

/** A room, its loudspeakers and the unit. */
export interface BuildInput {
  readonly description: ScreenDescription;
  /** Data of every model that the description names. */
  readonly loudspeakers: LoudspeakerData;
  /** Of the unit that the description names. */
  readonly profile: UnitProfile;
}

/** A first configuration. */
export interface BuiltConfiguration {
  readonly configuration: Configuration;
  /** What the rule book says of it: no errors, but what is still open. */
  readonly findings: readonly Finding[];
  /** What nobody could know without being in the room, in the order of the work. */
  readonly open: readonly string[];
}

const OPEN = [
  "Check each way alone at low level against its data sheet: crossover, polarity, gain.",
  "Set limiters: they need the gain of the amplifiers and the unit's level at full scale.",
  "Align the ways of each loudspeaker and the subwoofers by measurement.",
  "Equalize and level by measurement: every equalizer is flat, levels come from data sheets.",
  "Add non-sync, paging and automation.",
  "Test the emergency mute with whoever is responsible for life safety.",
];

/**
 * Builds a first configuration of a screen: routing for every format, crossovers from the loudspeakers' data, polarity
 * from the computed sum of the ways, delays from distances and temperature, levels from sensitivities; all of it in the
 * unit's own steps, and without an error of the rule book.
 *
 * @throws BoothkeepError commission.* with what does not fit and what to do
 * @example
 * const { configuration, open } = buildConfiguration({ description, loudspeakers, profile });
 */
export function buildConfiguration({ description, loudspeakers, profile }: BuildInput): BuiltConfiguration {
  if (profile.id !== description.unit.profileId) {
    throw new BoothkeepError(
      "commission.does-not-fit",
      `The description names the unit profile '${description.unit.profileId}', not '${profile.id}'.`,
      { place: { pointer: "/unit/profileId" }, next: "Give the profile that the description names." },
    );
  }
  const room = roomOf(description, loudspeakers);
  const drafted = draft(description, room, profile);
  const settled = onUnitSteps(withShortLabels(drafted, profile), profile);
  const configuration = withPolarities(settled);
  const findings = validateConfiguration(configuration, { profile });
  const [error] = findings.filter(({ severity }) => severity === "error");
  if (error !== undefined) throw againstRules(error);
  return { configuration, findings, open: OPEN };
}

function draft(description: ScreenDescription, room: Room, profile: UnitProfile): Configuration {
  const { screen, unit, formats, network, emergencyMute, notes } = description;
  const sampleRateHz = unit.sampleRateHz ?? profile.sampleRatesHz[0]!;
  const delays = startDelays(room.placed, {
    temperatureC: screen.temperatureC,
    afterMs: description.surroundAfterMs ?? SURROUND_AFTER_MS,
  });
  const source = sourceOf(description, profile);
  const presets = presetsOf(description, {
    source,
    channels: room.channels,
    equalizationId: EQUALIZATION_ID,
    profile,
    sampleRateHz,
  });
  const outputs = outputsFor(description, room, { profile, channelDelays: delays });
  const outputOf = (kind: string) => outputs.find(({ feeds }) => feeds.kind === kind);
  const [monitor, hearing, narration] = ["booth-monitor", "hearing-impaired", "narration"].map(outputOf);
  return {
    kind: "boothkeep.configuration",
    schemaVersion: "1.0.0",
    screen: { ...screen, format: formats[0]! },
    unit: {
      profileId: profile.id,
      profileRevision: profile.revision,
      serial: unit.serial,
      firmware: unit.firmware,
      sampleRateHz,
      label: unit.label ?? screen.screenName,
    },
    sources: [source],
    channels: room.channels.map((label) => ({
      id: label,
      label,
      levelDb: 0,
      delayMs: delays.channels.get(label) ?? 0,
      mute: false,
    })),
    equalizations: [flatEqualization(room, profile)],
    presets,
    loudspeakers: room.placed.map(({ loudspeaker }) => loudspeaker),
    outputs,
    operation: {
      faderMark: faderMarkAt(profile.fader, 0),
      startPresetId: presets[0]!.id,
      emergencyMute: { enabled: true, ...emergencyMute, release: "by-hand" },
      ...(monitor === undefined ? {} : { boothMonitor: { outputId: monitor.id, levelDb: 0 } }),
      ...(hearing === undefined
        ? {}
        : { hearingImpaired: { outputId: hearing.id, levelDb: 0, whenAbsent: "silence" } }),
      ...(narration === undefined ? {} : { narration: { outputId: narration.id, levelDb: 0 } }),
    },
    automation: [],
    network,
    ...(notes === undefined ? {} : { notes }),
  };
}

function flatEqualization({ channels }: Room, { equalizations: { graphic } }: UnitProfile) {
  return {
    id: EQUALIZATION_ID,
    label: "Start",
    channels: channels.map((channelId) => ({
      channelId,
      ...(graphic === undefined
        ? {}
        : {
            graphic: {
              layout: graphic.layout,
              gainsDb: Array<number>(GRAPHIC_BANDS[graphic.layout]).fill(0),
            },
          }),
    })),
  };
}

function withShortLabels(configuration: Configuration, profile: UnitProfile): Configuration {
  const limits = labelLimits(profile.labels);
  const named = <Item extends { readonly label: string }>(items: readonly Item[]): readonly Item[] => {
    const taken = new Set<string>();
    return items.map((item) => {
      const label = shortLabel(item.label, limits, taken) ?? item.label;
      taken.add(label);
      return { ...item, label };
    });
  };
  const { unit, sources, equalizations, presets, outputs, network } = configuration;
  return {
    ...configuration,
    unit: { ...unit, label: shortLabel(unit.label, limits, new Set()) ?? unit.label },
    sources: named(sources),
    equalizations: named(equalizations),
    presets: named(presets),
    outputs: named(outputs),
    network: { ...network, interfaces: named(network.interfaces) },
  };
}

function withPolarities(configuration: Configuration): Configuration {
  const found = polarities(configuration);
  return {
    ...configuration,
    outputs: configuration.outputs.map((output) => ({
      ...output,
      polarity: found.get(output.id) ?? output.polarity,
    })),
  };
}

function againstRules({ code, words, place, remedy }: Finding): BoothkeepError {
  return new BoothkeepError("commission.against-rules", `${place.words}: ${words} (${code})`, {
    place: { pointer: place.pointer },
    next: `Change the description or the data: ${remedy}`,
    data: { code },
  });
}
