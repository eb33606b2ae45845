import { channelName, outputName, sourceChannelName } from "../../../words/index.ts";
import type { ShownColumn } from "./layout.ts";

/** The name of the program channel that a key of the row names. */
export function channelNameColumn(level: number): ShownColumn {
  return {
    heading: "Channel name",
    of: (configuration, keys) => channelName(configuration, keys[level]!),
  };
}

/** What the output plays that the first key names. */
export const OUTPUT_PLAYS: ShownColumn = {
  heading: "Plays",
  of: (configuration, [id]) => {
    const output = configuration.outputs.find((item) => item.id === id);
    return output === undefined ? "" : outputName(configuration, output);
  },
};

/** What a crossing of the routing joins. */
export const CROSSING_JOINS: ShownColumn = {
  heading: "Joins",
  of: (configuration, [presetId, routeId]) => {
    const preset = configuration.presets.find((item) => item.id === presetId);
    const route = preset?.routing.find((item) => item.id === routeId);
    if (route === undefined) return "";
    return `${sourceChannelName(configuration, route.sourceChannelId)} to ${channelName(configuration, route.channelId)}`;
  },
};
