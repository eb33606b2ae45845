import type { Output } from "../../../model/index.ts";
import { crossoverToKeyIn, inUse, limiterToKeyIn } from "../../../words/index.ts";
import type { Block, Item } from "../../document.ts";
import type { SheetContext } from "./context.ts";
import { filterTable } from "./filters.ts";

/** Every output along the rear panel, its settings in the order of the signal; without bare spare ones. */
export function outputGroups(context: SheetContext): readonly (readonly Block[])[] {
  return alongPanel(context)
    .filter((output) => !isBareSpare(output))
    .map((output): readonly Block[] => [
      {
        kind: "heading",
        level: 3,
        text: `${context.words.connector(output.connectorId)}: ${output.label}`,
      },
      { kind: "list", marker: "box", items: settingsToFilters(output, context) },
      ...(output.filters.length === 0
        ? []
        : [{ ...filterTable(output.filters, context.numbers), caption: `Driver EQ of ${output.label}` }]),
      { kind: "list", marker: "box", items: settingsFromFilters(output, context) },
    ]);
}

/** The bare spare outputs in one table. */
export function spareBlocks(context: SheetContext): readonly Block[] {
  const spare = alongPanel(context).filter(isBareSpare);
  return spare.length === 0 ? [] : [spareTable(spare, context)];
}

function alongPanel({ configuration, profile }: SheetContext): readonly Output[] {
  const place = new Map(profile.connectors.map((item) => [item.id, item.rack * 1000 + item.position]));
  return [...configuration.outputs].sort(
    (a, b) => (place.get(a.connectorId) ?? 0) - (place.get(b.connectorId) ?? 0),
  );
}

/** Feeds nothing and has nothing that a line of a table could not hold. */
function isBareSpare({ feeds, mix, highPass, lowPass, filters, fir, limiter }: Output): boolean {
  const parts = [highPass, lowPass, fir, limiter];
  return (
    feeds.kind === "spare" &&
    mix.length === 0 &&
    filters.length === 0 &&
    parts.every((part) => part === undefined)
  );
}

function settingsToFilters(output: Output, { words, numbers }: SheetContext): readonly Item[] {
  const mixed = output.mix.map((part) => `${words.channel(part.channelId)} ${numbers.db(part, "gainDb")}`);
  const hz = (crossover: { readonly frequencyHz: number }) => numbers.hz(crossover, "frequencyHz");
  return [
    { lead: "Name", text: output.label },
    { lead: "Connector", text: words.connector(output.connectorId) },
    { lead: "Feeds", text: words.feed(output.feeds) },
    { lead: "Mix", text: mixed.length === 0 ? "nothing" : mixed.join(", ") },
    { lead: "High-pass", text: crossoverToKeyIn(output.highPass, hz) },
    { lead: "Low-pass", text: crossoverToKeyIn(output.lowPass, hz) },
    ...(output.filters.length === 0 ? [{ lead: "Driver EQ", text: "none" }] : []),
  ];
}

function settingsFromFilters(output: Output, { profile, numbers }: SheetContext): readonly Item[] {
  const { fir } = output;
  return [
    ...(fir === undefined
      ? []
      : [
          {
            lead: "FIR filter",
            text: `${inUse(fir.enabled)}, ${fir.taps.length} coefficients: load them from a file, nobody keys them in.`,
          },
        ]),
    { lead: "Gain", text: numbers.db(output, "gainDb") },
    { lead: "Delay", text: numbers.delay(output, profile.outputs.delay) },
    { lead: "Polarity", text: output.polarity },
    { lead: "Limiter", text: limiterToKeyIn(output.limiter, numbers) },
    { lead: "Mute at the end", text: output.mute ? "muted" : "not muted" },
  ];
}

function spareTable(outputs: readonly Output[], { words, numbers, profile }: SheetContext): Block {
  return {
    kind: "table",
    caption: "Spare outputs: no mix, no filters, no limiter",
    boxes: true,
    columns: [
      { header: "Connector" },
      { header: "Name" },
      { header: "Gain", align: "end" },
      { header: "Delay", align: "end" },
      { header: "Polarity" },
      { header: "Mute" },
    ],
    rows: outputs.map((output) => [
      words.connector(output.connectorId),
      output.label,
      numbers.db(output, "gainDb"),
      numbers.delay(output, profile.outputs.delay),
      output.polarity,
      output.mute ? "muted" : "not muted",
    ]),
  };
}
