import type { SettingProof } from "../model/index.ts";

/**
 * Something that the new configuration leaves out on purpose. What it covers is reported as given up by decision, apart
 * from what is missing.
 */
export type GivenUp =
  | { readonly kind: "preset"; readonly presetId: string }
  | { readonly kind: "source"; readonly sourceId: string }
  | { readonly kind: "channel"; readonly label: string }
  | { readonly kind: "loudspeaker"; readonly loudspeakerId: string }
  | { readonly kind: "feed"; readonly feed: "hearing-impaired" | "narration" | "booth-monitor" }
  | { readonly kind: "setting"; readonly setting: SettingProof["setting"]; readonly feedId?: string };

/** Where a path of the old configuration runs. */
export interface GivenUpPath {
  readonly presetId: string;
  readonly sourceId: string;
  readonly channel: string;
  readonly feedKind: string;
  readonly loudspeakerId: string | undefined;
}

/** Whether a path of the old configuration was given up by decision. */
export function pathGivenUp(path: GivenUpPath, givenUp: readonly GivenUp[]): boolean {
  return givenUp.some((item) => covers(item, path));
}

function covers(item: GivenUp, path: GivenUpPath): boolean {
  switch (item.kind) {
    case "preset":
      return item.presetId === path.presetId;
    case "source":
      return item.sourceId === path.sourceId;
    case "channel":
      return item.label === path.channel;
    case "loudspeaker":
      return item.loudspeakerId === path.loudspeakerId;
    case "feed":
      return item.feed === path.feedKind;
    case "setting":
      return false;
  }
}

/** Whether a setting was given up by decision; without a feed named, at every feed. */
export function settingGivenUp(
  setting: Pick<SettingProof, "setting" | "feedId">,
  givenUp: readonly GivenUp[],
): boolean {
  return givenUp.some(
    (item) =>
      item.kind === "setting" &&
      item.setting === setting.setting &&
      (item.feedId === undefined || item.feedId === setting.feedId),
  );
}
