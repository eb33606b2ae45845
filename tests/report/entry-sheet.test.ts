import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import stringWidth from "string-width";
import { describe, expect, it } from "vitest";
import { type Configuration, FIELDS, fieldAt, readProfile, type UnitProfile } from "../../src/model/index.ts";
import { gridCount, gridIndex, gridNearest, gridValue, limitedNumbers } from "../../src/profile/index.ts";
import { entrySheet, renderText } from "../../src/report/index.ts";
import { screens } from "../diff/changes/samples.ts";
import { schemaParts } from "../diff/changes/schema-leaves.ts";
import { configurations, oldProfiles } from "../migrate/plan/arbitraries.ts";
import { runs } from "../runs.ts";
import { HOSTILE_TEXTS } from "./hostile.ts";
import { frames, missing, tickables } from "./tickable.ts";

/**
 * What nobody keys in, and why. Everything else of a configuration stands at one box.
 */
const LEFT_OUT: readonly (readonly [path: RegExp, reason: string])[] = [
  [/^(\$schema|kind|schemaVersion)$/, "about the document"],
  [/^screen\./, "facts of the auditorium; no unit holds them"],
  [/^unit\.(profileId|profileRevision|serial|firmware)$/, "what the unit is, not what it is set to"],
  [/(^|\.|\[\])id$/, "keys inside the document; the unit has slots, connectors and names"],
  [/^sources\[\]\.latencyMs$/, "a fact of the server; the program delay accounts for it"],
  [/^presets\[\]\.reason$/, "a remark"],
  [/^loudspeakers\[\]/, "facts of the auditorium; what an output feeds stands at the output"],
  [/^outputs\[\]\.fir\.taps\[\]$/, "hundreds of coefficients are loaded from a file, and the sheet says so"],
  [/^calibration\./, "what was measured, not what is set"],
  [/^notes$/, "a remark"],
];

const isLeftOut = (path: string) => LEFT_OUT.some(([pattern]) => pattern.test(path));

/** The part of the sheet in which each part of a configuration stands. */
const SECTIONS: Readonly<Record<string, string>> = {
  unit: "",
  sources: "1. Sources",
  channels: "2. Program channels",
  equalizations: "3. EQ sets",
  presets: "4. Presets",
  outputs: "5. Outputs",
  operation: "6. Operation",
  automation: "7. Automation",
  network: "8. Network",
};

/** Members that say of what sort the rest is: another value turns several lines into others. */
const SORTS = /^(outputs\[\]\.feeds|automation\[\]\.(trigger|action))\.kind$/;

const { leaves } = schemaParts();
const profiles = new Map(
  ["skarn-30", "skarn-36", "whimbrel-32", "dunlin-16"].map((id) => {
    const file = join(import.meta.dirname, "../../samples/profiles", `${id}.json`);
    return [id, readProfile(readFileSync(file)).document] as const;
  }),
);
const profileOf = ({ unit }: Configuration) => profiles.get(unit.profileId)!;

interface Leaf {
  readonly keys: readonly (string | number)[];
  /** As in the table of fields. */
  readonly path: string;
  readonly value: unknown;
}

function leavesOf(value: unknown, keys: readonly (string | number)[] = [], path = ""): readonly Leaf[] {
  if (Array.isArray(value)) return value.flatMap((item, at) => leavesOf(item, [...keys, at], `${path}[]`));
  if (typeof value === "object" && value !== null) {
    return Object.entries(value).flatMap(([name, child]) =>
      leavesOf(child, [...keys, name], path === "" ? name : `${path}.${name}`),
    );
  }
  return [{ keys, path, value }];
}

