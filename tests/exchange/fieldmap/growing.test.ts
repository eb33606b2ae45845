import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { loadFieldMap, readExport, writeExport } from "../../../src/exchange/fieldmap/index.ts";
import type { Configuration, ExportSource, MapRule } from "../../../src/model/index.ts";
import { runs } from "../../runs.ts";
import { byKeys } from "./by-keys.ts";
import { SAMPLE_EXPORTS } from "./sample-maps.ts";
import { base, smallMap } from "./small-map.ts";

/** A small map of three outputs with filters in any kind of source. */
const rulesFor = (
  each: string,
  at: string,
  key: MapRule,
  filters: Partial<MapRule> = {},
): readonly MapRule[] => [
  {
    kind: "list",
    list: "outputs",
    each,
    rules: [
      key,
      { kind: "value", field: "gainDb", at: `${at}gain` },
      { kind: "value", field: "highPass.order", at: `${at}order`, optional: true },
      { kind: "value", field: "highPass.frequencyHz", at: `${at}hz`, optional: true },
      { kind: "value", field: "highPass.family", at: `${at}family`, optional: true },
      { kind: "fixed", field: "highPass.normalization", value: "phase" },
      {
        kind: "list",
        list: "filters",
        each: "$.nothing[*]",
        rules: [{ kind: "value", field: "id", at: "/x" }],
        ...(filters as object),
      },
    ],
  },
];

const own: MapRule = { kind: "value", field: "id", at: "/id" };
const name: MapRule = { kind: "value", field: "id", segment: 0 };
const [first, second, third] = base.outputs.map(({ id }) => id) as [string, string, string];

interface Case {
  readonly kind: string;
  readonly source: ExportSource;
  readonly rules: readonly MapRule[];
  readonly text: string;
  /** Without the second, with another one ahead of the first. */
  readonly grown: string;
  /** The first with a high-pass, which no other has. */
  readonly filled: string | undefined;
}

