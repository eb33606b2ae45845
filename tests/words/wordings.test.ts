import { readdirSync, readFileSync } from "node:fs";
import { join, sep } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Crossover } from "../../src/model/index.ts";
import {
  counted,
  crossoverInComparison,
  crossoverInPlan,
  crossoverInRule,
  crossoverToKeyIn,
  decimalsOf,
  feedToKeyIn,
  firstAndOthers,
  firstOf,
  limiterInPlan,
  limiterToKeyIn,
  listed,
  listedInFull,
  outputInPlan,
  outputName,
  passBand,
  printGridValue,
  printHzToKeyIn,
  printLevel,
  printNumber,
  printOffset,
  printProved,
  printReadBack,
  printScaleMark,
  printSigned,
  printToKeyIn,
  printValue,
} from "../../src/words/index.ts";
import { smallScreen } from "../fleet/standard/support.ts";

const BESSEL: Crossover = { family: "bessel", order: 4, frequencyHz: 1612.4, normalization: "phase" };

describe("one thing, said in several places", () => {
  it("says a crossover in four ways, which differ as their names say", () => {
    expect(crossoverInComparison(BESSEL)).toBe("1.612 kHz, Bessel (phase normalized), 24 dB/octave");
    expect(crossoverToKeyIn(BESSEL)).toBe("Bessel (phase), 24 dB/oct, 1612.4 Hz");
    expect(crossoverInPlan(BESSEL)).toBe("Bessel of order 4 at 1.612 kHz");
    expect(crossoverInRule(BESSEL)).toBe("bessel 24 dB per octave at 1.612 kHz");
    expect([crossoverInComparison(undefined), crossoverToKeyIn(undefined)]).toEqual(["none", "off"]);
    expect(passBand({ highPass: BESSEL })).toBe("above 1.612 kHz");
  });

  it("says an output in three ways: the way always, only among several, by its id", () => {
    const loudspeakers = new Map(smallScreen.loudspeakers.map((item) => [item.id, item]));
    const label = (id: string) => loudspeakers.get(id)?.label ?? id;
    const fed = smallScreen.outputs.find(
      ({ feeds }) => feeds.kind === "loudspeaker" && loudspeakers.get(feeds.loudspeakerId)?.ways.length === 1,
    )!;
    const speaker = label((fed.feeds as { readonly loudspeakerId: string }).loudspeakerId);
    expect(outputName(smallScreen, fed)).toMatch(new RegExp(`^${speaker}, [a-z]+ way$`));
    expect(outputInPlan(loudspeakers, fed)).toBe(speaker);
    expect(feedToKeyIn(fed.feeds, label)).toMatch(new RegExp(`^${speaker}, .+ way$`));
    const spare = { feeds: { kind: "spare" }, label: "OUT 9" } as const;
    expect([outputName(smallScreen, spare), outputInPlan(loudspeakers, spare)]).toEqual([
      "Spare output OUT 9",
      "Spare output 'OUT 9'",
    ]);
  });

  it("says a limiter in two ways", () => {
    const limiter = { enabled: false, thresholdDbfs: -6, attackMs: 1, releaseMs: 100 };
    expect(limiterInPlan(limiter)).toBe("−6.0 dBFS, attack 1.00 ms, release 100 ms");
    const numbers = {
      db: (of: typeof limiter, member: "thresholdDbfs") => `${printToKeyIn(of[member])} dB`,
      ms: (of: typeof limiter, member: "attackMs" | "releaseMs") => `${printToKeyIn(of[member], 0)} ms`,
    };
    expect(limiterToKeyIn(limiter, numbers)).toBe("OFF, threshold −6.0 dBFS, attack 1 ms, release 100 ms");
  });

  it("says a value as it is set, as it was read back, and in a proof", () => {
    expect(printValue("outputs[].delayMs", 12.5)).toBe("12.50 ms");
    expect(printReadBack(12.5, "ms")).toBe("12.5 ms");
    expect(printProved(12.5, "delayMs")).toBe("12.5 ms");
    expect([
      printValue("outputs[].gainDb", -3.25),
      printReadBack(-3.25, "dB"),
      printProved(-3.25, "gainDb"),
    ]).toEqual(["−3.25 dB", "−3.25 dB", "−3.3 dB"]);
  });

  it("says lists in four ways", () => {
    const names = ["A", "B", "C", "D", "E"];
    expect(listedInFull(names)).toBe("A, B, C, D and E");
    expect(listed(names)).toBe("A, B, C and 2 more");
    expect(firstOf(names, 3)).toBe("A, B, C and 2 more");
    expect(listed(names.slice(0, 3))).toBe("A, B and C");
    expect(firstOf(names.slice(0, 3), 3)).toBe("A, B, C");
    expect(firstAndOthers(names, "others")).toBe("A and 4 others");
    expect([counted(1, "path"), counted(2, "path"), counted(0, "sum of ways", "sums of ways")]).toEqual([
      "1 path",
      "2 paths",
      "0 sums of ways",
    ]);
  });

  it("says signed numbers in three ways, which differ at zero and in decimals", () => {
    expect([printSigned(0.5, 2), printSigned(-0.001, 2), printSigned(0, 2)]).toEqual([
      "+0.50",
      "0.00",
      "0.00",
    ]);
    expect([printOffset(0.5), printOffset(-12), printOffset(0)]).toEqual(["+0.5", "−12", "+0"]);
    expect([printScaleMark(12), printScaleMark(-6), printScaleMark(0)]).toEqual(["+12", "−6", "0"]);
  });

  it("prints what is keyed in so that it reads back as the same number", () => {
    const back = (text: string) =>
      Number(text.replace("−", "-").replace(/ (k?)Hz$/, (_, k) => (k ? "e3" : "")));
    fc.assert(
      fc.property(fc.integer({ min: -1_000_000, max: 1_000_000 }), (n) => {
        const value = n / 10_000;
        expect(back(printToKeyIn(value))).toBe(value);
        expect(back(printGridValue(value))).toBe(value);
      }),
    );
    fc.assert(
      fc.property(fc.integer({ min: 200, max: 200_000 }), (n) => {
        expect(back(printHzToKeyIn(n / 10))).toBeCloseTo(n / 10, 9);
      }),
    );
  });

  it("takes as many decimals as tell a number, within limits", () => {
    fc.assert(
      fc.property(fc.integer({ min: -99_999, max: 99_999 }), fc.integer({ min: 0, max: 4 }), (n, places) => {
        const value = n / 10 ** places;
        const decimals = decimalsOf(value, { most: 4 });
        expect(Number(printNumber(value, decimals).replace("−", "-"))).toBe(value);
        expect(decimals === 0 || Number(value.toFixed(decimals - 1)) !== value).toBe(true);
      }),
    );
    expect([printLevel(0.1 + 0.2), printLevel(-3.25), printLevel(-3.257)]).toEqual([
      "0.3 dB",
      "−3.25 dB",
      "−3.26 dB",
    ]);
  });
});

