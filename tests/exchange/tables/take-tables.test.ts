import { describe, expect, it } from "vitest";
import { takeTables } from "../../../src/exchange/tables/index.ts";
import { MAX_PROBLEMS } from "../../../src/exchange/tables/taking/problem.ts";
import { readCsv } from "../../../src/exchange/workbook/index.ts";
import type { Configuration } from "../../../src/model/index.ts";
import { asLeft, screens } from "../../diff/changes/samples.ts";
import { csvFiles, type LooseTable, looseTables, profileOf, refused, taken } from "./support.ts";

type Name = Parameters<typeof looseTables>[1];

/** One table of the sample, with rows and columns found by what they say. */
class Edit {
  readonly table: LooseTable;

  constructor(name: Name, screen: Configuration = asLeft) {
    this.table = looseTables(screen, name)[0]!;
  }

  column(heading: string): number {
    const index = this.table.headings.indexOf(heading);
    if (index < 0) throw new Error(`no ${heading} in ${this.table.headings.join(", ")}`);
    return index;
  }

  /** A row by its last key. */
  row(...keys: readonly string[]): (string | number | undefined)[] {
    return this.table.rows.find((row) => keys.every((key, index) => row[2 + index] === key))!;
  }

  set(keys: readonly string[], heading: string, value: string | number | undefined): this {
    this.row(...keys)[this.column(heading)] = value;
    return this;
  }

  add(values: Readonly<Record<string, string | number>>): this {
    this.table.rows.push(this.table.headings.map((heading) => values[heading]));
    return this;
  }
}

const profile = profileOf(asLeft);
const hf = asLeft.outputs.find(({ highPass, lowPass }) => highPass !== undefined && lowPass === undefined)!;
const limited = asLeft.outputs.find(({ limiter }) => limiter !== undefined);
const set = asLeft.equalizations[0]!;
const withFilters = set.channels.find(({ parametric = [] }) => parametric.length > 0)!;
const filter = withFilters.parametric![0]!;
const outputOf = ({ outputs }: Configuration) => outputs.find(({ id }) => id === hf.id)!;
const take = (edit: Edit, options = {}) =>
  taken(asLeft, csvFiles([edit.table]), { profile, ...options }).configuration;

