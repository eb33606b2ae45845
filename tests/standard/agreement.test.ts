import { describe, expect, it } from "vitest";
import type { StandardLine } from "../../src/model/index.ts";
import { compiledOf } from "./support.ts";

const presets = (hold: "these-only" | "at-least", ...items: readonly object[]): StandardLine => ({
  place: "presets",
  hold,
  items: items as never,
});

describe("a standard that no screen could follow", () => {
  it("has two presets in one slot", () => {
    const line = presets("at-least", { id: "a", slot: 1 }, { id: "b", slot: 1 });
    expect(() => compiledOf([line])).toThrow("Slot 1 is for 'a' and for 'b'.");
  });

  it("is none where a later line says otherwise of one of them", () => {
    const line = presets("at-least", { id: "a", slot: 1 }, { id: "b", slot: 1 });
    expect(() => compiledOf([line, { place: "presets/b/slot", hold: "exactly", value: 2 }])).not.toThrow();
    expect(() => compiledOf([line, { place: "presets/b/slot", hold: "left-to-screen" }])).not.toThrow();
  });

  it("names what its own list forbids, and may name what only a list of more does not hold", () => {
    const start: StandardLine = { place: "operation/startPresetId", hold: "exactly", value: "b" };
    expect(() => compiledOf([presets("these-only", { id: "a" }), start])).toThrow("names 'b'");
    expect(() => compiledOf([presets("at-least", { id: "a" }), start])).not.toThrow();
    expect(() => compiledOf([presets("these-only", { id: "a" }, { id: "b" }), start])).not.toThrow();
  });

  it("may want nothing where something could be named", () => {
    const none: StandardLine = { place: "operation/startPresetId", hold: "exactly", value: null };
    expect(() => compiledOf([presets("these-only", { id: "a" }), none])).not.toThrow();
  });
});