const CASES: readonly Case[] = [
  {
    kind: "JSON list",
    source: { kind: "json" },
    rules: rulesFor("$.out[*]", "/", own),
    text: `{"out": [\n  {"id": "${first}", "gain": -3, "color": 7},\n  {"id": "${second}", "gain": -4}\n]}`,
    grown: `{"out": [\n  {"id": "${third}", "gain": -9, "color": 7},\n  {"id": "${first}", "gain": -3, "color": 7}\n]}`,
    filled: `{"out": [\n  {"id": "${first}", "gain": -3, "color": 7, "order": 4, "hz": 80, "family": "bessel"},\n  {"id": "${second}", "gain": -4}\n]}`,
  },
  {
    kind: "JSON object",
    source: { kind: "json" },
    rules: rulesFor("$.out.*", "/", name),
    text: `{"out":{"${first}":{"gain":-3},"${second}":{"gain":-4}}}`,
    grown: `{"out":{"${third}":{"gain":-9},"${first}":{"gain":-3}}}`,
    filled: `{"out":{"${first}":{"gain":-3,"order":4,"hz":80,"family":"bessel"},"${second}":{"gain":-4}}}`,
  },
  {
    kind: "XML",
    source: { kind: "xml", lists: ["out"] },
    rules: rulesFor("$.u.out[*]", "/@", { kind: "value", field: "id", at: "/@id" }),
    text: `<u>\n  <!-- left -->\n  <out id="${first}" gain="-3"/>\n  <out id='${second}' gain='-4'/>\n</u>\n`,
    grown: `<u>\n  <!-- left -->\n  <out id="${third}" gain="-9"/>\n  <out id="${first}" gain="-3"/>\n</u>\n`,
    filled: `<u>\n  <!-- left -->\n  <out id="${first}" gain="-3" order="4" hz="80" family="bessel"/>\n  <out id='${second}' gain='-4'/>\n</u>\n`,
  },
  {
    kind: "XML by names",
    source: { kind: "xml" },
    rules: rulesFor("$.u.out.*", "/@", name),
    text: `<u>\n  <out>\n    <${first} gain="-3"/>\n    <${second} gain='-4'/>\n  </out>\n</u>\n`,
    grown: `<u>\n  <out>\n    <${third} gain="-9"/>\n    <${first} gain="-3"/>\n  </out>\n</u>\n`,
    filled: `<u>\n  <out>\n    <${first} gain="-3" order="4" hz="80" family="bessel"/>\n    <${second} gain='-4'/>\n  </out>\n</u>\n`,
  },
  {
    kind: "XML by names, with elements inside",
    source: { kind: "xml" },
    rules: rulesFor("$.u.out.*", "/", name),
    text: `<u><out><${first}><gain>-3</gain></${first}><${second} lamp="1"><gain>-4</gain></${second}></out></u>`,
    grown: `<u><out><${third}><gain>-9</gain></${third}><${first}><gain>-3</gain></${first}></out></u>`,
    filled: `<u><out><${first}><gain>-3</gain><order>4</order><hz>80</hz><family>bessel</family></${first}><${second} lamp="1"><gain>-4</gain></${second}></out></u>`,
  },
  {
    kind: "table",
    source: { kind: "table", delimiter: ";", header: "first-row" },
    rules: rulesFor("$[*]", "/", own),
    text: `id;gain;note\r\n${first};-3;"a;b"\r\n${second};-4;\r\n`,
    grown: `id;gain;note\r\n${third};-9;"a;b"\r\n${first};-3;"a;b"\r\n`,
    filled: undefined,
  },
  {
    kind: "sections",
    source: { kind: "key-value", separator: "=", sections: true, divider: ".", comments: [";"] },
    rules: rulesFor("$.out.*", "/", name),
    text: `; outputs\n[out.${first}]\ngain = -3\n\n[out.${second}]\ngain = -4\n`,
    grown: `; outputs\n[out.${third}]\ngain = -9\n\n[out.${first}]\ngain = -3\n\n`,
    filled: `; outputs\n[out.${first}]\ngain = -3\norder = 4\nhz = 80\nfamily = bessel\n\n[out.${second}]\ngain = -4\n`,
  },
  {
    kind: "sections that stand many times",
    source: { kind: "key-value", separator: "=", sections: true, comments: [";"], lists: ["out"] },
    rules: rulesFor("$.out[*]", "/", own),
    text: `; outputs\n[out]\nid = ${first}\ngain = -3\n\n[out]\nid = ${second}\ngain = -4\n`,
    grown: `; outputs\n[out]\nid = ${third}\ngain = -9\n\n[out]\nid = ${first}\ngain = -3\n\n`,
    filled: `; outputs\n[out]\nid = ${first}\ngain = -3\norder = 4\nhz = 80\nfamily = bessel\n\n[out]\nid = ${second}\ngain = -4\n`,
  },
  {
    kind: "table below a title, with units below the names",
    source: { kind: "table", delimiter: ";", header: "first-row", titleRows: 1, headerRows: 2, ragged: true },
    rules: rulesFor("$.rows[?@.id != 'end']", "/", own).map((rule) =>
      JSON.parse(JSON.stringify(rule).replace("/gain", "/gain dB")),
    ),
    text: `Outputs;;\r\nid;gain;note\r\n;dB;\r\n${first};-3;"a;b"\r\n${second};-4;\r\nend\r\n`,
    grown: `Outputs;;\r\nid;gain;note\r\n;dB;\r\n${third};-9;"a;b"\r\n${first};-3;"a;b"\r\nend\r\n`,
    filled: undefined,
  },
  {
    kind: "keys",
    source: { kind: "key-value", separator: ":", sections: false, divider: "/" },
    rules: rulesFor("$.out.*", "/", name),
    text: `out/${first}/gain: -3\nout/${second}/gain: -4\nlamp: 3`,
    grown: `out/${third}/gain: -9\nout/${first}/gain: -3\nlamp: 3`,
    filled: `out/${first}/gain: -3\nout/${first}/order: 4\nout/${first}/hz: 80\nout/${first}/family: bessel\nout/${second}/gain: -4\nlamp: 3`,
  },
  {
    kind: "lines",
    source: {
      kind: "lines",
      comments: ["#"],
      forms: [
        { form: "set {out} gain {gain}dB", at: "/out/{out}" },
        { form: "set {out} above {hz} {family} {order}", at: "/out/{out}" },
      ],
    },
    rules: rulesFor("$.out.*", "/", name),
    text: `# outputs\nset ${first} gain -3dB\nset ${second} gain -4dB\nlamp 3\n`,
    grown: `# outputs\nset ${third} gain -9dB\nset ${first} gain -3dB\nlamp 3\n`,
    filled: `# outputs\nset ${first} gain -3dB\nset ${first} above 80 bessel 4\nset ${second} gain -4dB\nlamp 3\n`,
  },
];

