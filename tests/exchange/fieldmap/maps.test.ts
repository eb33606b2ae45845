import { describe, expect, it } from "vitest";
import {
  checkFieldMap,
  loadFieldMap,
  readExport,
  writeExport,
} from "../../../src/exchange/fieldmap/index.ts";
import type { Configuration, MapRule } from "../../../src/model/index.ts";
import { SAMPLE_EXPORTS } from "./sample-maps.ts";
import { base, SLOTS, smallMap } from "./small-map.ts";

const slot = (type: string, hz = 1000, db = 0) => ({ type, hz, db, q: 1 });
const ids = base.outputs.map(({ id }) => id);
const exportOf = (slots: readonly object[]) =>
  Buffer.from(
    JSON.stringify(
      { outs: ids.map((id) => ({ id, gain: -65, slots })), secret: "kept", other: [1, 2] },
      null,
      1,
    ),
  );
const loaded = loadFieldMap(
  smallMap({ kind: "json" }, SLOTS, { ignore: [{ each: "$.other", reason: "Nothing." }] }),
);
const bytes = exportOf([slot("peaking", 500, -3), slot("off", 77, 9), slot("peaking", 2000, 1)]);

describe("slots that are always there", () => {
  const { configuration, account } = readExport(bytes, loaded, { base });

  it("gives only those in use, and the rest from the base", () => {
    expect(configuration.outputs[0]!.filters.map(({ id, frequencyHz }) => [id, frequencyHz])).toEqual([
      ["b1", 500],
      ["b3", 2000],
    ]);
    expect(configuration.outputs[0]!.gainDb).toBe(-6.5);
    expect(configuration.outputs[0]!.highPass).toEqual(base.outputs[0]!.highPass);
    expect(configuration.screen).toEqual(base.screen);
  });

  it("accounts for the ignored and the unknown", () => {
    expect(account.counts).toMatchObject({ ignored: 2, unknown: 1 });
    expect(account.unknown).toEqual([expect.objectContaining({ pointer: "/secret", raw: "kept" })]);
    const origin = (pointer: string) => account.fields.find((field) => field.pointer === pointer);
    expect(origin("/outputs/0/gainDb")).toEqual({
      pointer: "/outputs/0/gainDb",
      origin: "export",
      from: "/outs/0/gain",
    });
    expect(origin("/outputs/0/filters/1/id")).toMatchObject({ origin: "place" });
    expect(origin("/screen/seats")).toMatchObject({ origin: "base" });
  });

  it("switches a slot off and another on, in those places only", () => {
    const [first, ...others] = configuration.outputs;
    const filters = [
      first!.filters[0]!,
      { id: "b2", kind: "peaking" as const, frequencyHz: 800, gainDb: -2, q: 4 },
    ];
    const wanted: Configuration = { ...configuration, outputs: [{ ...first!, filters }, ...others] };
    const written = writeExport(wanted, bytes, loaded);
    const places = written.changed.map(({ pointer, after }) => [pointer.replace("/outs/0/slots", ""), after]);
    expect(places).toEqual([
      ["/1/type", "peaking"],
      ["/1/hz", "800"],
      ["/1/db", "-2"],
      ["/1/q", "4"],
      ["/2/type", "off"],
    ]);
    expect(readExport(written.bytes, loaded, { base }).configuration.outputs[0]!.filters).toEqual(filters);
    expect(Buffer.from(written.bytes).toString()).toContain('"secret": "kept"');
  });

  it("tells what the export rounds, and writes it only when losses are accepted", () => {
    const [first, ...others] = configuration.outputs;
    const wanted: Configuration = { ...configuration, outputs: [{ ...first!, gainDb: -6.27 }, ...others] };
    expect(() => writeExport(wanted, bytes, loaded)).toThrow(
      expect.objectContaining({ code: "export.cannot-hold" }),
    );
    const { left } = writeExport(wanted, bytes, loaded, { acceptLosses: true });
    expect(left).toEqual([{ pointer: "/outputs/0/gainDb", reason: "rounded", wanted: -6.27, held: -6.3 }]);
  });
});

