import { describe, expect, it } from "vitest";
import type { Configuration, Connector, NumberGrid, UnitProfile } from "../../src/model/index.ts";
import { labelFits, labelLimits, limitedNumbers } from "../../src/profile/index.ts";
import { CONFIGURATIONS, PROFILES, profileOf } from "./all-samples.ts";

/** By division, not by the grid arithmetic that made the samples. */
function liesOn(grid: NumberGrid, value: number): boolean {
  const near = (position: number) => Math.abs(position - Math.round(position)) < 1e-6;
  switch (grid.kind) {
    case "list":
      return grid.values.includes(value);
    case "step":
      return value >= grid.min && value <= grid.max + 1e-9 && near((value - grid.min) / grid.step);
    case "log":
      return (
        value >= grid.min * (1 - 1e-9) &&
        value <= grid.max * (1 + 1e-9) &&
        near(Math.log2(value / grid.referenceHz) * grid.perOctave)
      );
  }
}

/** Every name that the unit shows. */
function shownLabels(configuration: Configuration): string[] {
  const { unit, sources, equalizations, presets, outputs, automation } = configuration;
  return [unit, ...sources, ...equalizations, ...presets, ...outputs, ...automation].map(
    ({ label }) => label,
  );
}

const KINDS_OF_SOURCE: Readonly<Record<string, string>> = {
  aes3: "aes3",
  aes67: "aes67",
  spdif: "spdif",
  "analog-multichannel": "analog",
  "analog-stereo": "analog",
  microphone: "microphone",
};

function connectorOf(profile: UnitProfile, id: string): Connector | undefined {
  return profile.connectors.find((connector) => connector.id === id);
}

describe.each(CONFIGURATIONS)("%s on its unit", (_, configuration) => {
  const profile = profileOf(configuration);

  it("has every number on a step and inside its range", () => {
    const numbers = limitedNumbers(configuration, profile);
    expect(numbers.length).toBeGreaterThan(400);
    const off = numbers.filter(({ grid, value }) => !liesOn(grid, value));
    expect(off.map(({ path, value }) => `${path.join("/")}: ${value}`)).toEqual([]);
  });

  it("has delays in whole units of the delay grid", () => {
    const unitsPerMs = { "skarn-30": 100, "whimbrel-32": 96, "dunlin-16": 10 }[configuration.unit.profileId]!;
    const delays = [...configuration.channels, ...configuration.presets, ...configuration.outputs].map(
      ({ delayMs }) => delayMs * unitsPerMs,
    );
    expect(delays.filter((delay) => Math.abs(delay - Math.round(delay)) > 1e-6)).toEqual([]);
  });

  it("shows names that fit", () => {
    const limits = labelLimits(profile.labels);
    const wrong = shownLabels(configuration).filter((label) => !labelFits(label, limits));
    expect(wrong).toEqual([]);
  });

  it("uses input connectors that exist, of the right kind, once", () => {
    const used = configuration.sources.flatMap((source) =>
      source.channels.map(({ connectorId }) => {
        const connector = connectorOf(profile, connectorId);
        expect([connectorId, connector?.direction, connector?.kind]).toEqual([
          connectorId,
          "input",
          KINDS_OF_SOURCE[source.kind],
        ]);
        return connectorId;
      }),
    );
    expect(new Set(used).size).toBe(used.length);
  });

  it("uses every output connector once", () => {
    const used = configuration.outputs.map(({ connectorId }) => connectorId);
    const offered = profile.connectors.filter(({ direction }) => direction === "output").map(({ id }) => id);
    expect([...used].sort()).toEqual([...offered].sort());
  });

  it("uses control contacts for one purpose each", () => {
    const contacts = configuration.automation.flatMap(({ trigger }) =>
      trigger.kind === "contact" ? [trigger.connectorId] : [],
    );
    const all = [...contacts, configuration.operation.emergencyMute!.connectorId];
    expect(new Set(all).size).toBe(all.length);
    expect(all.filter((id) => connectorOf(profile, id)?.kind !== "contact")).toEqual([]);
  });

  it("triggers each action by a text or contact of its own", () => {
    const triggers = configuration.automation.map(({ trigger }) => JSON.stringify(trigger));
    expect(new Set(triggers).size).toBe(triggers.length);
    const texts = configuration.automation.flatMap(({ trigger }) =>
      "text" in trigger ? [trigger.text] : [],
    );
    expect(texts.filter((text) => text.length > profile.automation.textMax)).toEqual([]);
  });

  it("fits the unit's counts and abilities", () => {
    expect(configuration.presets.length).toBeLessThanOrEqual(profile.presets.max);
    expect(configuration.equalizations.length).toBeLessThanOrEqual(profile.equalizations.max);
    expect(configuration.sources.length).toBeLessThanOrEqual(profile.sources.max);
    expect(configuration.automation.length).toBeLessThanOrEqual(profile.automation.max);
    expect(profile.sampleRatesHz).toContain(configuration.unit.sampleRateHz);
    for (const { label } of configuration.channels) expect(profile.channels.labels).toContain(label);
    for (const { trigger, action } of configuration.automation) {
      expect(profile.automation.triggers).toContain(trigger.kind);
      expect(profile.automation.actions).toContain(action.kind);
    }
  });

  it("uses filters that the unit has", () => {
    for (const { channels } of configuration.equalizations) {
      for (const { graphic, parametric = [] } of channels) {
        expect(graphic?.layout).toBe(profile.equalizations.graphic?.layout);
        expect(parametric.length).toBeLessThanOrEqual(profile.equalizations.parametric?.bands ?? 0);
        for (const { kind } of parametric) expect(profile.equalizations.parametric?.kinds).toContain(kind);
      }
    }
    for (const output of configuration.outputs) {
      for (const side of ["highPass", "lowPass"] as const) {
        const filter = output[side];
        if (filter === undefined) continue;
        const family = profile.outputs[side].families.find((item) => item.family === filter.family);
        expect(family?.orders).toContain(filter.order);
      }
    }
  });
});

describe("unit profiles", () => {
  it.each(PROFILES)("%s names each connector once, in rack order", (_, { connectors }) => {
    expect(new Set(connectors.map(({ id }) => id)).size).toBe(connectors.length);
    const places = connectors.map(({ group, position }) => `${group} ${position}`);
    expect(new Set(places).size).toBe(places.length);
    const racks = new Map(connectors.map(({ group, rack }) => [group, rack]));
    expect(new Set(racks.values()).size).toBe(racks.size);
  });

  it("differ in what they can do", () => {
    const abilities = PROFILES.map(([, profile]) => ({
      outputs: profile.connectors.filter(({ direction }) => direction === "output").length,
      presets: profile.presets.max,
      label: profile.labels.maxLength,
    }));
    for (const ability of ["outputs", "presets", "label"] as const) {
      expect(new Set(abilities.map((item) => item[ability])).size).toBe(PROFILES.length);
    }
  });
});