describe.each(CASES)("$kind", ({ source, rules, text, grown, filled }) => {
  const loaded = loadFieldMap(smallMap(source, rules));
  const bytes = Buffer.from(text);
  const { configuration } = readExport(bytes, loaded, { base });
  const [one, two] = configuration.outputs as [Configuration["outputs"][0], Configuration["outputs"][0]];
  const write = (outputs: Configuration["outputs"], from: Uint8Array = bytes) => {
    const written = writeExport({ ...configuration, outputs }, from, loaded);
    expect(
      readExport(written.bytes, loaded, { base })
        .configuration.outputs.map(({ id, gainDb }) => [id, gainDb])
        .sort(),
    ).toEqual(outputs.map(({ id, gainDb }) => [id, gainDb]).sort());
    return Buffer.from(written.bytes).toString();
  };
  const other = { ...one, id: third, gainDb: -9 };

  it("gets items and loses items, in its own style", () => {
    expect(write([other, one])).toBe(grown);
  });

  it("is what it was when both are taken back", () => {
    const there = Buffer.from(write([one, other, two]));
    expect(write([one, two], there)).toBe(text);
  });

  it("keeps its order where only the order differs", () => expect(write([two, one])).toBe(text));

  it("gets places that it did not have, and loses them", () => {
    const highPass = { family: "bessel", order: 4, frequencyHz: 80, normalization: "phase" } as never;
    const outputs = [{ ...one, highPass }, two];
    const wanted = { ...configuration, outputs };
    if (filled === undefined) {
      expect(() => writeExport(wanted, bytes, loaded)).toThrow(
        expect.objectContaining({ code: "export.cannot-hold" }),
      );
      return;
    }
    const { bytes: full, changed } = writeExport(wanted, bytes, loaded);
    expect(Buffer.from(full).toString()).toBe(filled);
    expect(changed.map(({ before, after }) => [before, after])).toEqual([
      [undefined, "4"],
      [undefined, "80"],
      [undefined, "bessel"],
    ]);
    expect(write([one, two], full)).toBe(text);
  });
});

describe("what comes and goes with items", () => {
  const loaded = loadFieldMap(smallMap({ kind: "json" }, rulesFor("$.out[*]", "/", own)));
  const text = `{"out":[{"id":"${first}","gain":-3,"serial":"A1"},{"id":"${second}","gain":-4,"serial":"B2"}]}`;
  const bytes = Buffer.from(text);
  const { configuration } = readExport(bytes, loaded, { base });
  const [one, two] = configuration.outputs as [Configuration["outputs"][0], Configuration["outputs"][0]];

  it("is told: values that the map does not know", () => {
    const more = writeExport({ ...configuration, outputs: [one, two, { ...two, id: third }] }, bytes, loaded);
    expect(more.added).toEqual([
      {
        ...{ pointer: "/out/2", line: 1, list: "outputs", key: third, like: second },
        copied: [{ pointer: "/out/2/serial", raw: "B2" }],
      },
    ]);
    const fewer = writeExport({ ...configuration, outputs: [one] }, bytes, loaded);
    expect(fewer.removed).toEqual([
      {
        ...{ pointer: "/out/1", line: 1, list: "outputs", key: second },
        lost: [{ pointer: "/out/1/serial", raw: "B2" }],
      },
    ]);
  });

  it("stays with an item that only gets another key", () => {
    const { bytes: written } = writeExport(
      { ...configuration, outputs: [{ ...one, id: third }, two] },
      bytes,
      loaded,
    );
    expect(Buffer.from(written).toString()).toBe(text.replace(first, third));
  });

  it("is nothing where the map says that the items are always the same, or nothing can be copied", () => {
    const fixed = loadFieldMap({
      ...loaded.map,
      rules: loaded.map.rules.map((rule) => ({ ...rule, fixed: true }) as MapRule),
    });
    const fewer = { ...configuration, outputs: [one] };
    expect(() => writeExport(fewer, bytes, fixed)).toThrow(/'.+' cannot be taken out of the export/);
    const empty = Buffer.from('{"out":[]}');
    const refused = expect.objectContaining({
      code: "export.cannot-hold",
      next: expect.stringContaining("in the unit itself"),
    });
    expect(() => writeExport(fewer, empty, loaded)).toThrow(refused);
    expect(writeExport(fewer, empty, loaded, { acceptLosses: true }).left).toEqual([
      { pointer: "/outputs/0", reason: "item-missing", wanted: first },
    ]);
  });
});

