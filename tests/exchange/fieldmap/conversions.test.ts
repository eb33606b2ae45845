import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { converterOf } from "../../../src/exchange/fieldmap/conversions/index.ts";
import { fieldType } from "../../../src/exchange/fieldmap/field-type.ts";
import { octavesFromQ, qFromOctaves } from "../../../src/exchange/fieldmap/index.ts";
import { type Conversion, FIELDS } from "../../../src/model/index.ts";

interface DistanceCase {
  readonly id: string;
  readonly kind: string;
  readonly distanceM: number;
  readonly temperatureC: number;
  readonly sampleRateHz: number;
  readonly delayMs: number;
  readonly samples: number;
  readonly framesAt: Readonly<Record<string, number>>;
}

const reference = JSON.parse(
  readFileSync(join(import.meta.dirname, "..", "..", "reference", "delay-distance.json"), "utf8"),
) as { readonly cases: readonly DistanceCase[] };
const distances = reference.cases.filter(({ kind }) => kind === "distanceToDelay");

const numeric = (as: Conversion, known = {}) => converterOf(as, { type: "number", decimal: ".", known });
const read = (as: Conversion, raw: string, known = {}) => numeric(as, known).read(raw);
const write = (as: Conversion, value: number | string | boolean, before = "") =>
  numeric(as).write(value, before);

describe("times, against the reference of ISO 9613-1 and arithmetic", () => {
  it("has enough cases", () => expect(distances.length).toBeGreaterThan(5));

  it.each(distances)("$id", ({ distanceM, temperatureC, sampleRateHz, delayMs, samples, framesAt }) => {
    const metres: Conversion = { kind: "time", unit: "m" };
    expect(read(metres, String(distanceM), { temperatureC })).toBeCloseTo(delayMs, 6);
    expect(read({ kind: "time", unit: "samples" }, String(samples), { sampleRateHz })).toBeCloseTo(
      delayMs,
      5,
    );
    for (const [framesPerSecond, frames] of Object.entries(framesAt)) {
      const as: Conversion = { kind: "time", unit: "frames", framesPerSecond: Number(framesPerSecond) };
      expect(read(as, String(frames))).toBeCloseTo(delayMs, 5);
    }
  });

  it.each(distances)("$id, the other way round", (one) => {
    const { distanceM, temperatureC, sampleRateHz, delayMs, samples, framesAt } = one;
    const written = (as: Conversion) =>
      Number(numeric(as, { temperatureC, sampleRateHz }).write(delayMs, ""));
    expect(written({ kind: "time", unit: "m" })).toBeCloseTo(distanceM, 6);
    expect(written({ kind: "time", unit: "samples", decimals: 6 })).toBeCloseTo(samples, 4);
    expect(written({ kind: "time", unit: "samples" })).toBe(Math.round(samples));
    expect(written({ kind: "time", unit: "ms" })).toBeCloseTo(delayMs, 9);
    expect(written({ kind: "time", unit: "us" })).toBeCloseTo(delayMs * 1000, 4);
    for (const [framesPerSecond, frames] of Object.entries(framesAt)) {
      const as: Conversion = { kind: "time", unit: "frames", framesPerSecond: Number(framesPerSecond) };
      expect(written(as)).toBeCloseTo(frames, 6);
    }
  });

  it("needs a sample rate for samples", () => {
    expect(read({ kind: "time", unit: "samples" }, "48")).toBeUndefined();
    expect(read({ kind: "time", unit: "samples", sampleRateHz: 48_000 }, "48")).toBe(1);
  });

  it("knows feet of 0.3048 m", () => {
    const feet = read({ kind: "time", unit: "ft", temperatureC: 20 }, "10") as number;
    expect(feet).toBeCloseTo((3.048 / 343.2) * 1000, 9);
  });
});

