import { describe, expect, it } from "vitest";
import { FIELD_WORDS } from "../../src/fieldmap/field-words.ts";
import { loadFieldMap, startFieldMap } from "../../src/fieldmap/index.ts";
import { type ExportSource, type MapRule, readDocument } from "../../src/model/index.ts";
import { enumerationsOf } from "./configuration-schema.ts";
import { share } from "./map-likeness.ts";
import { SAMPLE_EXPORTS } from "./sample-maps.ts";
import { smallMap } from "./small-map.ts";

/** How much of each finished map a person need not write; measured, and held so that it does not fall. */
const FLOORS: Readonly<Record<string, number>> = {
  "lantern-mill-1.xml": 0.97,
  "copper-heron-1.xml": 0.97,
  "copper-heron-2.csv": 0.97,
  "copper-heron-2.json": 0.9,
  "lantern-mill-4.ini": 0.93,
  // Lines whose values no word names: only their places are found.
  "lantern-mill-4.txt": 0.45,
};

describe.each(SAMPLE_EXPORTS)("a map begun from $name", ({ name, bytes, loaded }) => {
  const started = startFieldMap(bytes, { id: "begun" });
  const begun = loadFieldMap(started.map);

  it("is valid and reads the export as far as it goes", () => {
    const text = JSON.stringify(started.map);
    expect(readDocument(text, { expect: "boothkeep.field-map" }).document).toEqual(started.map);
    expect(started.map.source.kind).toBe(loaded.map.source.kind);
  });

  it("has its share of the finished map", () => {
    const { rules, found, wrong } = share(bytes, loaded, begun);
    expect(rules).toBeGreaterThan(100);
    expect(found / rules).toBeGreaterThanOrEqual(FLOORS[name]!);
    expect(wrong.length / rules).toBeLessThanOrEqual(0.08);
  });

  it("says why, and what is left", () => {
    for (const { words, at } of started.proposed) expect([at, words.length > 10]).toEqual([at, true]);
    for (const { line, values } of started.open) expect(line * values).toBeGreaterThan(0);
  });
});

interface Stranger {
  readonly name: string;
  readonly text: string;
  readonly source: ExportSource;
  readonly rules: readonly MapRule[];
  readonly floor: number;
}

const at = (field: string, place: string, more: object = {}): MapRule => ({
  kind: "value",
  field,
  at: place,
  ...more,
});
const tenths = { as: { kind: "level", unit: "tenth-dB", decimals: 0 } } as const;
const kHz = { as: { kind: "frequency", unit: "kHz" } } as const;

/**
 * Exports in words of their own, written before the proposals were tried on them. Two showed faults of structure, which
 * were mended; no word was added for them.
 */