describe("groups that are null where there is none", () => {
  const rules: readonly MapRule[] = [
    {
      ...{ kind: "list", list: "outputs", each: "$.out[*]" },
      rules: [
        { kind: "value", field: "id", at: "/0" },
        { kind: "value", field: "highPass.family", at: "/1/0", optional: true },
        { kind: "value", field: "highPass.order", at: "/1/1", optional: true },
        { kind: "value", field: "highPass.frequencyHz", at: "/1/2", optional: true },
        { kind: "value", field: "limiter.thresholdDbfs", at: "/2/at", optional: true },
        { kind: "value", field: "limiter.attackMs", at: "/2/in/attack", optional: true },
        { kind: "value", field: "limiter.releaseMs", at: "/2/in/release", optional: true },
        { kind: "fixed", field: "limiter.enabled", value: true },
        { kind: "list", list: "filters", each: "$.no[*]", rules: [{ kind: "value", field: "id", at: "/x" }] },
      ],
    },
  ];
  const loaded = loadFieldMap(smallMap({ kind: "json" }, rules));
  const full = '["butterworth", 4, 80], {"at": -6, "in": {"attack": 5, "release": 90}}';
  const text = `{"out": [["${first}", ${full}],\n ["${second}", null, null]]}`;
  const { configuration } = readExport(Buffer.from(text), loaded, { base });
  const [one, two] = configuration.outputs as [Configuration["outputs"][0], Configuration["outputs"][0]];
  const write = (outputs: Configuration["outputs"]) =>
    Buffer.from(writeExport({ ...configuration, outputs }, Buffer.from(text), loaded).bytes).toString();

  it("get a group, and lose it", () => {
    const { highPass, limiter, ...bare } = one;
    expect([highPass, limiter].includes(undefined)).toBe(false);
    const given = { ...two, highPass, limiter } as typeof one;
    expect(write([one, given])).toBe(`{"out": [["${first}", ${full}],\n ["${second}", ${full}]]}`);
    expect(write([bare, two])).toBe(`{"out": [["${first}", null, null],\n ["${second}", null, null]]}`);
  });
});

const valuesOf = (bytes: Uint8Array): unknown => JSON.parse(Buffer.from(bytes).toString());