describe("other units", () => {
  it.each<readonly [Conversion, string, number]>([
    [{ kind: "level", unit: "tenth-dB" }, "-45", -4.5],
    [{ kind: "level", unit: "hundredth-dB" }, "-1275", -12.75],
    [{ kind: "level", unit: "percent" }, "10", -20],
    // ISO 80000-3: a ratio of amplitudes of 2 is 6.0206 dB, of powers 3.0103 dB.
    [{ kind: "level", unit: "ratio", round: 4 }, "2", 6.0206],
    [{ kind: "level", unit: "power-ratio", round: 4 }, "2", 3.0103],
    [{ kind: "frequency", unit: "kHz" }, "1.25", 1250],
    [{ kind: "frequency", unit: "octaves" }, "-1", 500],
    [{ kind: "number", offset: 1 }, "0", 1],
    [{ kind: "length", unit: "ft" }, "10", 3.048],
    [{ kind: "level", unit: "dB", suffix: " dB" }, "-3.0 dB", -3],
  ])("%j: %s is %d", (as, raw, value) => {
    expect(read(as, raw)).toBe(value);
  });

  it.each<readonly [Conversion, number, string]>([
    [{ kind: "level", unit: "tenth-dB", decimals: 0 }, -4.5, "-45"],
    [{ kind: "level", unit: "hundredth-dB", decimals: 0 }, -12.75, "-1275"],
    // ISO 80000-3: 6.0206 dB are a ratio of amplitudes of 2, 3.0103 dB of powers.
    [{ kind: "level", unit: "ratio", decimals: 4 }, 6.0206, "2.0000"],
    [{ kind: "level", unit: "power-ratio", decimals: 4 }, 3.0103, "2.0000"],
    [{ kind: "level", unit: "percent", decimals: 2 }, -20, "10.00"],
    [{ kind: "frequency", unit: "kHz" }, 1250, "1.25"],
    [{ kind: "frequency", unit: "octaves", referenceHz: 1000 }, 2000, "1"],
    [{ kind: "number", offset: 1 }, 1, "0"],
    [{ kind: "number", factor: 5 / 9, offset: -160 / 9, decimals: 1 }, 100, "212.0"],
    [{ kind: "length", unit: "ft", decimals: 3 }, 3.048, "10.000"],
    [{ kind: "length", unit: "mm" }, 12.3, "12300"],
    [{ kind: "width", unit: "octaves", decimals: 4 }, Math.SQRT2, "1.0000"],
  ])("%j: %d is written '%s'", (as, value, text) => {
    expect(write(as, value)).toBe(text);
  });

  it("has the widths of the Audio EQ Cookbook: 1/Q = 2 sinh(ln 2 / 2 · BW), without its warping", () => {
    for (const octaves of [1 / 12, 1 / 3, 1 / 2, 2 / 3, 1, 2, 3]) {
      const q = 1 / (2 * Math.sinh((Math.LN2 / 2) * octaves));
      expect(read({ kind: "width", unit: "octaves" }, String(octaves))).toBeCloseTo(q, 9);
      expect(Number(write({ kind: "width", unit: "octaves" }, q))).toBeCloseTo(octaves, 9);
    }
  });

  it("has the Q of one octave and of a third octave that handbooks give", () => {
    // sqrt(2) and 4.318: the Q of the bands of a third-octave equalizer (domain knowledge of IEC 61260-1 filters).
    expect(qFromOctaves(1)).toBeCloseTo(Math.SQRT2, 12);
    expect(qFromOctaves(1 / 3)).toBeCloseTo(2 ** (1 / 6) / (2 ** (1 / 3) - 1), 12);
    expect(octavesFromQ(Math.SQRT2)).toBeCloseTo(1, 12);
  });

  it("reads fader marks by a table with straight lines, and refuses beyond its ends", () => {
    const as: Conversion = {
      kind: "table",
      points: [
        { export: 0, value: -90 },
        { export: 4, value: -20 },
        { export: 7, value: 0 },
      ],
    };
    expect(read(as, "7")).toBe(0);
    expect(read(as, "5.5")).toBe(-10);
    expect(read(as, "7.1")).toBeUndefined();
    expect(write(as, -10)).toBe("5.5");
  });

  it("turns words, inverted switches and ids both ways", () => {
    const as: Conversion = {
      kind: "choice",
      choices: [
        { export: "0", value: true },
        { export: "1", value: false },
      ],
    };
    expect([read(as, "0"), read(as, "1"), read(as, "2")]).toEqual([true, false, undefined]);
    expect(write(as, true, "1")).toBe("0");
    const id: Conversion = { kind: "template", text: "out-{}", pad: 2, offset: 1 };
    expect(read(id, "0")).toBe("out-01");
    expect(write(id, "out-12")).toBe("11");
    expect(write(id, "in-12")).toBeUndefined();
  });
});