/** Another value that the same place could have. */
function otherValue({ path, value }: Leaf, grid: ReturnType<typeof limitedNumbers>[number] | undefined) {
  if (typeof value === "boolean") return !value;
  if (typeof value === "number") {
    if (grid === undefined) return value + 1;
    const at = gridIndex(grid.grid, value);
    return gridValue(grid.grid, at + 1 < gridCount(grid.grid) ? at + 1 : at - 1);
  }
  // Sorts that need no member that this one lacks.
  if (path === "automation[].action.kind") return value === "mute" ? "unmute" : "mute";
  if (path === "automation[].trigger.kind") return value === "serial" ? "network" : "serial";
  if (path === "outputs[].feeds.kind") return value === "narration" ? "booth-monitor" : "narration";
  // Fewer bands than there are gains.
  if (path.endsWith("graphic.layout")) return "octave-10";
  const choices = leaves.get(path)?.enum ?? [];
  return choices.find((choice) => choice !== value) ?? `${String(value)}9`;
}

function replaced(configuration: Configuration, keys: Leaf["keys"], value: unknown): Configuration {
  // By way of text: what a random configuration shares is not shared in a document.
  const copy = JSON.parse(JSON.stringify(configuration)) as Record<string | number, unknown>;
  const holder = keys.slice(0, -1).reduce((node, key) => node[key] as Record<string | number, unknown>, copy);
  holder[keys.at(-1)!] = value;
  return copy as unknown as Configuration;
}

const line = ({ section, cells }: { section: string; cells: readonly string[] }) =>
  `${section} | ${cells.join(" | ")}`;

/** How a sheet answers to another value at one leaf: lines of its own part, of other parts, captions and headers. */
function answer(configuration: Configuration, profile: UnitProfile, leaf: Leaf) {
  const limit = limitedNumbers(configuration, profile).find(
    ({ path }) => path.join("/") === leaf.keys.join("/"),
  );
  const other = otherValue(leaf, limit);
  if (other === leaf.value) return undefined;
  const before = entrySheet(configuration, { profile });
  const after = entrySheet(replaced(configuration, leaf.keys, other), { profile });
  const own = SECTIONS[String(leaf.keys[0])];
  const lines = (sheet: typeof before, isOwn: boolean) =>
    tickables(sheet)
      .filter(({ section }) => (section === own) === isOwn)
      .map(line);
  return {
    own: missing(lines(before, true), lines(after, true)),
    elsewhere: missing(lines(before, false), lines(after, false)),
    frames: missing(frames(before), frames(after)) + missing(frames(after), frames(before)),
  };
}

function expectOnce(configuration: Configuration, profile: UnitProfile, leaf: Leaf): void {
  const changed = answer(configuration, profile, leaf);
  if (changed === undefined) return;
  const place = `${leaf.keys.join("/")} = ${String(leaf.value)}`;
  const field = fieldAt(leaf.path)!;
  if (SORTS.test(leaf.path)) expect(changed.own, place).toBeGreaterThan(0);
  else if (field.refersTo !== undefined) {
    // A reference is the name of what it refers to: at a line, or over the column or the table of a channel.
    expect(changed.own + changed.frames, place).toBeGreaterThan(0);
    expect(changed.elsewhere, place).toBe(0);
  } else if (leaf.path.endsWith("graphic.layout")) expect(changed.frames, place).toBeGreaterThan(0);
  else {
    expect(changed.own, place).toBe(1);
    // Only names and positions are said elsewhere too, and only the sample rate turns other numbers into others.
    if (!/label$|position$|^unit.sampleRateHz$/.test(leaf.path)) expect(changed.elsewhere, place).toBe(0);
  }
}

