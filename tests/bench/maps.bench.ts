import { Bench } from "tinybench";
import { type LoadedMap, loadFieldMap, readExport, writeExport } from "../../src/exchange/fieldmap/index.ts";
import type { Configuration, Conversion, ExportSource, FieldMap, MapRule } from "../../src/model/index.ts";
import { SAMPLE_EXPORTS, sampleJson } from "../exchange/fieldmap/sample-maps.ts";

/** So many outputs with so many values each make 5,000 values. */
const OUTPUTS = 250;

interface Column {
  readonly name: string;
  readonly field: string;
  readonly as?: Conversion;
  readonly text: (index: number) => string;
}

const SWITCH: Conversion = {
  kind: "choice",
  choices: [
    { export: "0", value: false },
    { export: "1", value: true },
  ],
};
const TENTHS: Conversion = { kind: "level", unit: "tenth-dB" };
const corner = (field: string, name: string, hz: number): readonly Column[] => [
  { name: `${name}family`, field: `${field}.family`, text: () => "bessel" },
  { name: `${name}order`, field: `${field}.order`, text: () => "4" },
  {
    name: `${name}khz`,
    field: `${field}.frequencyHz`,
    as: { kind: "frequency", unit: "kHz" },
    text: () => String(hz),
  },
  { name: `${name}norm`, field: `${field}.normalization`, text: () => "phase" },
];

const COLUMNS: readonly Column[] = [
  { name: "id", field: "id", text: (i) => `o${i}` },
  { name: "label", field: "label", text: (i) => `Output-${i}` },
  { name: "jack", field: "connectorId", text: (i) => `out-${i}` },
  { name: "feeds", field: "feeds.kind", text: () => "spare" },
  { name: "gain", field: "gainDb", as: TENTHS, text: (i) => String(-(i % 60)) },
  { name: "delay", field: "delayMs", as: { kind: "time", unit: "samples" }, text: (i) => String(i) },
  { name: "polarity", field: "polarity", text: () => "normal" },
  { name: "mute", field: "mute", as: SWITCH, text: () => "0" },
  ...corner("highPass", "h", 0.08),
  ...corner("lowPass", "l", 1.6),
  { name: "limit", field: "limiter.enabled", as: SWITCH, text: () => "1" },
  { name: "threshold", field: "limiter.thresholdDbfs", as: TENTHS, text: () => "-60" },
  { name: "attack", field: "limiter.attackMs", text: () => "5" },
  { name: "release", field: "limiter.releaseMs", text: () => "250" },
];

const rows = Array.from({ length: OUTPUTS }, (_none, i) => COLUMNS.map((column) => column.text(i)));
const NAMES = COLUMNS.map(({ name }) => name);

const TEXTS: Readonly<Record<ExportSource["kind"], () => string>> = {
  json: () =>
    JSON.stringify(
      { out: rows.map((row) => Object.fromEntries(row.map((value, i) => [NAMES[i], value]))) },
      null,
      1,
    ),
  xml: () =>
    `<unit>${rows.map((row) => `<out ${row.map((value, i) => `${NAMES[i]}="${value}"`).join(" ")}/>`).join("\n")}</unit>`,
  table: () => [NAMES, ...rows].map((row) => row.join(";")).join("\r\n"),
  "key-value": () =>
    rows
      .map((row) => `[out.${row[0]}]\n${row.map((value, i) => `${NAMES[i]}=${value}`).join("\n")}`)
      .join("\n"),
  lines: () => rows.flatMap((row) => row.map((value, i) => `out ${row[0]} ${NAMES[i]} ${value}`)).join("\n"),
};

const SOURCES: Readonly<
  Record<ExportSource["kind"], readonly [source: ExportSource, each: string, at: string]>
> = {
  json: [{ kind: "json" }, "$.out[*]", "/"],
  xml: [{ kind: "xml", lists: ["out"] }, "$.unit.out[*]", "/@"],
  table: [{ kind: "table", delimiter: ";", header: "first-row" }, "$[*]", "/"],
  "key-value": [{ kind: "key-value", separator: "=", sections: true, divider: "." }, "$.out.*", "/"],
  lines: [
    {
      kind: "lines",
      forms: NAMES.map((name) => ({ form: `out {out} ${name} {${name}}`, at: "/out/{out}" })),
    },
    "$.out.*",
    "/",
  ],
};

function mapOf(kind: ExportSource["kind"]): LoadedMap {
  const [source, each, at] = SOURCES[kind];
  const rules: MapRule[] = COLUMNS.map(({ name, field, as }) => ({
    kind: "value",
    field,
    at: `${at}${name}`,
    ...(as === undefined ? {} : { as }),
  }));
  rules.push(NOTHING("mix", "channelId"), NOTHING("filters", "id"));
  const map: FieldMap = {
    kind: "boothkeep.field-map",
    schemaVersion: "1.0.0",
    id: kind,
    revision: "1.0.0",
    label: kind,
    source,
    rules: [{ kind: "list", list: "outputs", each, rules }],
  };
  return loadFieldMap(map);
}

/** A list that the schema wants and that is empty here. */
const NOTHING = (list: string, field: string): MapRule => ({
  kind: "list",
  list,
  each: "$.nothing[*]",
  rules: [{ kind: "value", field, at: "/x" }],
});

/** With one output less and another more, the last with another high-pass: three rounds of structure. */
function grown(configuration: Configuration): Configuration {
  const [first, ...others] = configuration.outputs as [Output, ...Output[]];
  const next = { ...first, id: "one-more", label: "More" };
  return { ...configuration, outputs: [...others, next] };
}

type Output = Configuration["outputs"][number];

function changed(configuration: Configuration): Configuration {
  const outputs = configuration.outputs.map((output, i) =>
    i % 10 === 0 ? { ...output, mute: true } : output,
  );
  return { ...configuration, outputs };
}

export async function run(): Promise<unknown> {
  const base = sampleJson<Configuration>("screens/lantern-mill/screen-4.json");
  const bench = new Bench({ time: 2000, warmupTime: 500 });
  const facts = new Map<string, { readonly values: number; readonly bytes: number }>();
  const add = (name: string, bytes: Uint8Array, loaded: LoadedMap, under?: Configuration) => {
    const options = under === undefined ? {} : { base: under };
    const { configuration, account } = readExport(bytes, loaded, options);
    const next = changed(configuration);
    facts.set(name, { values: account.counts.values, bytes: bytes.length });
    bench.add(`${name}: read`, () => readExport(bytes, loaded, options));
    bench.add(`${name}: write with changes`, () => writeExport(next, bytes, loaded));
    const other = grown(configuration);
    bench.add(`${name}: write with an item less and one more`, () => writeExport(other, bytes, loaded));
  };
  for (const { name, bytes, loaded } of SAMPLE_EXPORTS) add(name, bytes, loaded);
  for (const kind of Object.keys(TEXTS) as ExportSource["kind"][]) {
    add(`5,000 values as ${kind}`, Buffer.from(TEXTS[kind]()), mapOf(kind), base);
  }
  await bench.run();
  return bench.tasks.map((task) => {
    if (!("latency" in task.result)) throw new Error(`${task.name}: ${task.result.state}`);
    const { p50, p99 } = task.result.latency;
    return {
      name: task.name,
      ...facts.get(task.name.split(": ")[0]!),
      medianMs: round(p50),
      slowestOfHundredMs: round(p99),
    };
  });
}

const round = (ms: number): number => Math.round(ms * 10) / 10;
