import { metresFromMs } from "../../../base/units/index.ts";
import type { Comparison, Configuration } from "../../../model/index.ts";
import { channelName, outputName, printMetres, printMs } from "../../../words/index.ts";
import type { Block, Cell } from "../../document.ts";

interface Both {
  readonly before: Configuration;
  readonly after: Configuration;
}

/** A delay by a name that both documents share. */
interface NamedDelay {
  readonly name: string;
  readonly beforeMs: number | undefined;
  readonly afterMs: number | undefined;
}

/** Delays of all presets, program channels and outputs before and after; nothing when none differs. */
export function delayTable({ changes }: Comparison, configurations: Both): readonly Block[] {
  if (!changes.some(({ field }) => field.endsWith("delayMs"))) return [];
  const { temperatureC } = configurations.after.screen;
  const presets = namedDelays(configurations, ({ presets: list }) =>
    list.map(({ id, label, delayMs }) => ({ id, name: `Preset ${label}`, delayMs })),
  ).filter(({ beforeMs, afterMs }) => beforeMs !== afterMs);
  const channels = namedDelays(configurations, (side) =>
    side.channels.map(({ id, delayMs }) => ({ id, name: `${channelName(side, id)} channel`, delayMs })),
  );
  const outputs = namedDelays(configurations, (side) =>
    side.outputs
      .filter(({ feeds }) => feeds.kind !== "spare")
      .map((output) => ({
        id: outputName(side, output),
        name: outputName(side, output),
        delayMs: output.delayMs,
      })),
  );
  const rows = [...presets, ...channels, ...outputs];
  return [
    { kind: "heading", level: 2, text: "Delays" },
    {
      kind: "table",
      caption: "Delays of program channels and outputs, and of presets where they differ",
      rowNames: true,
      columns: [
        { header: "" },
        { header: "Before", align: "end" },
        { header: "After", align: "end" },
        { header: "After, as distance", align: "end" },
        { header: "Differs by", align: "end" },
      ],
      rows: rows.map((row) => delayRow(row, temperatureC)),
    },
  ];
}

interface Delayed {
  readonly id: string;
  readonly name: string;
  readonly delayMs: number;
}

function namedDelays(
  { before, after }: Both,
  list: (configuration: Configuration) => readonly Delayed[],
): readonly NamedDelay[] {
  const [old, now] = [before, after].map((side) => new Map(list(side).map((item) => [item.id, item])));
  const ids = [...new Set([...now!.keys(), ...old!.keys()])];
  return ids.map((id) => ({
    name: (now!.get(id) ?? old!.get(id))!.name,
    beforeMs: old!.get(id)?.delayMs,
    afterMs: now!.get(id)?.delayMs,
  }));
}

/** Half of the last decimal shown. */
const SMALLEST_SHOWN_MS = 0.005;

function delayRow({ name, beforeMs, afterMs }: NamedDelay, temperatureC: number): readonly Cell[] {
  const text = (ms: number | undefined): string => (ms === undefined ? "none" : printMs(ms));
  const distance = afterMs === undefined ? "" : printMetres(metresFromMs(afterMs, temperatureC));
  if (beforeMs === undefined || afterMs === undefined) {
    const words = beforeMs === undefined ? "new" : "gone";
    return [name, text(beforeMs), text(afterMs), distance, { text: words, strong: true }];
  }
  const difference = afterMs - beforeMs;
  if (Math.abs(difference) < SMALLEST_SHOWN_MS) return [name, text(beforeMs), text(afterMs), distance, ""];
  const words = `${printMs(Math.abs(difference))} ${difference > 0 ? "later" : "earlier"}`;
  return [
    name,
    text(beforeMs),
    { text: text(afterMs), strong: true },
    distance,
    { text: words, strong: true },
  ];
}
