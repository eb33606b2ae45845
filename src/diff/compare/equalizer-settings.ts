import { graphicBandIndices, nominalThirdOctaveHz } from "../../acoustics/index.ts";
import type { ChannelEq, Configuration, ItemPath } from "../../model/index.ts";
import { counted, filterInComparison, printHz, printLevel } from "../../words/index.ts";
import type { Change } from "../changes/index.ts";
import type { Scene } from "./scene.ts";
import { byItem, within } from "./select.ts";

/** Changed settings of one equalizer; before and after are said where they are few. */
export interface ChangedSettings {
  readonly words: string;
  readonly before?: string;
  readonly after?: string;
}

/** More bands than these are not told one by one: the curve says it. */
const BANDS_TOLD = 4;

/** Which bands and filters of the equalizer at a place changed, and from what to what. */
export function changedSettings(scene: Scene, path: ItemPath, causes: readonly Change[]): ChangedSettings {
  const before = equalizerIn(scene.before, path);
  const after = equalizerIn(scene.after, path);
  if (before === undefined) return { words: "Equalizer added" };
  if (after === undefined) return { words: "Equalizer removed" };
  const bands = changedBands(before, after);
  const filters = byItem(within(causes, "equalizations[].channels[].parametric[]"), 6);
  const told = [...bands, ...filters.map((group) => changedFilter(before, after, group[0]!.path[5]!))];
  const onlyTold = causes.every(({ field }) => /gainsDb\[\]$|parametric\[\]/.test(field));
  if (!onlyTold || told.length === 0) return { words: "Equalizer set otherwise" };
  const words = `EQ changed in ${[
    ...(bands.length > 0 ? [counted(bands.length, "band")] : []),
    ...(filters.length > 0 ? [counted(filters.length, "filter")] : []),
  ].join(" and ")}`;
  if (told.length > BANDS_TOLD) return { words };
  return {
    words,
    before: told.map((one) => one.before).join("; "),
    after: told.map((one) => one.after).join("; "),
  };
}

function equalizerIn({ equalizations }: Configuration, [, set, , channel]: ItemPath): ChannelEq | undefined {
  const channels = equalizations.find(({ id }) => id === set)?.channels;
  return channels?.find(({ channelId }) => channelId === channel);
}

interface BeforeAfter {
  readonly before: string;
  readonly after: string;
}

function changedBands({ graphic: old }: ChannelEq, { graphic: now }: ChannelEq): readonly BeforeAfter[] {
  if (old === undefined || now === undefined || old.layout !== now.layout) return [];
  const bands = graphicBandIndices(old.layout);
  return now.gainsDb.flatMap((gainDb, index) => {
    const was = old.gainsDb[index];
    if (was === undefined || was === gainDb) return [];
    const name = printHz(nominalThirdOctaveHz(bands[index] ?? 0));
    return [{ before: `${name} ${printLevel(was)}`, after: `${name} ${printLevel(gainDb)}` }];
  });
}

function changedFilter(before: ChannelEq, after: ChannelEq, id: string): BeforeAfter {
  const settingIn = ({ parametric }: ChannelEq): string => {
    const band = parametric?.find((one) => one.id === id);
    return band === undefined ? "none" : filterInComparison(band);
  };
  return { before: settingIn(before), after: settingIn(after) };
}
