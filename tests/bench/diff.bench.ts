import { readFileSync } from "node:fs";
import { join } from "node:path";
import { diff as jsonDiffTs } from "json-diff-ts";
import { create } from "jsondiffpatch";
import { Bench } from "tinybench";
import { changesBetween } from "../../src/diff/changes/index.ts";
import { compareConfigurations } from "../../src/diff/compare/index.ts";
import { type Configuration, fieldAt, LIST_KEYS } from "../../src/model/index.ts";
import { comparisonReport, renderHtml, renderText } from "../../src/report/index.ts";

const VALUES = 5000;
const CHANGES = 25;
const PAIRS = 1000;

type Json = null | boolean | number | string | Json[] | { [name: string]: Json };

/** A large auditorium with presets added until it holds 5,000 values. */
function largeConfiguration(): Configuration {
  const file = join(import.meta.dirname, "..", "..", "samples", "screens", "lantern-mill", "screen-1.json");
  const document = JSON.parse(readFileSync(file, "utf8")) as { presets: { id: string; slot: number }[] };
  const [first] = document.presets;
  while (leavesOf(document as unknown as Json).length < VALUES) {
    const slot = document.presets.length + 1;
    document.presets.push({ ...structuredClone(first!), id: `added-${slot}`, slot });
  }
  return document as unknown as Configuration;
}

interface Leaf {
  readonly holder: Record<string | number, Json>;
  readonly name: string | number;
  readonly field: string;
}

function leavesOf(value: Json, field = ""): Leaf[] {
  if (typeof value !== "object" || value === null) return [];
  const list = Array.isArray(value);
  return Object.entries(value).flatMap(([name, child]) => {
    const here = list ? `${field}[]` : field === "" ? name : `${field}.${name}`;
    const leaf = { holder: value as Record<string, Json>, name: list ? Number(name) : name, field: here };
    return typeof child === "object" && child !== null ? leavesOf(child, here) : [leaf];
  });
}

/** Numbers of sound that stay valid when they move a little. */
function isMovable({ holder, name, field }: Leaf): boolean {
  return (
    typeof holder[name] === "number" &&
    /(Db|Ms|Hz|\.q|\[\])$/.test(field) &&
    !/sampleRate|calibration/.test(field)
  );
}

/** A copy in which numbers chosen by a step through the list moved. */
function withChanges(document: Configuration, count: number, start: number): Configuration {
  const copy = structuredClone(document);
  const movable = leavesOf(copy as unknown as Json).filter(isMovable);
  const step = Math.floor(movable.length / count);
  for (let index = 0; index < count; index++) {
    const leaf = movable[(start + index * step) % movable.length]!;
    leaf.holder[leaf.name] = Number(((leaf.holder[leaf.name] as number) + 0.5).toFixed(3));
  }
  return copy;
}

/** A copy in which every number that can move did, and every name is another one. */
function withEverythingChanged(document: Configuration): Configuration {
  const copy = structuredClone(document);
  for (const leaf of leavesOf(copy as unknown as Json)) {
    if (isMovable(leaf))
      leaf.holder[leaf.name] = Number(((leaf.holder[leaf.name] as number) + 0.5).toFixed(3));
    else if (fieldAt(leaf.field)?.label.startsWith("name of"))
      leaf.holder[leaf.name] = `${leaf.holder[leaf.name]} B`;
  }
  return copy;
}

const embeddedObjKeys = Object.fromEntries(
  Object.entries(LIST_KEYS)
    .filter(([, key]) => key === "id" || key === "channelId")
    .map(([list, key]) => [list.replaceAll("[]", ""), key]),
);
const patcher = create({
  objectHash: (item) => String((item as { id?: string }).id ?? (item as { channelId?: string }).channelId),
});

/** Median of many runs in ms, after warming up. */
async function medians(tasks: Readonly<Record<string, () => unknown>>): Promise<Record<string, number>> {
  const bench = new Bench({ time: 1000, warmupTime: 300 });
  for (const [name, task] of Object.entries(tasks)) bench.add(name, task);
  await bench.run();
  return Object.fromEntries(
    bench.tasks.map(({ name, result }) => [
      name,
      round("latency" in result ? result.latency.p50 : Number.NaN),
    ]),
  );
}

function round(value: number): number {
  return Number(value.toPrecision(3));
}

function tasksFor(before: Configuration, after: Configuration): Record<string, () => unknown> {
  return {
    "findings report (compare and render text)": () =>
      renderText(comparisonReport(compareConfigurations(before, after), { detail: "short" })),
    "findings (compareConfigurations)": () => compareConfigurations(before, after),
    "raw changes by identity (changesBetween)": () => changesBetween(before, after),
    "json-diff-ts diff alone": () => jsonDiffTs(before, after, { embeddedObjKeys }),
    "jsondiffpatch diff alone": () => patcher.diff(before, after),
  };
}

function oncePerPair(
  pairs: readonly (readonly [Configuration, Configuration])[],
  task: typeof jsonDiffTs,
): number {
  const start = performance.now();
  for (const [before, after] of pairs) task(before, after, { embeddedObjKeys });
  return round((performance.now() - start) / 1000);
}

/** Times in ms (medians) of one comparison; seconds for 1,000 pairs. */
export async function run(): Promise<unknown> {
  const document = largeConfiguration();
  const few = withChanges(document, CHANGES, 7);
  const all = withEverythingChanged(document);
  const counted = (after: Configuration) => {
    const { counts, findings } = compareConfigurations(document, after);
    return { changes: counts.changes, findings: findings.length };
  };
  const full = compareConfigurations(document, few, { curves: true });
  const pairs = Array.from({ length: PAIRS }, (_, index) => {
    const before = withChanges(document, CHANGES, index);
    return [before, withChanges(before, CHANGES, index * 3 + 1)] as const;
  });
  return {
    values: leavesOf(document as unknown as Json).length,
    "ms, nothing changed": await medians(tasksFor(document, structuredClone(document))),
    "ms, 25 changes": { ...counted(few), ...(await medians(tasksFor(document, few))) },
    "ms, everything changed": { ...counted(all), ...(await medians(tasksFor(document, all))) },
    "ms, 25 changes, full HTML page with plots": await medians({
      "compare with curves": () => compareConfigurations(document, few, { curves: true }),
      "render HTML": () =>
        renderHtml(
          comparisonReport(full, { detail: "full", configurations: { before: document, after: few } }),
        ),
    }),
    "s, 1000 pairs of 25 changes, one core": {
      "findings (compareConfigurations)": oncePerPair(pairs, ((a: Configuration, b: Configuration) =>
        compareConfigurations(a, b)) as unknown as typeof jsonDiffTs),
      "json-diff-ts diff alone": oncePerPair(pairs, jsonDiffTs),
      "jsondiffpatch diff alone": oncePerPair(pairs, ((a: Configuration, b: Configuration) =>
        patcher.diff(a, b)) as unknown as typeof jsonDiffTs),
    },
  };
}
