import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, it } from "vitest";
import { countLeaves } from "../../samples/generate/fleet.ts";
import { allExports, allSamples } from "../../samples/generate/samples.ts";
import { sampleText } from "../../samples/generate/text.ts";
import { validateConfiguration, validateUnitProfile } from "../../src/model/generated/validators.js";
import { CONFIGURATIONS, PROFILES, SAMPLES_FOLDER } from "./all-samples.ts";

const generated = Object.entries(allSamples());

describe("sample files", () => {
  it.each(generated)("%s is what the generator writes", (name, document) => {
    expect(readFileSync(join(SAMPLES_FOLDER, name), "utf8")).toBe(sampleText(document));
  });

  it.each(Object.entries(allExports()))("%s is what the generator writes", (name, bytes) => {
    expect(readFileSync(join(SAMPLES_FOLDER, name)).equals(bytes)).toBe(true);
  });

  it("are all generated", () => {
    const committed = [...PROFILES, ...CONFIGURATIONS].map(([name]) => name);
    const documents = generated.map(([name]) => name).filter((name) => !/^(maps|complete)\//.test(name));
    expect(committed.sort()).toEqual(documents.sort());
  });

  it("are made alike twice", () => {
    expect(JSON.stringify(allSamples())).toBe(JSON.stringify(Object.fromEntries(generated)));
  });

  it.each(generated)("%s is small enough to read and names its schema", (name, document) => {
    expect(sampleText(document).length).toBeLessThan(250_000);
    const { $schema } = document as { $schema: string };
    expect(existsSync(join(SAMPLES_FOLDER, dirname(name), $schema))).toBe(true);
  });

  it.each(PROFILES)("%s follows the schema of unit profiles", (_, profile) => {
    validateUnitProfile(profile);
    expect(validateUnitProfile.errors ?? []).toEqual([]);
  });

  it.each(CONFIGURATIONS)("%s follows the schema of configurations", (_, configuration) => {
    validateConfiguration(configuration);
    expect(validateConfiguration.errors ?? []).toEqual([]);
  });

  it("hold a large screen of 3,000 to 5,000 values", () => {
    const large = CONFIGURATIONS.find(([name]) => name === "screens/lantern-mill/screen-1.json")![1];
    expect(countLeaves(large)).toBeGreaterThan(3000);
    expect(countLeaves(large)).toBeLessThan(5000);
  });
});
