import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { converterOf } from "../../../src/exchange/fieldmap/conversions/index.ts";
import { loadFieldMap, readExport, writeExport } from "../../../src/exchange/fieldmap/index.ts";
import { readTree } from "../../../src/exchange/fieldmap/sources/index.ts";
import type { ExportSource, MapRule } from "../../../src/model/index.ts";
import { runs } from "../../runs.ts";
import { base, smallMap } from "./small-map.ts";

const plain = (text: string, source: ExportSource): unknown =>
  JSON.parse(JSON.stringify(readTree(text, source).root));

describe("sections and keys that stand many times", () => {
  const source: ExportSource = {
    kind: "key-value",
    separator: ":",
    sections: true,
    divider: ".",
    lists: ["out", "out.band", "eq"],
  };

  it("are lists, one inside the other", () => {
    const text =
      "[out]\nname: a\n[out.band]\nhz: 1\n[out.band]\nhz: 2\n[out]\nname: b\n[out.band]\nhz: 3\n[x]\neq: 5\n";
    expect(plain(text, source)).toEqual({
      out: [
        { name: "a", band: [{ hz: "1" }, { hz: "2" }] },
        { name: "b", band: [{ hz: "3" }] },
      ],
      x: { eq: "5" },
    });
    expect(plain("eq: 1\neq: 2\n", source)).toEqual({ eq: ["1", "2"] });
  });

  it("are refused where the source does not say so", () => {
    expect(() => readTree("[a]\nx: 1\n[a]\nx: 2\n", source)).toThrow(/stands in the export twice/);
  });
});

describe("quotes inside quotes", () => {
  const source: ExportSource = { kind: "key-value", separator: "=", sections: false, escape: "\\" };

  it("are read, and written again", () => {
    const tree = readTree('a = "the \\"big\\" one"\nb = plain\n', source);
    const leaf = tree.leaves.get("/a")!;
    expect(leaf.raw).toBe('the "big" one');
    expect(tree.write(leaf, 'x"y\\z')).toBe('"x\\"y\\\\z"');
  });

  it("hold any text, by a law", () => {
    fc.assert(
      fc.property(
        fc.string().filter((text) => !/[\r\n]/.test(text)),
        fc.constantFrom("\\", '"'),
        (text, mark) => {
          const own: ExportSource = { ...source, escape: mark };
          const leaf = readTree('a = "-"', own).leaves.get("/a")!;
          const written = readTree('a = "-"', own).write(leaf, text)!;
          expect(readTree(`a = ${written}`, own).leaves.get("/a")!.raw).toBe(text);
        },
      ),
      { numRuns: runs(200) },
    );
  });
});

describe("a table with more around it", () => {
  const text = "Unit;7\r\n\r\nNo;High-pass;;Low-pass;\r\n;Hz;dB;Hz;dB\r\n1;40;12;500;24\r\nsum;1\r\n";
  const source: ExportSource = {
    kind: "table",
    delimiter: ";",
    header: "first-row",
    titleRows: 1,
    headerRows: 2,
  };

  it("has its title apart, and columns named by all header rows", () => {
    expect(plain(text, { ...source, ragged: true })).toEqual({
      title: [["Unit", "7"]],
      rows: [
        { No: "1", "High-pass Hz": "40", "High-pass dB": "12", "Low-pass Hz": "500", "Low-pass dB": "24" },
        { No: "sum", "High-pass Hz": "1" },
      ],
    });
  });

  it("is refused where a row is too short, or the header is missing", () => {
    expect(() => readTree(text, source)).toThrow(/2 fields where its header row names 5/);
    expect(() => readTree("Unit;7\r\n", source)).toThrow(/before the header rows/);
  });

  it("tells of title rows where the first row cannot be a header", () => {
    expect(() =>
      readTree("Outputs;;\r\na;b;c\r\n", { kind: "table", delimiter: ";", header: "first-row" }),
    ).toThrow(/titleRows/);
  });
});

describe("XML", () => {
  it("keeps single quotes, and gives text beside elements without the space around it", () => {
    const tree = readTree("<a n='1'>\n  Name \n <b>2</b></a>", { kind: "xml" });
    expect(tree.write(tree.leaves.get("/a/@n")!, "it's")).toBe("'it&apos;s'");
    expect(tree.leaves.get("/a/#text")!.raw).toBe("Name");
  });
});

