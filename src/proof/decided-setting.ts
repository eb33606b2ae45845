import type { Action, Crossover, Limiter, SettingProof } from "../model/index.ts";

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
  /** A mark on the new unit's scale; of a preset, of an automation item, or at start-up. */
  | {
      readonly setting: "fader";
      readonly presetId?: string;
      readonly automationId?: string;
      readonly decided: number;
    }
  | { readonly setting: "emergency-mute" | "paging" | "non-sync"; readonly decided: null }
  | { readonly setting: "slot"; readonly presetId: string; readonly decided: number }
  /** Key of a preset. */
  | { readonly setting: "start-preset"; readonly decided: string | null }
  /** Another action of an automation item; null: the item is left out. */
  | { readonly setting: "automation"; readonly automationId: string; readonly decided: Action | null }
);

/** Where a setting is. */
export type SettingPlace = Pick<
  SettingProof,
  "setting" | "feedId" | "presetId" | "channel" | "automationId" | "label"
>;

/** The decision on the setting at a place. */
export function decidedAt(
  settings: readonly DecidedSetting[],
  place: SettingPlace,
): DecidedSetting | undefined {
  if (place.channel !== undefined) return undefined;
  return settings.find(
    (item) =>
      item.setting === place.setting &&
      (["feedId", "presetId", "automationId"] as const).every((key) => keyOf(item, key) === place[key]),
  );
}

function keyOf(item: DecidedSetting, key: "feedId" | "presetId" | "automationId"): string | undefined {
  return key in item ? (item as SettingPlace)[key] : undefined;
}

/** Whether somebody decided that the output of a feed is muted. */
export function isMuteDecided(settings: readonly DecidedSetting[], feedId: string): boolean {
  return decidedAt(settings, { setting: "mute", feedId }) !== undefined;
}
