import type { ChannelLabel, Preset, Source } from "../../../src/model/index.ts";
import { routing } from "./routing.ts";

/** A preset before its source is looked up and its routing laid. */
export interface PresetWish extends Omit<Preset, "slot" | "routing" | "levelDb"> {
  readonly levelDb?: number;
}

/** Presets on the slots from 1 on, routed by their source and format. */
export function presetsFrom(
  wishes: readonly PresetWish[],
  sources: readonly Source[],
  auditorium: readonly ChannelLabel[],
): Preset[] {
  return wishes.map(({ levelDb = 0, ...wish }, index) => {
    const source = sources.find(({ id }) => id === wish.sourceId);
    if (source === undefined) throw new Error(`Preset ${wish.id}: no source ${wish.sourceId}`);
    return { ...wish, slot: index + 1, levelDb, routing: routing(source, wish.format, auditorium) };
  });
}
