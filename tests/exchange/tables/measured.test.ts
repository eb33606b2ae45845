import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nominalThirdOctaveHz, thirdOctaveBands, xCurveDeviations } from "../../../src/acoustics/index.ts";
import { csvText } from "../../../src/base/text/index.ts";
import { dbFromPower } from "../../../src/base/units/index.ts";
import {
  type MeasuredColumn,
  measuredAgainstXCurve,
  readMeasurement,
  readPositions,
  takeMeasurement,
} from "../../../src/exchange/tables/index.ts";
import { bandOfHz, hzOfText } from "../../../src/exchange/tables/measured/bands.ts";
import { readCsv } from "../../../src/exchange/workbook/index.ts";
import { asLeft } from "../../diff/changes/samples.ts";
import levels from "../../reference/levels.json" with { type: "json" };
import { sampleFile } from "../fieldmap/sample-maps.ts";

const BANDS = thirdOctaveBands(40, 16_000);
const circumstances = { date: "2026-11-02", by: "Alignment team" };

const csv = (text: string) => readCsv(Buffer.from(text, "utf8"));
const read = (text: string) => readMeasurement(csv(text), "m.csv", asLeft);
const tableOf = (headings: readonly string[], level: (band: number, column: number) => number | undefined) =>
  csvText([
    ["Frequency (Hz)", ...headings],
    ...BANDS.map(({ index }) => [
      nominalThirdOctaveHz(index),
      ...headings.map((_, column) => level(index, column)),
    ]),
  ]);

function columnsOf(text: string): readonly MeasuredColumn[] {
  const measurement = read(text);
  if (measurement.kind === "refused") throw new Error(JSON.stringify(measurement.problems));
  return measurement.columns;
}

describe("third octaves", () => {
  it("are known by their nominal frequencies (ISO 266, R10) and by exact ones of base ten and two (IEC 61260-1)", () => {
    for (const { index, centerHz } of thirdOctaveBands()) {
      expect(bandOfHz(nominalThirdOctaveHz(index))).toBe(index);
      expect(bandOfHz(centerHz)).toBe(index);
      expect(bandOfHz(Number(centerHz.toPrecision(4)))).toBe(index);
      expect(bandOfHz(1000 * 2 ** (index / 3))).toBe(index);
    }
    // ISO 266:1997, table 1: a decade of R10.
    expect([1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8].map((k) => bandOfHz(k * 100))).toEqual([
      -10, -9, -8, -7, -6, -5, -4, -3, -2, -1,
    ]);
  });

  it("are not any other frequency", () => {
    for (const hz of [0, -1000, 1020, 1100, 1500, 3000, 6000, 12_000, 18_000, 25_000, 15])
      expect(bandOfHz(hz)).toBeUndefined();
  });

  it("may be written with k and Hz", () => {
    expect(
      ["1250", "1.25k", "1.25 kHz", "1250 Hz", "1,25 kHz", "x"].map((text) => hzOfText(text, ".")),
    ).toEqual([1250, 1250, 1250, 1250, undefined, undefined]);
    expect(hzOfText("1,25k", ",")).toBe(1250);
  });
});

