import type { Comparison, Configuration, Preset } from "../../../model/index.ts";
import { printNumber, sourceChannelName } from "../../../words/index.ts";
import type { Block, Cell, Table } from "../../document.ts";

interface Both {
  readonly before: Configuration;
  readonly after: Configuration;
}

/** The routing of every preset whose routing differs: source channels by program channels. */
export function routingGrids({ changes }: Comparison, { before, after }: Both): readonly Block[] {
  const touched = new Set(
    changes.filter(({ field }) => field.startsWith("presets[].routing")).map(({ path }) => path[1]),
  );
  const grids = after.presets
    .filter(({ id }) => touched.has(id))
    .map((preset) => routingGrid({ before, after }, preset));
  return grids.length === 0 ? [] : [{ kind: "heading", level: 2, text: "Routing" }, ...grids];
}

function routingGrid({ before, after }: Both, preset: Preset): Table {
  const old = before.presets.find(({ id }) => id === preset.id);
  const sources = unique(
    [...(old?.routing ?? []), ...preset.routing].map(({ sourceChannelId }) => sourceChannelId),
  );
  const channels = unique([...(old?.routing ?? []), ...preset.routing].map(({ channelId }) => channelId));
  return {
    kind: "table",
    caption: `Routing of preset ${preset.label}, gain of each crossing in dB`,
    rowNames: true,
    columns: [
      { header: "From" },
      ...channels.map((id) => ({ header: labelOf(id, { before, after }), align: "center" as const })),
    ],
    rows: sources.map((source) => [
      sourceChannelName(after, source),
      ...channels.map((channel) => crossingCell(old, preset, source, channel)),
    ]),
  };
}

/** The channel's label: short, so that sixteen columns find room. */
function labelOf(id: string, { before, after }: Both): string {
  return (
    [after, before].flatMap(
      ({ channels }) => channels.find((channel) => channel.id === id)?.label ?? [],
    )[0] ?? id
  );
}

function unique(ids: readonly string[]): readonly string[] {
  return [...new Set(ids)];
}

function crossingCell(old: Preset | undefined, now: Preset, source: string, channel: string): Cell {
  const gain = (preset: Preset | undefined): string => {
    const route = preset?.routing.find(
      ({ sourceChannelId, channelId }) => sourceChannelId === source && channelId === channel,
    );
    return route === undefined ? "off" : printNumber(route.gainDb, 1);
  };
  const [before, after] = [gain(old), gain(now)];
  if (before === after) return after === "off" ? "" : after;
  return { text: `${after}, was ${before}`, strong: true };
}
