import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { BoothkeepError } from "../../../src/base/errors/index.ts";
import {
  ENTRY_DIGITS,
  type Imprint,
  imprintText,
  printedImprint,
  readImprint,
} from "../../../src/logbook/imprint/index.ts";
import { scanned } from "./scan.ts";

const hex = (length: number) =>
  fc
    .array(fc.constantFrom(..."0123456789abcdef"), { minLength: length, maxLength: length })
    .map((d) => d.join(""));
const id = fc.stringMatching(/^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/);

const imprints: fc.Arbitrary<Imprint> = fc
  .record({
    siteId: id,
    screenId: id,
    entry: fc.option(fc.record({ number: fc.integer({ min: 1, max: 999_999_999 }), id: hex(64) }), {
      nil: undefined,
    }),
    settingsSha256: hex(64),
  })
  .map(({ entry, ...rest }) => ({ ...rest, ...(entry === undefined ? {} : { entry }) }));

/** The same imprint with as many digits of the entry's id as stand on paper. */
const onPaper = (imprint: Imprint): Imprint =>
  imprint.entry === undefined
    ? imprint
    : { ...imprint, entry: { ...imprint.entry, id: imprint.entry.id.slice(0, ENTRY_DIGITS) } };

const longest: Imprint = {
  siteId: "s".repeat(64),
  screenId: "S".repeat(64),
  entry: { number: 999_999_999, id: "e".repeat(64) },
  settingsSha256: "f".repeat(64),
};

describe("the words of a code", () => {
  it("are read back, wherever lines were broken between them", () => {
    fc.assert(
      fc.property(imprints, fc.constantFrom(" ", "\n", "\r\n  ", "\t"), (imprint, space) => {
        const text = `${space}${imprintText(imprint).replaceAll(" ", space)}${space}`;
        expect(readImprint(text)).toEqual(onPaper(imprint));
      }),
    );
  });

  it("are refused with a next step when they are other words", () => {
    const whole = imprintText(longest);
    for (const text of [
      "",
      "hello",
      whole.slice(1),
      whole.slice(0, -1),
      `${whole}0`,
      whole.replace("1:", "2:"),
    ]) {
      try {
        readImprint(text);
        expect.unreachable(text);
      } catch (error) {
        expect((error as BoothkeepError).code).toBe("imprint.unreadable");
        expect((error as BoothkeepError).next).toMatch(/Scan again/);
      }
    }
  });
});

describe("the code", () => {
  it("is read by another program's decoder, for any imprint (jsqr, by ISO/IEC 18004)", async () => {
    await fc.assert(
      fc.asyncProperty(imprints, async (imprint) => {
        const { modules, text } = await printedImprint(imprint);
        expect(scanned(modules.map((row) => Array.from(row, (module) => module === "#")))).toBe(text);
      }),
      { numRuns: 40 },
    );
  });

  it("is a square with a quiet zone of four that fits in 80 columns even with the longest names", async () => {
    const { modules } = await printedImprint(longest);
    expect(modules.length).toBeLessThanOrEqual(80);
    for (const row of modules) {
      expect(row).toMatch(/^\.{4}[#.]+\.{4}$/);
      expect(row).toHaveLength(modules.length);
    }
    const quiet = ".".repeat(modules.length);
    expect([...modules.slice(0, 4), ...modules.slice(-4)]).toEqual(Array(8).fill(quiet));
  });

  it("is read with a stain over it: a seventh of its side blotted out in the middle (level M: 15 % of codewords)", async () => {
    const { modules, text } = await printedImprint(longest);
    const side = modules.length;
    const blot = Math.floor(side / 7);
    const from = Math.floor((side - blot) / 2);
    const inside = (at: number) => at >= from && at < from + blot;
    const stained = modules.map((row, y) =>
      Array.from(row, (module, x) => (inside(x) && inside(y) ? true : module === "#")),
    );
    expect(scanned(stained)).toBe(text);
  });
});