describe("a table of measured third octaves", () => {
  it("gives the calibration of the sample back: the power average of its positions", () => {
    const { configuration, channels, keptChannels } = takeMeasurement(
      asLeft,
      columnsOf(sampleFile("measurements/lantern-mill-1.csv").toString("utf8")),
      circumstances,
    );
    expect(channels.map(({ channelId, positions }) => [channelId, positions])).toEqual([
      ["L", 5],
      ["C", 5],
      ["R", 5],
    ]);
    expect(keptChannels).toEqual(["LFE", "Lss", "Rss", "Lrs", "Rrs"]);
    for (const channel of configuration.calibration!.channels) {
      const before = asLeft.calibration!.channels.find(({ channelId }) => channelId === channel.channelId)!;
      expect(channel.levelDbC).toBe(before.levelDbC);
      channel.thirdOctavesDb?.forEach((levelDb, band) => {
        // Both were rounded to tenths, and so were the levels at each position.
        expect(Math.abs(levelDb - before.thirdOctavesDb![band]!)).toBeLessThan(0.15);
      });
    }
    expect(configuration.calibration).toMatchObject({
      date: "2026-11-02",
      by: "Alignment team",
      equalizationId: asLeft.calibration!.equalizationId,
      microphonePositions: asLeft.calibration!.microphonePositions,
    });
    expect(configuration.calibration!.notes).toContain(
      "Not measured on 2026-11-02, kept from 2026-03-17: LFE, Lss, Rss, Lrs, Rrs.",
    );
  });

  it.each(
    levels.cases.filter(({ kind }) => kind === "incoherentSum") as {
      id: string;
      levelsDb: number[];
      expectedDb: number;
    }[],
  )("is averaged by power: $id", ({ levelsDb, expectedDb }) => {
    // The average power is the sum (reference/levels.json) over the count.
    const text = tableOf(
      levelsDb.map((_, k) => `L at p${k + 1}`),
      (band, column) => (band === 5 ? levelsDb[column] : 60),
    );
    const { configuration } = takeMeasurement(asLeft, columnsOf(text), circumstances);
    const channel = configuration.calibration!.channels.find(({ channelId }) => channelId === "L")!;
    const average = expectedDb - dbFromPower(levelsDb.length);
    expect(channel.thirdOctavesDb![BANDS.findIndex(({ index }) => index === 5)]).toBeCloseTo(average - 60, 2);
  });

  it("does not depend on the level at which it was measured, nor on the order of rows and columns", () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.integer({ min: -120, max: 40 }).map((k) => k / 10),
          { minLength: 54, maxLength: 54 },
        ),
        fc.integer({ min: 0, max: 60 }),
        (values, up) => {
          const level = (band: number, column: number) => values[(band + 14) * 2 + column]!;
          const take = (text: string) =>
            takeMeasurement(asLeft, columnsOf(text), circumstances).configuration;
          const plain = take(tableOf(["L", "R"], level));
          const louder = take(
            tableOf(["L", "R"], (band, column) => Number((level(band, column) + up).toFixed(1))),
          );
          const lines = tableOf(["R", "L"], (band, column) => level(band, 1 - column)).split("\r\n");
          const turned = take([lines[0], ...lines.slice(1, -1).reverse(), ""].join("\r\n"));
          expect(turned).toEqual(plain);
          plain.calibration!.channels.forEach(({ thirdOctavesDb }, channel) => {
            thirdOctavesDb?.forEach((db, band) => {
              expect(louder.calibration!.channels[channel]!.thirdOctavesDb![band]).toBeCloseTo(db, 1);
            });
          });
        },
      ),
      { numRuns: 25 },
    );
  });

  it("may hold bands that a calibration does not keep, levels and the LFE's gain", () => {
    const text = `${tableOf(["LFE (dB SPL)"], () => 70)}20 Hz,60\r\n20k,50\r\nMeasured level (dB SPL),88.2\r\nMeasured in-band gain,10.4\r\n`;
    const { configuration } = takeMeasurement(asLeft, columnsOf(text), circumstances);
    expect(configuration.calibration!.channels.find(({ channelId }) => channelId === "LFE")).toEqual({
      channelId: "LFE",
      levelDbC: 88.2,
      inBandGainDb: 10.4,
      thirdOctavesDb: Array(27).fill(0),
    });
  });

  const good = tableOf(["L"], () => 70);
  it.each([
    ["no frequencies", "L\r\n1\r\n", /does not start with a column 'Frequency \(Hz\)'/, /first column/],
    [
      "a third octave that is missing",
      good.replace(/\r\n1000,70/, ""),
      /A third octave is missing: 1000 Hz\./,
      /every third octave/,
    ],
    [
      "several that are missing",
      good.replace(/\r\n(1000|1250),70/g, ""),
      /2 third octaves are missing: 1000 Hz, 1250 Hz\./,
      /every/,
    ],
    [
      "a third octave that stands twice",
      `${good}1.25k,70\r\n`,
      /1250 Hz stands twice; the other is row 17/,
      /one of the two/,
    ],
    [
      "a frequency that is none",
      good.replace("1000,70", "1020,70"),
      /1020 Hz is no third octave/,
      /1000 Hz and 1250 Hz/,
    ],
    ["a row without a frequency", good.replace("1000,70", ",70"), /no frequency/, /take the row out/],
    ["words for a frequency", good.replace("1000,70", "mid,70"), /'mid' is no frequency/, /Measured level/],
    ["a level that is missing", good.replace("1000,70", "1000,"), /level is missing/, /Fill/],
    ["text for a level", good.replace("1000,70", "1000,loud"), /no number/, /number/],
    ["a decimal comma", good.replace("1000,70", '1000,"70,5"'), /decimal comma/, /--decimal comma/],
    ["an unknown channel", good.replace("Hz),L", "Hz),LL"), /no program channel 'LL'/, /Was 'L' meant/],
    [
      "a channel that stands twice",
      tableOf(["L", "L (dB)"], () => 70),
      /stands in two columns/,
      /one of the two/,
    ],
    [
      "a channel with and without a position",
      tableOf(["L", "L at p1"], () => 70),
      /with and without/,
      /average/,
    ],
    ["a column without a heading", tableOf(["L", ""], () => 70), /no heading/, /Name/],
    ["no column of levels", tableOf([], () => 70), /no column of levels/, /each program channel/],
  ])("with %s is refused at its place", (_what, text, words, next) => {
    const measurement = read(text);
    if (measurement.kind !== "refused") throw new Error("It was read.");
    const told = measurement.problems.find((problem) => words.test(problem.words));
    expect(measurement.problems.map((problem) => problem.words).join("\n")).toMatch(words);
    expect(told!.next).toMatch(next);
    expect(told!.file).toBe("m.csv");
  });

  it.each([
    ["an unknown position", tableOf(["L at p9"], () => 70), {}, /no microphone position 'p9'/, /p1, p2/],
    ["an EQ set that is not there", good, { equalizationId: "x" }, /no EQ set 'x'/, /feature/],
    ["a day that is none", good, { date: "2026-02-30" }, /date/, /option/],
    ["a level beyond what can be", good.replace("1000,70", "1000,400"), {}, /at most 60/, /Mend/],
    [
      "a level at one position only",
      `${tableOf(["L at p1", "L at p2"], () => 70)}Measured level,85,\r\n`,
      {},
      /some microphone positions only/,
      /each/,
    ],
  ])("with %s is refused", (_what, text, more, words, next) => {
    expect(() => takeMeasurement(asLeft, columnsOf(text), { ...circumstances, ...more })).toThrow(
      expect.objectContaining({
        code: "table.does-not-fit",
        message: expect.stringMatching(words),
        next: expect.stringMatching(next),
      }),
    );
  });

  it("needs a level where none was measured before, and the EQ set where there are several", () => {
    const { calibration: _none, ...bare } = asLeft;
    expect(() => takeMeasurement(bare, columnsOf(good), circumstances)).toThrow(/no C-weighted level of 'L'/);
    const withLevel = `${good}Measured level (dB SPL),85\r\n`;
    expect(() => takeMeasurement(bare, columnsOf(withLevel), circumstances)).toThrow(
      /not clear which EQ set/,
    );
    const { configuration } = takeMeasurement(bare, columnsOf(withLevel), {
      ...circumstances,
      equalizationId: "feature",
    });
    expect(configuration.calibration).toMatchObject({
      microphonePositions: [],
      channels: [{ channelId: "L", levelDbC: 85 }],
    });
    expect(configuration.calibration).not.toHaveProperty("notes");
  });
});

