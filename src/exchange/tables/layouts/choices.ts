import { GRAPHIC_LAYOUTS } from "../../../acoustics/index.ts";
import { CHANNELS, DATA_SIGNALS, FORMAT_CHANNELS } from "../../../model/index.ts";

/*
 * What the configuration schema allows where a word is chosen; a test holds each list against the schema.
 */

export const CHANNEL_LABELS: readonly string[] = Object.keys(CHANNELS);
export const FORMATS: readonly string[] = Object.keys(FORMAT_CHANNELS);
export const GRAPHICS: readonly string[] = GRAPHIC_LAYOUTS;
export const CARRIED: readonly string[] = [...CHANNEL_LABELS, ...DATA_SIGNALS, "mono", "unused"];
export const PLACEMENTS: readonly string[] = [
  "screen-left",
  "screen-left-center",
  "screen-center",
  "screen-right-center",
  "screen-right",
  "subwoofer",
  "surround-left",
  "surround-right",
  "surround-left-side",
  "surround-right-side",
  "surround-left-rear",
  "surround-right-rear",
  "surround-rear",
];
export const DRIVES: readonly string[] = ["passive", "active-2", "active-3", "active-4"];
export const WAY_BANDS: readonly string[] = ["full", "lf", "mf", "hf", "vhf", "sub"];
export const FEEDS: readonly string[] = [
  "loudspeaker",
  "hearing-impaired",
  "narration",
  "booth-monitor",
  "spare",
];