/** One of the samples with everything that a schema allows and no sample has. */
const rich: Configuration = {
  ...screens[0]!,
  sources: screens[0]!.sources.slice(1, 3),
  equalizations: [
    {
      ...screens[0]!.equalizations[0]!,
      channels: [
        {
          channelId: "L",
          graphic: { ...screens[0]!.equalizations[0]!.channels[0]!.graphic!, enabled: false },
          parametric: [
            { id: "1", kind: "low-shelf", frequencyHz: 100, gainDb: 2, slope: 0.7 },
            { id: "2", kind: "all-pass", frequencyHz: 200, order: 2, q: 0.7 },
            { id: "3", kind: "all-pass", frequencyHz: 300, order: 1, enabled: false },
            { id: "4", kind: "notch", frequencyHz: 50, q: 12 },
          ],
        },
      ],
    },
  ],
  presets: [{ ...screens[0]!.presets[0]!, faderMark: 75 }],
  outputs: [
    {
      ...screens[0]!.outputs[0]!,
      highPass: { family: "bessel", order: 4, frequencyHz: 40, normalization: "phase" },
      lowPass: { family: "bessel", order: 2, frequencyHz: 400, normalization: "magnitude" },
      filters: [
        { id: "1", kind: "peaking", frequencyHz: 100, gainDb: 2, q: 1, enabled: false },
        { id: "2", kind: "all-pass", frequencyHz: 200, order: 2, q: 0.7 },
        { id: "3", kind: "high-shelf", frequencyHz: 8000, gainDb: 2, slope: 0.7 },
      ],
      fir: { taps: [1, 0.5], enabled: true },
      limiter: { enabled: false, thresholdDbfs: -6, attackMs: 5, releaseMs: 100 },
    },
    ...screens[0]!.outputs.filter(({ feeds }) => feeds.kind === "spare").slice(0, 2),
  ],
  automation: [
    { ...screens[0]!.automation[0]!, waitMs: 500 },
    ...screens[0]!.automation.filter(({ trigger }) => trigger.kind !== "contact").slice(0, 2),
    ...(["set-fader", "select-source"] as const).flatMap((kind) =>
      screens[0]!.automation.filter(({ action }) => action.kind === kind).slice(0, 1),
    ),
  ],
};

