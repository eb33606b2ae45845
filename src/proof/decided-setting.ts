import type { Crossover, Limiter, SettingProof } from "../model/index.ts";

/**
 * A setting on which somebody decided, with the value that it has from now on (null: none). `muted`: it does not matter as
 * long as its output is muted, which is decided too. What protects less than before is excused only where the decision
 * accepts that in words.
 */
export type DecidedSetting = {
  readonly kind: "setting";
  readonly accepts?: "weaker-protection";
} & (
  | {
      readonly setting: "high-pass" | "low-pass";
      readonly feedId: string;
      readonly decided: Crossover | null | "muted";
    }
  | { readonly setting: "limiter"; readonly feedId: string; readonly decided: Limiter | null | "muted" }
  | { readonly setting: "fir"; readonly feedId: string; readonly decided: null | "muted" }
  | { readonly setting: "mute"; readonly feedId: string; readonly decided: true }
  /** A mark on the new unit's scale; of a preset, or at start-up. */
  | { readonly setting: "fader"; readonly presetId?: string; readonly decided: number }
  | { readonly setting: "emergency-mute" | "paging"; readonly decided: null }
);

/** The decision on the setting at a place. */
export function decidedAt(
  settings: readonly DecidedSetting[],
  { setting, feedId, presetId, channel }: Pick<SettingProof, "setting" | "feedId" | "presetId" | "channel">,
): DecidedSetting | undefined {
  if (channel !== undefined) return undefined;
  return settings.find((item) => {
    if (item.setting !== setting) return false;
    if (item.setting === "fader") return item.presetId === presetId;
    return "feedId" in item ? item.feedId === feedId : feedId === undefined;
  });
}

/** Whether somebody decided that the output of a feed is muted. */
export function isMuteDecided(settings: readonly DecidedSetting[], feedId: string): boolean {
  return decidedAt(settings, { setting: "mute", feedId }) !== undefined;
}
