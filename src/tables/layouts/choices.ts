import { GRAPHIC_LAYOUTS } from "../../acoustics/index.ts";
import { CHANNELS, DATA_SIGNALS, FORMAT_CHANNELS } from "../../model/index.ts";

/*
 * What the configuration schema allows where a word is chosen; a test holds each list against the schema.
 */

export const CHANNEL_LABELS: readonly string[] = Object.keys(CHANNELS);
export const FORMATS: readonly string[] = Object.keys(FORMAT_CHANNELS);
export const GRAPHICS: readonly string[] = GRAPHIC_LAYOUTS;
export const CARRIED: readonly string[] = [...CHANNEL_LABELS, ...DATA_SIGNALS, "mono", "unused"];
export const FEEDS: readonly string[] = [
  "loudspeaker",
  "hearing-impaired",
  "narration",
  "booth-monitor",
  "spare",
];
