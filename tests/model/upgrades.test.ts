import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readConfiguration, readDocument, UPGRADES } from "../../src/model/index.ts";

const folder = join(import.meta.dirname, "../../samples/old");
const bytes = readFileSync(join(folder, "configuration-0.9.json"));

describe("documents of older versions", () => {
  it("are kept as samples, one for each version that was ever read", () => {
    const kept = UPGRADES.map(({ kind, from }) => `${kind.replace("boothkeep.", "")}-${from}.json`);
    expect(readdirSync(folder)).toEqual(expect.arrayContaining(kept));
    expect(kept.length).toBeGreaterThan(0);
  });

  it("are brought up to the present version, and the original is kept", () => {
    const { document, original, warnings } = readConfiguration(bytes, { file: "old.json" });
    expect(original).toEqual({
      content: bytes,
      value: JSON.parse(bytes.toString("utf8")),
      schemaVersion: "0.9.2",
    });
    expect(document.schemaVersion).toBe("1.0.0");
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toMatchObject({ kind: "upgraded", pointer: "/schemaVersion" });
    expect(warnings[0]!.words).toContain("0.9 to 1.0");
  });

  it("say the same in the words of 1.0", () => {
    const before = JSON.parse(bytes.toString()) as {
      outputs: { id: string; delaySamples: number; inverted: boolean }[];
      presets: { crossings: object[] }[];
    };
    const { document } = readConfiguration(bytes);
    const output = (id: string) => document.outputs.find((item) => item.id === id)!;
    expect(output("left-lf").lowPass).toEqual({ family: "linkwitz-riley", order: 4, frequencyHz: 800 });
    // 0.9 knew the phase normalization only.
    expect(output("sub-1-all").highPass).toEqual({
      family: "bessel",
      order: 4,
      frequencyHz: 24,
      normalization: "phase",
    });
    for (const { id, delaySamples, inverted } of before.outputs) {
      expect(output(id).delayMs).toBeCloseTo(delaySamples / 48, 9);
      expect(output(id).polarity).toBe(inverted ? "inverted" : "normal");
    }
    expect(document.presets.map(({ routing }) => routing.length)).toEqual(
      before.presets.map(({ crossings }) => crossings.length),
    );
    expect(document.presets[0]!.routing[4]).toEqual({
      id: "server-05-to-Lss",
      sourceChannelId: "server-05",
      channelId: "Lss",
      gainDb: -3,
    });
    expect(document.presets[0]!.routing[0]!.gainDb).toBe(0);
    expect(document.operation.emergencyMute).toEqual({
      enabled: true,
      connectorId: "contact-1",
      activeWhen: "open",
      release: "by-hand",
    });
    expect(document.sources.every(({ assignment }) => assignment === "as-labelled")).toBe(true);
  });

  it("leave what they cannot read to the schema, which names the place", () => {
    const broken = bytes.toString().replace('"slopeDbPerOctave": 12', '"slopeDbPerOctave": "steep"');
    expect(() => readDocument(broken, { file: "old.json" })).toThrow(/slopeDbPerOctave/);
    for (const value of ["null", "3", '"x"', "[]", "{}"]) {
      const text = `{"kind":"boothkeep.configuration","schemaVersion":"0.9.0","outputs":${value},"presets":${value},"sources":${value},"operation":${value},"unit":${value}}`;
      expect(() => readDocument(text)).toThrow(/does not fit the schema/);
    }
  });
});