describe("keys with values, decimal commas, defaults, fixed values, joined keys", () => {
  const rules: readonly MapRule[] = [
    { kind: "value", field: "unit.label", at: "/unit/name" },
    { kind: "value", field: "screen.temperatureC", at: "/unit/air" },
    {
      kind: "value",
      field: "screen.videoLatencyMs",
      at: "/unit/picture",
      as: { kind: "time", unit: "frames" },
      default: 0,
    },
    { kind: "fixed", field: "unit.profileId", value: "dunlin-16" },
    {
      kind: "list",
      list: "automation",
      each: "$.cue.*",
      rules: [
        { kind: "value", field: "label", at: "/name" },
        { kind: "join", field: "id", text: "cue-{action.presetId}-{trigger.connectorId}" },
        { kind: "fixed", field: "trigger.kind", value: "contact" },
        { kind: "value", field: "trigger.connectorId", at: "/jack" },
        { kind: "fixed", field: "trigger.edge", value: "closing" },
        { kind: "fixed", field: "action.kind", value: "recall-preset" },
        { kind: "value", field: "action.presetId", at: "/show" },
      ],
    },
  ];
  const source = { kind: "key-value", separator: "=", sections: true, divider: "." } as const;
  const map = loadFieldMap(smallMap(source, rules, { decimal: "," }));
  const ini = Buffer.from(
    "[unit]\nname = HALL\nair = 21,5\n[cue.1]\nname=A\njack=contact-01\nshow=music\n",
    "utf16le",
  );
  const utf16 = Buffer.concat([Buffer.from([0xff, 0xfe]), ini]);

  it("reads them, tells their origins, and writes back the same bytes", () => {
    const { configuration, account } = readExport(utf16, map, { base });
    expect(configuration.screen).toMatchObject({ temperatureC: 21.5, videoLatencyMs: 0 });
    expect(configuration.automation).toHaveLength(1);
    expect(configuration.automation[0]!.id).toBe("cue-music-contact-01");
    const origins = Object.fromEntries(account.fields.map(({ pointer, origin }) => [pointer, origin]));
    expect(origins["/screen/videoLatencyMs"]).toBe("map");
    expect(origins["/automation/0/id"]).toBe("joined");
    expect(origins["/screen/seats"]).toBe("base");
    const written = writeExport(configuration, utf16, map);
    expect(Buffer.from(written.bytes).equals(utf16)).toBe(true);
  });

  it("tells a field that is always the map's own apart from one that has no room", () => {
    const { configuration } = readExport(utf16, map, { base });
    const other = { ...configuration, unit: { ...configuration.unit, profileId: "skarn-30" } };
    const { left } = writeExport(other, utf16, map);
    expect(left).toEqual([expect.objectContaining({ pointer: "/unit/profileId", reason: "outside" })]);
  });

  it("writes a changed value in the encoding of the export", () => {
    const { configuration } = readExport(utf16, map, { base });
    const other = { ...configuration, screen: { ...configuration.screen, temperatureC: 19 } };
    const text = Buffer.from(writeExport(other, utf16, map).bytes)
      .subarray(2)
      .toString("utf16le");
    expect(text).toContain("air = 19,0\n");
  });
});

describe("samples and metres", () => {
  const latency: MapRule = {
    kind: "value",
    field: "screen.videoLatencyMs",
    at: "/picture",
    as: { kind: "time", unit: "samples" },
  };
  const rate: MapRule = { kind: "value", field: "unit.sampleRateHz", at: "/rate" };
  const text = Buffer.from('{"picture": 960, "rate": 96000}');
  const read = (rules: readonly MapRule[]) =>
    readExport(text, loadFieldMap(smallMap({ kind: "json" }, rules)), { base }).configuration.screen
      .videoLatencyMs;

  it("rest on what the export says, wherever it says it, else on the base", () => {
    expect(base.unit.sampleRateHz).toBe(48_000);
    expect(read([latency, rate])).toBe(10);
    expect(read([latency])).toBe(20);
  });
});