describe("what a table may say", () => {
  it("a value, in whatever way people write it", () => {
    const level = (cell: string) =>
      take(new Edit("channels").set(["L"], "Channel level (dB)", cell)).channels.find(({ id }) => id === "L")!
        .levelDb;
    expect([level("-3"), level("\u22123"), level("-3.0"), level("+1"), level(" 2 ")]).toEqual([
      -3, -3, -3, 1, 2,
    ]);
    const mute = new Edit("channels").set(["L"], "Channel mute", "YES");
    expect(take(mute).channels.find(({ id }) => id === "L")!.mute).toBe(true);
    const polarity = new Edit("outputs").set(
      [hf.id],
      "Polarity",
      hf.polarity === "normal" ? "Inverted" : "Normal",
    );
    expect(outputOf(take(polarity)).polarity).not.toBe(hf.polarity);
  });

  it("decimal commas, where the form of the file says so", () => {
    const text = `Program channel;Channel level (dB)\r\nL;-1,5\r\n`;
    const sheet = readCsv(Buffer.from(text), { separator: ";" });
    const { configuration } = taken(asLeft, [{ file: "levels.csv", sheets: [sheet] }], { profile });
    expect(configuration.channels.find(({ id }) => id === "L")!.levelDb).toBe(-1.5);
  });

  it("'none' takes a high-pass out, an empty cell leaves it", () => {
    const gone = new Edit("outputs").set([hf.id], "High-pass family", "none");
    expect(outputOf(take(gone))).not.toHaveProperty("highPass");
    const left = new Edit("outputs").set([hf.id], "High-pass family", undefined);
    expect(outputOf(take(left)).highPass).toEqual(hf.highPass);
  });

  it("a part that was not there, when all of it is given", () => {
    const edit = new Edit("outputs")
      .set([hf.id], "Low-pass family", "linkwitz-riley")
      .set([hf.id], "Low-pass order", 4)
      .set([hf.id], "Low-pass corner (Hz)", 16000);
    expect(outputOf(taken(asLeft, csvFiles([edit.table])).configuration).lowPass).toEqual({
      family: "linkwitz-riley",
      order: 4,
      frequencyHz: 16000,
    });
  });

  it("'none' takes a graphic equalizer out, whatever stands in its bands", () => {
    const screen = screens.find(({ equalizations }) => equalizations[0]!.channels[0]?.graphic !== undefined)!;
    const [first] = screen.equalizations;
    const { channelId } = first!.channels[0]!;
    const edit = new Edit("graphic-eq", screen).set([first!.id, channelId], "Graphic EQ bands", "none");
    const after = taken(screen, csvFiles([edit.table])).configuration;
    expect(after.equalizations[0]!.channels[0]).not.toHaveProperty("graphic");
  });

  it("another loudspeaker for an output, though other tables still tell what it played", () => {
    const edit = new Edit("outputs");
    edit.set([hf.id], "Feed", "spare").set([hf.id], "Loudspeaker", "none").set([hf.id], "Way", "none");
    const files = csvFiles([edit.table, new Edit("output-mix").table, new Edit("output-filters").table]);
    expect(outputOf(taken(asLeft, files).configuration).feeds).toEqual({ kind: "spare" });
  });

  it("new filters and filters that go", () => {
    const keys = [set.id, withFilters.channelId];
    const added = new Edit("parametric-eq").add({
      "EQ set": keys[0]!,
      "Program channel": keys[1]!,
      Filter: "new",
      "Filter kind": "peaking",
      "Filter frequency (Hz)": 1000,
      "Filter gain (dB)": -2,
      "Filter Q": 2,
    });
    const bands = (configuration: Configuration) =>
      configuration.equalizations[0]!.channels.find(({ channelId }) => channelId === keys[1])!.parametric!;
    const outcome = taken(asLeft, csvFiles([added.table]));
    expect(outcome.tables[0]).toMatchObject({ addedRows: 1, takenOutRows: 0 });
    expect(bands(outcome.configuration)).toEqual([
      ...withFilters.parametric!,
      { id: "new", kind: "peaking", frequencyHz: 1000, gainDb: -2, q: 2 },
    ]);
    const removed = taken(
      asLeft,
      csvFiles([new Edit("parametric-eq").set([...keys, filter.id], "Filter kind", "none").table]),
    );
    expect(removed.tables[0]).toMatchObject({ addedRows: 0, takenOutRows: 1 });
    expect(bands(removed.configuration)).toEqual(withFilters.parametric!.slice(1));
  });

  it("an equalizer of a channel that had none, and another arrangement of bands", () => {
    const [first] = screens.flatMap((screen) =>
      screen.equalizations.flatMap(({ id, channels }) =>
        channels.flatMap(({ channelId, graphic }) =>
          graphic === undefined ? [] : [{ screen, id, channelId, graphic }],
        ),
      ),
    );
    const { screen, id, channelId } = first!;
    const row = {
      "EQ set": id,
      "Program channel": channelId,
      "Graphic EQ bands": "octave-10",
      ...Object.fromEntries(
        [31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16000].map((hz, k) => [`${hz} Hz (dB)`, k / 2]),
      ),
    };
    const table = { name: "graphic-eq", headings: Object.keys(row), rows: [Object.values(row)] };
    const { configuration } = taken(screen, csvFiles([table]));
    const found = configuration.equalizations
      .find((item) => item.id === id)!
      .channels.find((item) => item.channelId === channelId)!;
    expect(found.graphic).toMatchObject({
      layout: "octave-10",
      gainsDb: [0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5],
    });
    const without = {
      ...screen,
      equalizations: screen.equalizations.map((item) =>
        item.id === id
          ? { ...item, channels: item.channels.filter((one) => one.channelId !== channelId) }
          : item,
      ),
    };
    const made = taken(without, csvFiles([table])).configuration;
    expect(made.equalizations.find((item) => item.id === id)!.channels.at(-1)).toMatchObject({
      channelId,
      graphic: { layout: "octave-10" },
    });
  });

  it("numbers between the unit's steps, where they may be moved; but nothing that protects drivers", () => {
    const edit = new Edit("outputs").set([hf.id], "Output delay (ms)", 1.2345678);
    const moved = taken(asLeft, csvFiles([edit.table]), { profile, nearest: true });
    expect(moved.moved).toEqual([
      expect.objectContaining({ from: 1.2345678, field: "outputs[].delayMs", heading: "Output delay (ms)" }),
    ]);
    expect(outputOf(moved.configuration).delayMs).toBe(moved.moved[0]!.to);
    const corner = new Edit("outputs").set([hf.id], "High-pass corner (Hz)", 1234.567);
    const { problems } = refused(asLeft, corner.table, { profile, nearest: true });
    expect(problems[0]!.words).toMatch(/between the unit's steps/);
  });

  it("digits that a spreadsheet takes off do not count", () => {
    const third = {
      ...asLeft,
      channels: asLeft.channels.map((channel) => ({ ...channel, delayMs: 0.1 + 0.2 })),
    };
    const edit = new Edit("channels", third).set(["L"], "Channel delay (ms)", 0.3);
    expect(taken(third, csvFiles([edit.table])).tables[0]!.cells).toBe(0);
  });
});

/** What is done to which table, where it is told, in which words. */
const WRONG: readonly (readonly [
  what: string,
  edit: () => Edit,
  heading: string | undefined,
  words: RegExp,
  next: RegExp,
])[] = [
  [
    "text in a number",
    () => new Edit("channels").set(["L"], "Channel level (dB)", "loud"),
    "Channel level (dB)",
    /'loud' is no number/,
    /Write a number/,
  ],
  [
    "a decimal comma",
    () => new Edit("channels").set(["L"], "Channel level (dB)", "-3,5"),
    "Channel level (dB)",
    /decimal comma/,
    /Write -3.5.*--decimal comma/,
  ],
  [
    "a unit in the cell",
    () => new Edit("channels").set(["L"], "Channel level (dB)", "-3 dB"),
    "Channel level (dB)",
    /more than a number/,
    /stands in the heading/,
  ],
  [
    "a value outside the unit's range",
    () => new Edit("outputs").set([hf.id], "Output gain (dB)", 39),
    "Output gain (dB)",
    /39 dB is outside what the unit takes/,
    /inside/,
  ],
  [
    "a value between the unit's steps",
    () => new Edit("outputs").set([hf.id], "Output gain (dB)", -3.03),
    "Output gain (dB)",
    /between the unit's steps/,
    /nearest is -3/,
  ],
  [
    "a value outside every range",
    () => new Edit("outputs").set([hf.id], "Output gain (dB)", 1000),
    "Output gain (dB)",
    /1000/,
    /./,
  ],
  [
    "a word that is none of the choices",
    () => new Edit("outputs").set([hf.id], "Polarity", "inverse"),
    "Polarity",
    /'inverse' is not one/,
    /Was 'inverted' meant.*normal, inverted/,
  ],
  [
    "neither yes nor no",
    () => new Edit("outputs").set([hf.id], "Output mute", "maybe"),
    "Output mute",
    /neither yes nor no/,
    /yes or no/,
  ],
  [
    "clearing what must be there",
    () => new Edit("outputs").set([hf.id], "Output gain (dB)", "none"),
    "Output gain (dB)",
    /cannot be cleared/,
    /leave the cell empty/,
  ],
  [
    "half a low-pass",
    () => new Edit("outputs").set([hf.id], "Low-pass corner (Hz)", 8000),
    undefined,
    /'Low-pass (family|order)' is missing/,
    /Fill/,
  ],
  [
    "an unknown row",
    () => new Edit("channels").set(["L"], "Program channel", "Lx"),
    "Program channel",
    /no program channel 'Lx'/,
    /There are: .*L/,
  ],
  [
    "an unknown output",
    () => new Edit("outputs").set([hf.id], "Output", `${hf.id}x`),
    "Output",
    /no output/,
    new RegExp(`Was '${hf.id}' meant`),
  ],
  [
    "a row that stands twice",
    () => {
      const edit = new Edit("channels");
      edit.table.rows.push([...edit.row("L")]);
      return edit;
    },
    undefined,
    /stands in two rows; the other is row 2/,
    /one of the two/,
  ],
  [
    "a row without a key",
    () => new Edit("channels").set(["L"], "Program channel", undefined),
    "Program channel",
    /is empty/,
    /Fill/,
  ],
  [
    "a row of another screen",
    () => {
      const edit = new Edit("channels");
      edit.row("L")[1] = "screen-9";
      return edit;
    },
    "Screen key",
    /another screen/,
    /Take the table of this screen/,
  ],
  [
    "a name that goes with another row",
    () => new Edit("channels").set(["L"], "Channel name", "Right"),
    "Channel name",
    /says 'Right', but 'L' is 'Left'/,
    /right row/,
  ],
  [
    "an unknown column",
    () => {
      const edit = new Edit("channels");
      edit.table.headings[4] = "Channel levl (dB)";
      return edit;
    },
    "Channel levl (dB)",
    /no column 'Channel levl \(dB\)'/,
    /'Channel level \(dB\)' meant/,
  ],
  [
    "a column in another unit",
    () => {
      const edit = new Edit("channels");
      edit.table.headings[edit.column("Channel delay (ms)")] = "Channel delay (m)";
      return edit;
    },
    "Channel delay (m)",
    /no column/,
    /'Channel delay \(ms\)'; give the values in that unit/,
  ],
  [
    "a column that stands twice",
    () => {
      const edit = new Edit("channels");
      edit.table.headings.push("Channel level (dB)");
      return edit;
    },
    "Channel level (dB)",
    /stands twice/,
    /one of the two/,
  ],
  [
    "a column without a heading",
    () => {
      const edit = new Edit("channels");
      edit.row("L").push(3);
      return edit;
    },
    undefined,
    /no heading/,
    /Give it a heading/,
  ],
  [
    "an EQ set that is not there",
    () => new Edit("presets").set([asLeft.presets[0]!.id], "EQ set", "eq-nowhere"),
    "EQ set",
    /no EQ set 'eq-nowhere'/,
    /There are/,
  ],
  [
    "a connector that the unit lacks",
    () => new Edit("outputs").set([hf.id], "Output connector", "out-99"),
    "Output connector",
    /no output connector 'out-99'/,
    /There are/,
  ],
  [
    "a new filter that says nothing",
    () =>
      new Edit("parametric-eq").add({
        "EQ set": set.id,
        "Program channel": withFilters.channelId,
        Filter: "new",
      }),
    undefined,
    /names something new, 'new', but gives no value/,
    /Fill the row/,
  ],
  [
    "a new filter that lacks its Q",
    () =>
      new Edit("parametric-eq").add({
        "EQ set": set.id,
        "Program channel": withFilters.channelId,
        Filter: "new",
        "Filter kind": "peaking",
        "Filter frequency (Hz)": 100,
        "Filter gain (dB)": 1,
      }),
    undefined,
    /'Filter Q' is missing/,
    /Fill/,
  ],
  [
    "a gain of a filter that has none",
    () => new Edit("parametric-eq").set([set.id, withFilters.channelId, filter.id], "Filter kind", "notch"),
    undefined,
    /'Filter gain \(dB\)' does not go with/,
    /none/,
  ],
  [
    "taking a filter out and changing it",
    () =>
      new Edit("parametric-eq")
        .set([set.id, withFilters.channelId, filter.id], "Filter kind", "none")
        .set([set.id, withFilters.channelId, filter.id], "Filter frequency (Hz)", 77),
    "Filter frequency (Hz)",
    /takes .* out .* and changes it/,
    /one of the two/,
  ],
  [
    "a high-pass that goes and gets a corner",
    () =>
      new Edit("outputs").set([hf.id], "High-pass family", "none").set([hf.id], "High-pass corner (Hz)", 77),
    "High-pass corner (Hz)",
    /takes a part out/,
    /one of the two/,
  ],
];

describe("what a table may not say", () => {
  it.each(WRONG.map(([what, edit, heading, words, next]) => ({ what, edit, heading, words, next })))(
    "$what",
    ({ edit, heading, words, next }) => {
      const { problems, total } = refused(asLeft, edit().table, { profile });
      expect(total).toBeGreaterThan(0);
      const told = problems.find((problem) => words.test(problem.words))!;
      expect(problems.map((problem) => problem.words).join("\n")).toMatch(words);
      expect(told.next).toMatch(next);
      expect(told.file).toMatch(/\.csv$/);
      if (heading !== undefined) {
        expect(told.heading).toBe(heading);
        expect(told.cell).toMatch(/^[A-Z]+[0-9]+$/);
      }
      for (const problem of problems) expect(`${problem.words}${problem.next}`).toMatch(/\.$/);
    },
  );

  it("tells everything at once, the first fifty in words", () => {
    const edit = new Edit("routing");
    for (const row of edit.table.rows) row[edit.column("Routing gain (dB)")] = "x";
    const { problems, total } = refused(asLeft, edit.table);
    expect(total).toBe(edit.table.rows.length);
    expect(problems).toHaveLength(Math.min(MAX_PROBLEMS, total));
    expect(problems[0]).toMatchObject({ row: 2, words: "'x' is no number." });
  });

  it("takes nothing of several tables when one of them is wrong", () => {
    const good = new Edit("channels").set(["L"], "Channel level (dB)", -7);
    const bad = new Edit("outputs").set([hf.id], "Output gain (dB)", "x");
    const result = takeTables(asLeft, csvFiles([good.table, bad.table]), { profile });
    expect(result).not.toHaveProperty("configuration");
    expect(result.kind).toBe("refused");
  });

  it("finds one row in two tables", () => {
    const files = csvFiles([new Edit("channels").table, { ...new Edit("channels").table, name: "again" }]);
    const result = takeTables(asLeft, files, { profile });
    expect(result.kind === "refused" && result.problems[0]!.words).toMatch(/other is row 2 of channels.csv/);
  });

  it("a file without cells, and one that is no table", () => {
    const empty = takeTables(asLeft, [{ file: "x.csv", sheets: [{ rows: [], decimal: "." }] }]);
    expect(empty).toMatchObject({
      kind: "refused",
      problems: [{ file: "x.csv", words: "The file holds no cell." }],
    });
    const other = takeTables(asLeft, [
      { file: "x.csv", sheets: [readCsv(Buffer.from("Date,Film\r\nMonday,A\r\n"))] },
    ]);
    expect(other.kind === "refused" && other.problems[0]!.words).toMatch(/no headings/);
  });

  it("keeps keys that are names of every object from doing harm", () => {
    const row = {
      "EQ set": set.id,
      "Program channel": "__proto__",
      Filter: "constructor",
      "Filter kind": "peaking",
    };
    const { problems } = refused(asLeft, {
      name: "p",
      headings: Object.keys(row),
      rows: [Object.values(row)],
    });
    expect(problems[0]!.words).toMatch(/no program channel '__proto__'/);
    expect(({} as Record<string, unknown>).kind).toBeUndefined();
  });

  it.skipIf(limited === undefined)("an output's limiter is cleared by 'none' and told", () => {
    const edit = new Edit("outputs").set([limited!.id], "Limiter in use", "none");
    const after = taken(asLeft, csvFiles([edit.table]), { profile }).configuration;
    expect(after.outputs.find(({ id }) => id === limited!.id)).not.toHaveProperty("limiter");
  });
});
