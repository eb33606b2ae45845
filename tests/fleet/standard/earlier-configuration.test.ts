import { describe, expect, it } from "vitest";
import { earlierConfiguration } from "../../../src/jobs/index.ts";
import { largeScreen } from "./support.ts";

describe("an earlier configuration", () => {
  const read = (document: object, text = JSON.stringify(document)) =>
    earlierConfiguration(document as Readonly<Record<string, unknown>>, () => text, largeScreen);

  it("is taken as parsed where it is of the present schema version", () => {
    const own = structuredClone(largeScreen);
    expect(read(own, "never looked at")).toBe(own);
  });

  it("is read with all care where it is not, and given up where it cannot be read", () => {
    expect(
      earlierConfiguration({ schemaVersion: "0.9.0" }, () => JSON.stringify(largeScreen), largeScreen),
    ).toEqual(largeScreen);
    expect(read({ ...largeScreen, schemaVersion: "7.0.0" })).toBeUndefined();
    expect(read({ schemaVersion: "0.9.0" }, "{")).toBeUndefined();
    expect(earlierConfiguration(undefined, () => undefined, largeScreen)).toBeUndefined();
  });
});