describe("exports that do not fit", () => {
  const fits = (text: string) => {
    try {
      readExport(Buffer.from(text), loaded, { base, file: "x.json" });
    } catch (error) {
      return error as {
        code: string;
        message: string;
        data: { problems: { line?: number; field: string }[] };
      };
    }
    throw new Error("read");
  };
  const text = bytes.toString();

  it.each([
    [
      "a text where a number stands",
      text.replace("-65", '"loud"'),
      "export.does-not-fit",
      /'loud' is not a number/,
    ],
    ["a value that is missing", text.replace('"gain"', '"gian"'), "export.does-not-fit", /no such value/],
    ["a filter that is none", text.replace('"peaking"', '"wobble"'), "export.does-not-fit", /wobble|kind/],
    ["a gain of 900 dB", text.replace("-65", "9000"), "export.does-not-fit", /900|at most/],
    ["a text cut short", text.slice(0, 900), "input.not-json", /JSON/],
    ["nothing", "", "input.not-json", /empty/],
    ["an export of another kind", "[unit]\nname=x\n", "input.not-json", /JSON/],
  ])("%s is told with its place; nothing is read", (_name, broken, code, words) => {
    const error = fits(broken);
    expect(error.code).toBe(code);
    expect(error.message).toMatch(words);
  });

  it("names the line, the field and the place in the export", () => {
    const { data } = fits(text.replace("-65", '"loud"'));
    expect(data.problems).toEqual([
      expect.objectContaining({ line: 5, field: "outputs[].gainDb", pointer: "/outs/0/gain" }),
    ]);
  });

  it("takes no member beyond the schema, whatever the map's paths say", () => {
    const rule: MapRule = { kind: "value", field: "__proto__.polluted", at: "/x" };
    expect(() => loadFieldMap(smallMap({ kind: "json" }, [rule]))).toThrow(
      expect.objectContaining({ code: "field-map.unusable" }),
    );
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });
});

describe("loading a map", () => {
  const wrong = (rules: readonly MapRule[], more = {}) => {
    try {
      loadFieldMap(smallMap({ kind: "json" }, rules, more));
    } catch (error) {
      return error as { code: string; message: string; next: string; place: { pointer?: string } };
    }
    throw new Error("loaded");
  };
  const value = (field: string, at = "/x"): MapRule => ({ kind: "value", field, at });

  it.each<readonly [string, readonly MapRule[], string]>([
    ["an unknown field", [value("unit.sreial")], "/rules/0/field"],
    ["a field twice", [value("unit.serial"), value("unit.serial", "/y")], "/rules/1/field"],
    ["no place", [{ kind: "value", field: "unit.serial" }], "/rules/0"],
    ["no JSONPath", [{ kind: "list", list: "outputs", each: "$.a[", rules: [value("id")] }], "/rules/0/each"],
    [
      "a list without its key",
      [{ kind: "list", list: "outputs", each: "$.a", rules: [value("label")] }],
      "/rules/0/rules",
    ],
    [
      "a list that is none",
      [{ kind: "list", list: "unit", each: "$.a", rules: [value("id")] }],
      "/rules/0/list",
    ],
    ["numbers without a separator", [{ kind: "numbers", field: "x", at: "/x" }], "/rules/0/field"],
  ])("refuses %s, with its place", (_name, rules, pointer) => {
    expect(wrong(rules)).toMatchObject({ code: "field-map.unusable", place: { pointer } });
  });

  it("says what may be meant", () => expect(wrong([value("unit.sreial")]).next).toMatch(/unit\.serial/));

  it("tells what cannot be inverted", () => {
    const choices = [
      { export: "a", value: "normal" },
      { export: "b", value: "normal" },
    ];
    const rules: readonly MapRule[] = [
      { kind: "value", field: "unit.serial", at: "/s", readOnly: true },
      { kind: "fixed", field: "unit.profileId", value: "x" },
      {
        kind: "value",
        field: "operation.faderMark",
        at: "/f",
        as: {
          kind: "table",
          points: [
            { export: 0, value: 1 },
            { export: 1, value: 1 },
          ],
        },
      },
      {
        kind: "list",
        list: "outputs",
        each: "$.o[*]",
        fixed: true,
        rules: [
          { kind: "value", field: "id", segment: 0 },
          { kind: "value", field: "polarity", at: "/p", as: { kind: "choice", choices } },
        ],
      },
    ];
    const { notices } = loadFieldMap(smallMap({ kind: "json" }, rules));
    expect(notices[4]!.words).toContain("no word for inverted of 'outputs[].polarity'");
    expect(notices.map(({ pointer, kind }) => [pointer, kind])).toEqual([
      ["/rules/0", "one-way"],
      ["/rules/1", "not-in-export"],
      ["/rules/2/as", "one-way"],
      ["/rules/3/rules/0", "key-fixed"],
      ["/rules/3/rules/1/as", "one-way"],
      ["/rules/3/rules/1/as", "one-way"],
      ["/rules/3", "list-fixed"],
    ]);
  });
});