const STRANGERS: readonly Stranger[] = [
  {
    name: "elements in capitals",
    source: { kind: "xml", lists: ["Amp", "Eq"] },
    text: `<?xml version="1.0"?>
<Snapshot>
  <Device><SerialNumber>Q-77</SerialNumber><FirmwareVersion>3.1.4</FirmwareVersion><SampleRate>48000</SampleRate></Device>
  <Amps>
    <Amp><Key>lf-left</Key><Title>Left low</Title><Gain>-35</Gain><DelayMicroseconds>1500</DelayMicroseconds><Muted>false</Muted>
      <HighPass><Type>butterworth</Type><Order>4</Order><Frequency>40</Frequency></HighPass>
      <Eqs><Eq><Key>1</Key><Type>peaking</Type><Frequency>125</Frequency><Gain>-40</Gain><Q>2.5</Q></Eq>
           <Eq><Key>2</Key><Type>high-shelf</Type><Frequency>8000</Frequency><Gain>15</Gain><Q>0.7</Q></Eq></Eqs></Amp>
    <Amp><Key>hf-left</Key><Title>Left high</Title><Gain>-105</Gain><DelayMicroseconds>0</DelayMicroseconds><Muted>true</Muted>
      <HighPass><Type>linkwitz-riley</Type><Order>4</Order><Frequency>900</Frequency></HighPass>
      <Eqs><Eq><Key>1</Key><Type>peaking</Type><Frequency>3150</Frequency><Gain>-25</Gain><Q>4</Q></Eq></Eqs></Amp>
  </Amps>
</Snapshot>`,
    rules: [
      at("unit.serial", "/Snapshot/Device/SerialNumber"),
      at("unit.firmware", "/Snapshot/Device/FirmwareVersion"),
      at("unit.sampleRateHz", "/Snapshot/Device/SampleRate"),
      {
        ...{ kind: "list", list: "outputs", each: "$.Snapshot.Amps.Amp[*]" },
        rules: [
          at("id", "/Key"),
          at("label", "/Title"),
          at("gainDb", "/Gain", tenths),
          at("delayMs", "/DelayMicroseconds", { as: { kind: "time", unit: "us" } }),
          at("mute", "/Muted"),
          at("highPass.family", "/HighPass/Type"),
          at("highPass.order", "/HighPass/Order"),
          at("highPass.frequencyHz", "/HighPass/Frequency"),
          {
            ...{ kind: "list", list: "filters", each: "$.Eqs.Eq[*]" },
            rules: [
              at("id", "/Key"),
              at("kind", "/Type"),
              at("frequencyHz", "/Frequency"),
              at("gainDb", "/Gain", tenths),
              at("q", "/Q"),
            ],
          },
        ],
      },
    ],
    floor: 0.95,
  },
  {
    name: "one table of outputs",
    source: { kind: "table", delimiter: "\t", header: "first-row" },
    text: [
      "Connector\tID\tName\tAtten dB\tDelay ms\tPolarity\tHPF kHz\tHPF Order\tHPF Family",
      "1\tll\tLeft low\t-3.5\t1.25\tnormal\t0.04\t4\tbutterworth",
      "2\tlh\tLeft high\t-10.5\t0\tinverted\t0.9\t4\tlinkwitz-riley",
      "3\tsub\tSub\t0\t4.5\tnormal\t0.025\t2\tbutterworth",
    ].join("\r\n"),
    rules: [
      {
        ...{ kind: "list", list: "outputs", each: "$[*]" },
        rules: [
          at("id", "/ID"),
          at("connectorId", "/Connector", { as: { kind: "template", text: "out-{}", pad: 2 } }),
          at("label", "/Name"),
          at("gainDb", "/Atten dB"),
          at("delayMs", "/Delay ms"),
          at("polarity", "/Polarity"),
          at("highPass.frequencyHz", "/HPF kHz", kHz),
          at("highPass.order", "/HPF Order"),
          at("highPass.family", "/HPF Family"),
        ],
      },
    ],
    floor: 0.8,
  },
  {
    name: "numbered keys",
    source: { kind: "key-value", separator: ":", sections: false, divider: "." },
    text: `SYS.Serial: 0042-A
SYS.FW: 2.0.1
SYS.Clock: 96000
AUD.House: north-hall
AUD.Temp: 22
OUT.1.Name: Left
OUT.1.Lvl: -3.0
OUT.1.Smp: 144
OUT.1.Inv: no
OUT.2.Name: Right
OUT.2.Lvl: -3.5
OUT.2.Smp: 96
OUT.2.Inv: yes
OUT.3.Name: Sub
OUT.3.Lvl: 1.0
OUT.3.Smp: 0
OUT.3.Inv: no
`,
    rules: [
      at("unit.serial", "/SYS/Serial"),
      at("unit.firmware", "/SYS/FW"),
      at("unit.sampleRateHz", "/SYS/Clock"),
      at("screen.siteId", "/AUD/House"),
      at("screen.temperatureC", "/AUD/Temp"),
      {
        ...{ kind: "list", list: "outputs", each: "$.OUT.*" },
        rules: [
          { kind: "value", field: "id", segment: 0 },
          at("label", "/Name"),
          at("gainDb", "/Lvl"),
          at("delayMs", "/Smp", { as: { kind: "time", unit: "samples" } }),
          at("polarity", "/Inv", {
            as: {
              kind: "choice",
              choices: [
                { export: "no", value: "normal" },
                { export: "yes", value: "inverted" },
              ],
            },
          }),
        ],
      },
    ],
    floor: 0.65,
  },
];

it.each(STRANGERS)("finds its share of a stranger: $name", ({ text, source, rules, floor }) => {
  const bytes = Buffer.from(text);
  const { map } = startFieldMap(bytes, { id: "stranger" });
  const found = share(bytes, loadFieldMap(smallMap(source, rules)), loadFieldMap(map));
  expect(found.found / found.rules, JSON.stringify(found)).toBeGreaterThanOrEqual(floor);
});

it("knows the words of every field that has words of its own", () => {
  for (const [path, words] of enumerationsOf()) {
    expect([path, [...(FIELD_WORDS[path] ?? [])].sort()]).toEqual([path, [...words].sort()]);
  }
});