describe("numbers that each stand by themselves", () => {
  it("become more, fewer and none", () => {
    const { bytes, loaded, configuration } = SAMPLE_EXPORTS.find(({ name: file }) => file.endsWith(".json"))!;
    const draft = structuredClone(configuration) as unknown as {
      calibration: { channels: { thirdOctavesDb?: number[] }[] };
    };
    delete draft.calibration.channels[0]!.thirdOctavesDb;
    const none = writeExport(draft as unknown as Configuration, bytes, loaded);
    expect(readExport(none.bytes, loaded).configuration).toEqual(draft);

    const rules: readonly MapRule[] = [
      {
        ...{ kind: "list", list: "equalizations", each: "$.eq[*]" },
        rules: [
          own,
          {
            ...{ kind: "list", list: "channels", each: "$.ch[*]" },
            rules: [
              { kind: "value", field: "channelId", at: "/id" },
              { kind: "value", field: "graphic.layout", at: "/layout" },
              { kind: "numbers", field: "graphic.gainsDb", each: "$.gains[*]" },
            ],
          },
        ],
      },
    ];
    const map = loadFieldMap(smallMap({ kind: "json" }, rules));
    const exportOf = (layout: string, gains: readonly number[]) =>
      `{"eq":[{"id":"${set!.id}","ch":[{"id":"L","layout":"${layout}","gains":[${gains.join(", ")}]}]}]}`;
    const [set] = base.equalizations;
    const few = exportOf(
      "octave-10",
      Array.from({ length: 10 }, (_none, i) => i / 2),
    );
    const many = exportOf(
      "third-octave-27",
      Array.from({ length: 27 }, (_none, i) => i / 4),
    );
    const [asFew, asMany] = [few, many].map(
      (text) => readExport(Buffer.from(text), map, { base }).configuration,
    );
    expect(valuesOf(writeExport(asMany!, Buffer.from(few), map).bytes)).toEqual(JSON.parse(many));
    expect(valuesOf(writeExport(asFew!, Buffer.from(many), map).bytes)).toEqual(JSON.parse(few));
  });
});

/** A little of everything that lists may go through, as numbers. */
const step = fc.record({
  what: fc.constantFrom("add", "drop", "rename", "turn"),
  list: fc.nat(),
  at: fc.nat(),
  from: fc.nat(),
});

describe.each(SAMPLE_EXPORTS)("$name", ({ bytes, loaded, configuration }) => {
  it("takes lists that grow, shrink and turn, and reads back as they are", () => {
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 6 }), (steps) => {
        const draft = structuredClone(configuration) as never;
        for (const each of steps) play(draft, each);
        const written = writeExport(draft, bytes, loaded);
        expect(byKeys(readExport(written.bytes, loaded).configuration)).toEqual(byKeys(draft));
        expect(written.left).toEqual([]);
        const back = writeExport(configuration, written.bytes, loaded);
        expect(byKeys(readExport(back.bytes, loaded).configuration)).toEqual(byKeys(configuration));
      }),
      { numRuns: runs(4, 8), endOnFailure: true },
    );
  });
});

type Item = Record<string, unknown>;

/** Lists that grow, shrink, and whose items get other keys, without items of other lists that name them. */
function listsOf(configuration: {
  readonly outputs: Item[];
  readonly presets: Item[];
  readonly equalizations: Item[];
}) {
  const filters = configuration.outputs.map(({ filters: list }) => list as Item[]);
  const mixes = configuration.outputs.map(({ mix }) => mix as Item[]);
  const routes = configuration.presets.map(({ routing }) => routing as Item[]);
  const bands = configuration.equalizations.flatMap(({ channels }) =>
    (channels as Item[]).flatMap(({ parametric }) =>
      parametric === undefined ? [] : [parametric as Item[]],
    ),
  );
  return [configuration.outputs, configuration.presets, ...filters, ...mixes, ...routes, ...bands];
}

function play(
  draft: Parameters<typeof listsOf>[0],
  { what, list: which, at, from }: { what: string; list: number; at: number; from: number },
): void {
  const lists = listsOf(draft);
  const list = lists[which % lists.length]!;
  const key = list.some((item) => "channelId" in item && !("id" in item)) ? "channelId" : "id";
  const slots = new Set(draft.presets.map(({ slot }) => slot as number));
  const slot = Array.from({ length: 99 }, (_none, i) => i + 1).find((number) => !slots.has(number));
  const copy = (item: Item): Item => ({
    ...structuredClone(item),
    [key]: `n${at % 97}-${list.length}-${from % 89}`,
    ...("slot" in item ? { slot } : {}),
  });
  const i = at % Math.max(1, list.length);
  if (what === "turn") list.reverse();
  else if (what === "drop" && list.length > 1) list.splice(i, 1);
  else if (what === "rename" && list.length > 0) list[i] = copy(list[i]!);
  else if (what === "add" && list.length > 0)
    list.splice(at % (list.length + 1), 0, copy(list[from % list.length]!));
}