/** Where words may look as if they were printed elsewhere, with the reason. */
const ELSEWHERE: Readonly<Record<string, string>> = {
  "src/exchange/commission/questions/read-answer.ts": "reads a minus sign that was typed",
  "src/exchange/tables/taking/read-cell.ts": "reads a minus sign of a cell",
  "src/report/render/columns.ts": "measures how wide characters are",
};

describe("the only place of wording", () => {
  const root = join(import.meta.dirname, "../..");
  const files = readdirSync(join(root, "src"), { recursive: true, encoding: "utf8" })
    .map((name) => `src/${name.split(sep).join("/")}`)
    .filter((name) => name.endsWith(".ts") && !/^src\/words\/|generated/.test(name))
    .filter((name) => ELSEWHERE[name] === undefined);
  const found = (pattern: RegExp) =>
    files.flatMap((file) => {
      const text = readFileSync(join(root, file), "utf8").replace(/^\s*(\/?\*|\/\/).*$/gm, "");
      const match = pattern.exec(text);
      return match === null ? [] : [`${file}: ${match[0]}`];
    });

  it.each([
    ["names of crossover families", /"(Linkwitz-Riley|Butterworth|Bessel)"/],
    ["minus signs", /\\u2212|"−"|\? "−/],
    [
      "counts of decimals, signs, lists, plurals",
      /function (decimalsOf|signed|counted|quoted|listed|plural)\([^)]*\): (string|number) /,
    ],
    [
      "words of crossovers, limiters, outputs",
      /function (crossover|limiter|output|feed|trigger|action)Words\b/,
    ],
  ])("has the %s", (_, pattern) => {
    expect(files.length).toBeGreaterThan(600);
    expect(found(pattern), "use src/words, or add the wording there beside its kin").toEqual([]);
  });
});
