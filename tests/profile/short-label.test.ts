import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { labelFits, labelLimits, shortLabel } from "../../src/profile/index.ts";

const ascii = labelLimits({ maxLength: 12, characters: [" -~"] });
const capitals = labelLimits({ maxLength: 10, characters: ["A-Z", "0-9", " ", ".", "/", "+", "-"] });

describe("shortLabel", () => {
  it("keeps what fits, and says most with what there is", () => {
    const none: ReadonlySet<string> = new Set();
    expect(shortLabel("Feature 5.1", ascii, none)).toBe("Feature 5.1");
    expect(shortLabel("Feature 7.1DS", ascii, none)).toBe("Feat 7.1DS");
    expect(shortLabel("Left side surround", ascii, none)).toBe("L side sur");
    expect(shortLabel("Émission 2", ascii, none)).toBe("Emission 2");
    expect(shortLabel("Trailers 5.1", capitals, none)).toBe("TRL 5.1");
  });

  it("never gives a label that is taken", () => {
    const taken = new Set(["Feat 7.1DS"]);
    expect(shortLabel("Feature 7.1DS", ascii, taken)).not.toBe("Feat 7.1DS");
  });

  it("has nothing to offer where nothing can be shown", () => {
    expect(shortLabel("x", labelLimits({ maxLength: 4, characters: ["~"] }), new Set([""]))).toBeUndefined();
  });

  it("takes words that name members of every object for words", () => {
    expect(shortLabel("constructor", { ...ascii, maxLength: 8 }, new Set())).toBe("cnstrctr");
  });

  it("gives labels that fit and differ, for any labels", () => {
    fc.assert(
      fc.property(
        fc.array(fc.string({ minLength: 1, maxLength: 30 }), { minLength: 1, maxLength: 20 }),
        fc.constantFrom(ascii, capitals, labelLimits({ maxLength: 3, characters: ["A-Z", "0-9"] })),
        (labels, limits) => {
          const taken = new Set<string>();
          for (const label of labels) {
            const short = shortLabel(label, limits, taken);
            expect(short).toBeDefined();
            expect(labelFits(short!, limits)).toBe(true);
            expect(taken.has(short!)).toBe(false);
            taken.add(short!);
          }
        },
      ),
    );
  });
});