describe("checking a map", () => {
  const codes = (map = loaded, sample: Uint8Array = bytes) =>
    new Set(
      checkFieldMap(map, [{ name: "s", bytes: sample }], {
        base,
        profile: SAMPLE_EXPORTS[3]!.profile,
      }).findings.map(({ code }) => code),
    );

  it("finds a wrong unit of measure by values that the unit does not have", () => {
    const { bytes: xml, loaded: good, profile } = SAMPLE_EXPORTS[0]!;
    const text = JSON.stringify(good.map);
    const found = (as: object) => {
      const wrong = text.replace(/("field":"graphic.gainsDb".*?"as":)\{[^}]*\}/, `$1${JSON.stringify(as)}`);
      expect(wrong).not.toBe(text);
      const map = loadFieldMap(JSON.parse(wrong));
      return new Set(
        checkFieldMap(map, [{ name: "s", bytes: xml }], { profile }).findings.map(({ code }) => code),
      );
    };
    expect(found({ kind: "level", unit: "dB" })).toContain("unread");
    expect(found({ kind: "number", factor: 0.5 })).toContain("out-of-range");
    expect(found({ kind: "number", factor: 0.5 })).toContain("implausible");
    expect(found({ kind: "level", unit: "hundredth-dB" })).toContain("off-step");
  });

  it("finds values that no rule reads, gains beyond the usual, rules without a sample", () => {
    expect(codes()).toContain("unknown-value");
    expect(codes(loaded, exportOf([slot("peaking", 500, 40)]))).toContain("implausible");
    const untested = loadFieldMap(
      smallMap({ kind: "json" }, [...SLOTS, { kind: "value", field: "notes", at: "/n", optional: true }]),
    );
    expect(codes(untested)).toContain("not-reached");
  });

  it("finds a map that does not give back what it read", () => {
    const text = JSON.stringify(loaded.map).replace(
      '"unit":"tenth-dB","decimals":0',
      '"unit":"ratio","decimals":0',
    );
    const sample = Buffer.from(bytes.toString().replaceAll("-65", "0.7"));
    expect(codes(loadFieldMap(JSON.parse(text)), sample)).not.toContain("not-same-bytes");
    const rounding = JSON.stringify(loaded.map).replace(
      '"unit":"tenth-dB","decimals":0',
      '"unit":"ratio","round":0',
    );
    const [first] = readExport(sample, loadFieldMap(JSON.parse(rounding)), { base }).configuration.outputs;
    expect(first!.gainDb).toBe(-3);
  });
});