describe("the order of a filter", () => {
  const order = converterOf(
    { kind: "order", unit: "dB/octave" },
    { type: "number", decimal: ".", known: {} },
  );

  // 6 dB per octave and order: the asymptote of a Butterworth of order n, 20 n lg 2 = 6.02 n dB (any filter handbook).
  it.each([
    [6, 1],
    [12, 2],
    [18, 3],
    [24, 4],
    [48, 8],
  ])("%i dB per octave is order %i, both ways", (slope, value) => {
    expect(order.read(String(slope))).toBe(value);
    expect(order.write(value, "")).toBe(String(slope));
  });
});

describe("rules that hold under a condition", () => {
  const rule = (more: object): MapRule =>
    ({ kind: "fixed", field: "polarity", value: "inverted", ...more }) as never;
  const list = (...rules: readonly MapRule[]): MapRule => ({
    ...{ kind: "list", list: "outputs", each: "$.*" },
    rules: [
      { kind: "value", field: "id", segment: 0 },
      { kind: "value", field: "gainDb", at: "/gain" },
      { kind: "list", list: "filters", each: "$.no[*]", rules: [{ kind: "value", field: "id", at: "/x" }] },
      ...rules,
    ],
  });
  const load = (...rules: readonly MapRule[]) => loadFieldMap(smallMap({ kind: "json" }, [list(...rules)]));

  it("give one field in several ways", () => {
    const loaded = load(
      rule({ when: { field: "gainDb", is: [-3, -6] } }),
      rule({ value: "normal", when: { field: "gainDb", is: [-3, -6], not: true } }),
    );
    const [a, b] = base.outputs.map(({ id }) => id);
    const text = JSON.stringify({ [a!]: { gain: -6 }, [b!]: { gain: 1 } });
    const { outputs } = readExport(Buffer.from(text), loaded, { base }).configuration;
    expect(outputs.map(({ polarity }) => polarity)).toEqual(["inverted", "normal"]);
  });

  it("are refused where the deciding field is none, or depends on a condition itself", () => {
    expect(() => load(rule({ when: { field: "gain" } }))).toThrow(/no field 'outputs\[\]\.gain'/);
    expect(() => load(rule({ when: { field: "polarity" } }))).toThrow(/without a condition/);
    expect(() => load(rule({}), rule({ when: { field: "gainDb" } }))).toThrow(/Two rules give/);
  });
});

describe("values of an item beside those of the others", () => {
  const [a, b] = base.channels.map(({ id }) => id) as [string, string];
  const text = JSON.stringify({ levels: { [a]: -15, [b]: 5 }, delays: { [a]: 0, [b]: 480 } });
  const loaded = loadFieldMap(
    smallMap({ kind: "json" }, [
      {
        ...{ kind: "list", list: "channels", each: "$.levels.*" },
        rules: [
          { kind: "value", field: "id", segment: 0 },
          { kind: "value", field: "levelDb", at: "", as: { kind: "level", unit: "tenth-dB" } },
          {
            ...{ kind: "value", field: "delayMs", at: "/delays/{}", root: true },
            as: { kind: "time", unit: "samples", sampleRateHz: 48000 },
          },
        ],
      },
    ]),
  );

  it("read, and are written where they stand", () => {
    const { configuration, account } = readExport(Buffer.from(text), loaded, { base });
    expect(configuration.channels.map(({ id, levelDb, delayMs }) => [id, levelDb, delayMs])).toEqual([
      [a, -1.5, 0],
      [b, 0.5, 10],
    ]);
    expect(account.unknown).toEqual([]);
    expect(Buffer.from(writeExport(configuration, Buffer.from(text), loaded).bytes).toString()).toBe(text);
    const channels = configuration.channels.map((one) =>
      one.id === b ? { ...one, levelDb: 1, delayMs: 20 } : one,
    );
    const written = writeExport({ ...configuration, channels }, Buffer.from(text), loaded);
    expect(Buffer.from(written.bytes).toString()).toBe(text.replace(":5}", ":10}").replace("480", "960"));
  });

  it("are no items to be added or taken away, and the map is told so", () => {
    expect(loaded.notices.map(({ kind }) => kind)).toContain("list-fixed");
    const { configuration } = readExport(Buffer.from(text), loaded, { base });
    const channels = configuration.channels.slice(0, 1);
    expect(() => writeExport({ ...configuration, channels }, Buffer.from(text), loaded)).toThrow(
      expect.objectContaining({ code: "export.cannot-hold" }),
    );
  });
});
