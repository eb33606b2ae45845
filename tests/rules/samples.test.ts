import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { inspectDocument, readConfiguration, readProfile } from "../../src/model/index.ts";
import { validateConfiguration, validateSite } from "../../src/rules/index.ts";

const samples = join(import.meta.dirname, "../../samples");
const filesBelow = (folder: string) =>
  readdirSync(join(samples, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".json"))
    .map((name) => join(samples, folder, name));

const profiles = new Map(
  filesBelow("profiles").map((file) => {
    const { document } = readProfile(readFileSync(file), { file });
    return [document.id, document] as const;
  }),
);
const screens = filesBelow("screens").map((file) => readConfiguration(readFileSync(file), { file }).document);

describe("samples", () => {
  it("are valid for their units, screen by screen", () => {
    expect(screens.length).toBeGreaterThanOrEqual(4);
    for (const configuration of screens) {
      const profile = profiles.get(configuration.unit.profileId)!;
      const findings = validateConfiguration(configuration, { profile, today: "2026-11-25" });
      expect(findings.map(({ code, place }) => `${code} ${place.pointer}`)).toEqual([]);
    }
  });

  it("do not disturb each other", () => {
    expect(validateSite(screens)).toEqual([]);
  });

  it("have a later visit with a fault that is found", () => {
    const file = join(samples, "visits/lantern-mill/screen-1-autumn.json");
    const { document } = readConfiguration(readFileSync(file), { file });
    const findings = validateConfiguration(document, { profile: profiles.get(document.unit.profileId)! });
    expect(findings[0]!.code).toBe("crossover/high-pass-below-safe");
  });

  it("name their schema, so that an editor checks them", () => {
    for (const file of [...filesBelow("screens"), ...filesBelow("profiles"), ...filesBelow("rule-book")]) {
      const { document } = inspectDocument(readFileSync(file), { file });
      const schema = (document as { $schema?: string }).$schema ?? "";
      expect(readdirSync(join(file, "..", schema, "..")), file).toContain(schema.split("/").at(-1));
    }
  });
});