describe("texts of numbers", () => {
  it.each(["", "abc", "1.2.3", "1,5", "0x10", "Infinity", "NaN", "1e999", "1 000", "--3", "3 dB"])(
    "'%s' is none",
    (raw) => {
      expect(read({ kind: "number" }, raw)).toBeUndefined();
    },
  );

  it("takes a decimal comma only where the map says so", () => {
    const comma = converterOf({ kind: "number" }, { type: "number", decimal: ",", known: {} });
    expect([comma.read("-4,5"), comma.read("-4.5"), comma.read("1.000,5")]).toEqual([
      -4.5,
      undefined,
      undefined,
    ]);
    expect(comma.write(-3.25, "-4,5")).toBe("-3,25");
  });

  it("keeps the plus sign and the decimals that stood there", () => {
    expect(write({ kind: "number" }, 3, "+1.50")).toBe("+3.00");
    expect(write({ kind: "number" }, -3, "+1.50")).toBe("-3.00");
    expect(write({ kind: "number" }, 1.25, "1.5")).toBe("1.25");
    expect(write({ kind: "number", decimals: 1 }, -0.04, "1.5")).toBe("0.0");
  });

  const invertible: readonly Conversion[] = [
    { kind: "number", factor: 0.25, offset: -3 },
    { kind: "level", unit: "tenth-dB" },
    { kind: "level", unit: "ratio" },
    { kind: "time", unit: "us" },
    { kind: "time", unit: "m", temperatureC: 17 },
    { kind: "frequency", unit: "octaves", referenceHz: 440 },
    { kind: "width", unit: "octaves" },
  ];
  it.each(invertible)("%j: a value written reads as itself, to ten digits", (as) => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 90, noNaN: true }), (value) => {
        const back = read(as, write(as, value)!) as number;
        expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-9 * Math.max(1, value));
      }),
      { numRuns: 200 },
    );
  });
});

it("the type of each field is that of the schema", () => {
  const schema = JSON.parse(
    readFileSync(join(import.meta.dirname, "../../../schemas/configuration.schema.json"), "utf8"),
  );
  for (const { path } of FIELDS) expect([path, fieldType(path)]).toEqual([path, schemaType(schema, path)]);
});

interface SchemaNode {
  readonly $ref?: string;
  readonly type?: string;
  readonly oneOf?: readonly SchemaNode[];
  readonly items?: SchemaNode;
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly $defs?: Readonly<Record<string, SchemaNode>>;
}

/** Type of a leaf in the schema; a union's members agree, so the first that has the name will do. */
function schemaType(schema: SchemaNode, path: string): string | undefined {
  const resolve = (node: SchemaNode | undefined): readonly SchemaNode[] => {
    const own = node?.$ref === undefined ? node : schema.$defs?.[node.$ref.slice("#/$defs/".length)];
    if (own === undefined) return [];
    return own.oneOf === undefined ? [own] : own.oneOf.flatMap(resolve);
  };
  let nodes: readonly SchemaNode[] = [schema];
  for (const part of path.replaceAll("[]", ".[]").split(".")) {
    nodes = nodes.flatMap((node) => resolve(part === "[]" ? node.items : node.properties?.[part]));
  }
  const type = nodes[0]?.type;
  return type === "string" ? "text" : type === "integer" ? "number" : type;
}
