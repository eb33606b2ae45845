import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { canonicalBytes, canonicalHash, canonicalText } from "../../../src/base/canonical/index.ts";

// Source: RFC 8785 sections 3.2.2 to 3.2.4 and appendix B, as recorded with their origin in canonical-json.json.
const reference = JSON.parse(
  readFileSync(join(import.meta.dirname, "../../reference/canonical-json.json"), "utf8"),
) as {
  cases: {
    id: string;
    kind: string;
    input?: string;
    canonical?: string;
    sha256?: string;
    ieee754?: string;
    text?: string;
  }[];
};

function fromBits(hex: string): number {
  const view = new DataView(new ArrayBuffer(8));
  view.setBigUint64(0, BigInt(`0x${hex}`));
  return view.getFloat64(0);
}

describe("RFC 8785", () => {
  const transforms = reference.cases.filter((c) => c.kind === "transform");
  it.each(transforms)("transform $id", (c) => {
    const value: unknown = JSON.parse(c.input!);
    expect(canonicalText(value)).toBe(c.canonical);
    expect(canonicalHash(value)).toBe(c.sha256);
    expect(Buffer.from(canonicalBytes(value)).toString("utf8")).toBe(c.canonical);
  });

  const numbers = reference.cases.filter(
    (c) => c.kind === "number" && c.text !== undefined && c.text !== null,
  );
  it.each(numbers)("number $id", (c) => {
    expect(canonicalText(fromBits(c.ieee754!))).toBe(c.text);
  });

  it("has seen the whole table", () => {
    expect(transforms.length).toBeGreaterThanOrEqual(5);
    expect(numbers.length).toBeGreaterThanOrEqual(10);
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY, "\ud800", undefined])("refuses %s", (value) => {
    expect(() => canonicalText(value)).toThrow();
  });
});
