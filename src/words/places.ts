import { type Place, pointer, pointerParts } from "../base/findings/index.ts";
import {
  CHANNELS,
  type Configuration,
  type DocumentPath,
  type ItemPath,
  type Output,
  type ProgramChannel,
  pointerTo,
} from "../model/index.ts";
import { outputName } from "./outputs.ts";

/**
 * A place of a configuration, said from the screen's side: "Screen left, hf way, high-pass". Members that only a
 * reader of the file would name are left out.
 */
export function placeOf(configuration: Configuration, path: DocumentPath): Place {
  return { pointer: pointer(...path), words: wordsOf(configuration, path) };
}

/** A place by ids in the engineer's words; of its nearest ancestor where nothing is there. */
export function placeAtIds(configuration: Configuration, path: ItemPath): Place {
  return placeOf(configuration, pointerParts(pointerTo(configuration, path)));
}

function wordsOf(configuration: Configuration, path: DocumentPath): string {
  const [head, index, member, memberIndex] = path;
  const at = Number(index);
  const inner = Number(memberIndex);
  switch (head) {
    case "screen":
      return "Screen";
    case "unit":
      return "Unit";
    case "sources": {
      const source = configuration.sources[at];
      if (source === undefined) return "Sources";
      const channel = member === "channels" ? source.channels[inner] : undefined;
      return joined(`Source ${source.label}`, channel && `position ${channel.position}`);
    }
    case "channels":
      return configuration.channels[at] === undefined
        ? "Program channels"
        : `${channelName(configuration, configuration.channels[at].id)} channel`;
    case "equalizations":
      return equalizationWords(configuration, path);
    case "presets": {
      const preset = configuration.presets[at];
      if (preset === undefined) return "Presets";
      const route = member === "routing" ? preset.routing[inner] : undefined;
      return joined(
        `Preset ${preset.label}`,
        route &&
          `${sourceChannelName(configuration, route.sourceChannelId)} to ${channelName(configuration, route.channelId)}`,
      );
    }
    case "loudspeakers": {
      const loudspeaker = configuration.loudspeakers[at];
      if (loudspeaker === undefined) return "Loudspeakers";
      const way = member === "ways" ? loudspeaker.ways[inner] : undefined;
      return joined(loudspeaker.label, way && `${way.band} way`);
    }
    case "outputs": {
      const output = configuration.outputs[at];
      return output === undefined
        ? "Outputs"
        : joined(outputName(configuration, output), outputPart(configuration, output, path));
    }
    case "operation":
      return OPERATION_WORDS[String(index)] ?? "Operation";
    case "automation":
      return configuration.automation[at] === undefined
        ? "Automation"
        : `Automation ${configuration.automation[at].label}`;
    case "network": {
      const item = configuration.network.interfaces[Number(member)];
      return index === "interfaces" && item !== undefined ? `Network interface ${item.label}` : "Network";
    }
    case "calibration": {
      const channel =
        index === "channels" ? configuration.calibration?.channels[Number(member)]?.channelId : undefined;
      return joined("Calibration", channel && channelName(configuration, channel));
    }
    default:
      return "Configuration";
  }
}

const OPERATION_WORDS: Readonly<Record<string, string>> = {
  faderMark: "Fader at start-up",
  startPresetId: "Preset at start-up",
  emergencyMute: "Emergency mute",
  nonSync: "Non-sync",
  paging: "Paging microphone",
  boothMonitor: "Booth monitor",
  hearingImpaired: "Hearing-impaired feed",
  narration: "Narration feed",
};

/** "Left Side Surround"; the id where no channel has it. */
export function channelName(configuration: Configuration, channelId: string): string {
  const channel = configuration.channels.find((item) => item.id === channelId);
  return channel === undefined ? channelId : CHANNELS[channel.label].name;
}

/** In a plan, by its label: "channel Lss"; by the id where no channel has it. */
export function channelInPlan(id: string, channel: Pick<ProgramChannel, "label"> | undefined): string {
  return `channel ${channel?.label ?? id}`;
}

/** "Playback server 5"; the id where no source has it. */
export function sourceChannelName(configuration: Configuration, sourceChannelId: string): string {
  for (const source of configuration.sources) {
    const channel = source.channels.find((item) => item.id === sourceChannelId);
    if (channel !== undefined) return `${source.label} ${channel.position}`;
  }
  return sourceChannelId;
}

function outputPart(configuration: Configuration, output: Output, path: DocumentPath): string | undefined {
  const [, , member, memberIndex] = path;
  switch (member) {
    case "highPass":
      return "high-pass";
    case "lowPass":
      return "low-pass";
    case "limiter":
      return "limiter";
    case "fir":
      return "FIR filter";
    case "filters": {
      const filter = output.filters[Number(memberIndex)];
      return filter && `filter ${filter.id}`;
    }
    case "mix": {
      const part = output.mix[Number(memberIndex)];
      return part && `share of ${channelName(configuration, part.channelId)}`;
    }
    default:
      return undefined;
  }
}

function equalizationWords(configuration: Configuration, path: DocumentPath): string {
  const [, setIndex, , channelIndex, member, , bandIndex] = path;
  const set = configuration.equalizations[Number(setIndex)];
  if (set === undefined) return "EQ sets";
  const channel = path[2] === "channels" ? set.channels[Number(channelIndex)] : undefined;
  const filter = member === "parametric" ? channel?.parametric?.[Number(path[5])] : undefined;
  const band = member === "graphic" && bandIndex !== undefined ? Number(bandIndex) + 1 : undefined;
  return joined(
    `EQ set ${set.label}`,
    channel && channelName(configuration, channel.channelId),
    filter && `filter ${filter.id}`,
    band && `band ${band}`,
  );
}

function joined(...parts: readonly (string | undefined | false | 0)[]): string {
  return parts.filter((part) => part).join(", ");
}