describe("microphone positions", () => {
  const heading = "Microphone position,Position across (m),Distance from the screen (m),Height (m)\r\n";

  it("are read by their headings", () => {
    const sheet = csv(
      "Height (m),Microphone position,Position across (m),Distance from the screen (m)\r\n1.2,m1,-2.5,14\r\n",
    );
    expect(readPositions(sheet, "p.csv")).toEqual({
      kind: "read",
      positions: [{ id: "m1", xM: -2.5, yM: 14, zM: 1.2 }],
    });
  });

  it.each([
    [
      "a column that is missing",
      "Microphone position,Height (m)\r\nm1,1\r\n",
      /'Position across \(m\)' is missing/,
    ],
    ["a position twice", `${heading}m1,1,2,1\r\nm1,1,2,1\r\n`, /'m1' stands twice/],
    ["a position without a name", `${heading},1,2,1\r\n`, /needs a name/],
    ["a place that is missing", `${heading}m1,1,,1\r\n`, /value is missing/],
    ["a place that is no number", `${heading}m1,1,far,1\r\n`, /'far' is no number/],
  ])("with %s are refused", (_what, text, words) => {
    const positions = readPositions(csv(text), "p.csv");
    expect(
      positions.kind === "refused" && positions.problems.map((problem) => problem.words).join("\n"),
    ).toMatch(words);
  });
});

describe("measured responses beside the X-curve", () => {
  it("a response that is the published table lies on the curve", () => {
    const table = levels.facts.xCurve.table.filter(({ nominalHz }) => nominalHz >= 40 && nominalHz <= 16_000);
    const deviations = xCurveDeviations(table.map(({ levelDb }) => levelDb));
    expect(deviations.map(({ nominalHz }) => nominalHz)).toEqual(table.map(({ nominalHz }) => nominalHz));
    deviations.forEach(({ deviationDb, targetDb, frequencyHz }, k) => {
      // The table is in whole dB.
      expect(Math.abs(deviationDb)).toBeLessThan(0.12);
      // Its formula column is for nominal frequencies; exact ones differ by at most 1 %.
      expect(Math.abs(targetDb - table[k]!.formulaDb)).toBeLessThan(0.1);
      expect(frequencyHz / table[k]!.nominalHz).toBeCloseTo(1, 1);
    });
    expect(deviations.filter(({ judged }) => judged).map(({ nominalHz }) => nominalHz)).toEqual(
      table.map(({ nominalHz }) => nominalHz).filter((hz) => hz >= 63 && hz <= 12_500),
    );
  });

  it("are those of screen and surround channels, not of the LFE or headsets", () => {
    const labels = measuredAgainstXCurve(asLeft).map(({ channelId }) => channelId);
    expect(labels).toEqual(["L", "R", "C", "Lss", "Rss", "Lrs", "Rrs"]);
  });
});