describe("the entry sheet", () => {
  it("has every setting that a person keys in at exactly one box: all leaves of a configuration with everything", () => {
    for (const leaf of leavesOf(rich)) {
      if (!isLeftOut(leaf.path)) expectOnce(rich, profileOf(rich), leaf);
    }
  });

  it("leaves out by decision only, and knows every field of the schema", () => {
    const keyed = new Set(
      [rich, ...screens].flatMap((configuration) => leavesOf(configuration).map(({ path }) => path)),
    );
    const neither = FIELDS.filter(({ path }) => !isLeftOut(path) && !keyed.has(path));
    expect(neither.map(({ path }) => path)).toEqual([]);
    for (const [pattern] of LEFT_OUT) expect(FIELDS.some(({ path }) => pattern.test(path))).toBe(true);
  });

  it("has every setting of the sample screens at exactly one box (leaves by chance)", () => {
    const all = screens.map((configuration) =>
      leavesOf(configuration).filter(({ path }) => !isLeftOut(path)),
    );
    fc.assert(
      fc.property(fc.nat({ max: screens.length - 1 }), fc.nat(), (which, pick) => {
        const leaf = all[which]![pick % all[which]!.length]!;
        expectOnce(screens[which]!, profileOf(screens[which]!), leaf);
      }),
      { numRuns: runs(30), endOnFailure: true },
    );
  });

  it("has every setting of any unit and configuration at exactly one box", () => {
    fc.assert(
      fc.property(oldProfiles, configurations, fc.nat(), (profile, configuration, pick) => {
        const own = leavesOf(configuration).filter(({ path }) => !isLeftOut(path));
        const leaf = own[pick % own.length]!;
        const sheet = entrySheet(configuration, { profile });
        const widest = Math.max(
          ...renderText(sheet)
            .split("\n")
            .map((text) => stringWidth(text)),
        );
        expect(widest).toBeLessThanOrEqual(80);
        expectOnce(configuration, profile, leaf);
      }),
      { numRuns: runs(30), endOnFailure: true },
    );
  });

  it("goes along the signal flow: the order of the table of fields, list by list and inside an output", () => {
    const order = Object.keys(SECTIONS).filter((part) => part !== "unit");
    const ofFields = [...new Set(FIELDS.map(({ path }) => path.split(/[.[]/)[0]!))];
    expect(order).toEqual(ofFields.filter((part) => order.includes(part)));
    const found = [
      ...new Set(tickables(entrySheet(rich, { profile: profileOf(rich) })).map((t) => t.section)),
    ];
    expect(found).toEqual(["", ...order.map((part) => SECTIONS[part])]);

    const leads = tickables(entrySheet(rich, { profile: profileOf(rich) }))
      .filter(({ section }) => section === SECTIONS.outputs)
      .map(({ cells }) => cells[0]!);
    expect(leads.slice(0, 15)).toEqual([
      ...["Name", "Connector", "Feeds", "Mix", "High-pass", "Low-pass", "1", "2", "3", "FIR filter"],
      ...["Gain", "Delay", "Polarity", "Limiter", "Mute at the end"],
    ]);
  });

  it("prints the unit's own steps: what is keyed in is the value, and no number is longer than a step", () => {
    for (const configuration of screens) {
      const profile = profileOf(configuration);
      const sheet = entrySheet(configuration, { profile });
      expect(JSON.stringify(sheet)).not.toContain('!"');
      for (const { cells } of tickables(sheet)) {
        for (const number of cells.join(" ").match(/\d+\.\d+/g) ?? []) {
          expect(number, cells.join(" ")).toMatch(/^\d+\.\d{1,4}$/);
        }
      }
      const byChannel = tickables(sheet).filter(({ section }) => section === SECTIONS.channels);
      configuration.channels.forEach(({ label, levelDb, delayMs }, index) => {
        const [name, level, delay] = byChannel[index]!.cells;
        expect(name).toBe(label);
        const grid = profile.channels.levelDb;
        expect(gridNearest(grid, Number(level!.replace("−", "-").replace(" dB", "")))).toBeCloseTo(
          levelDb,
          9,
        );
        const { unit } = profile.channels.delay;
        const shown = Number(delay!.split(" ")[0]);
        const ms = unit === "ms" ? shown : (shown * 1000) / configuration.unit.sampleRateHz;
        expect(ms).toBeCloseTo(delayMs, 5);
      });
    }
  });

  it("marks a number that the unit cannot be set to, and says so on the first page", () => {
    const off = {
      ...screens[0]!,
      channels: screens[0]!.channels.map((channel, index) =>
        index === 0 ? { ...channel, levelDb: -3.9999999 } : channel,
      ),
    };
    const text = renderText(entrySheet(off, { profile: profileOf(off) }));
    expect(text).toContain("1 number is no step of Skarn 30");
    expect(text).toMatch(/\[ \] {2}L +−4\.0000 dB !/);
  });

  it("says fader marks with their dB", () => {
    const { fader } = profileOf(screens[0]!);
    const [mark] = fader.marks;
    const sheet = entrySheet(
      { ...screens[0]!, operation: { ...screens[0]!.operation, faderMark: mark!.mark } },
      { profile: profileOf(screens[0]!) },
    );
    const [start] = tickables(sheet).filter(({ cells }) => cells[0] === "Fader at start-up");
    const db = mark!.levelDb.toFixed(1).replace("-", "−");
    expect(start!.cells[1]).toMatch(new RegExp(`^mark ${mark!.mark}(\\.0)? \\(${db} dB\\)$`));
  });

  it("keeps within 80 columns whatever labels say", () => {
    const wide = [...HOSTILE_TEXTS, "W".repeat(64), "漢".repeat(64)];
    for (const label of wide) {
      const named = <Item extends { readonly label: string }>(items: readonly Item[]) =>
        items.map((item) => ({ ...item, label }));
      const configuration: Configuration = {
        ...rich,
        unit: { ...rich.unit, label },
        sources: named(rich.sources),
        equalizations: named(rich.equalizations),
        presets: named(rich.presets),
        outputs: named(rich.outputs),
        automation: named(rich.automation),
      };
      const text = renderText(entrySheet(configuration, { profile: profileOf(rich) }));
      for (const row of text.split("\n")) expect(stringWidth(row)).toBeLessThanOrEqual(80);
    }
  });
});
