import { describe, expect, it } from "vitest";
import { earlierConfiguration } from "../../src/jobs/index.ts";
import { largeScreen } from "./support.ts";

describe("an earlier configuration", () => {
  it("is parsed where it is of the present schema version, and given up where it cannot be read", () => {
    const text = JSON.stringify(largeScreen);
    expect(earlierConfiguration(text, largeScreen.schemaVersion)).toEqual(largeScreen);
    expect(earlierConfiguration(text, "9.0.0")).toEqual(largeScreen);
    const other = JSON.stringify({ ...largeScreen, schemaVersion: "7.0.0" });
    expect(earlierConfiguration(other, largeScreen.schemaVersion)).toBeUndefined();
    expect(earlierConfiguration("{", largeScreen.schemaVersion)).toBeUndefined();
    expect(earlierConfiguration(undefined, largeScreen.schemaVersion)).toBeUndefined();
  });
});
