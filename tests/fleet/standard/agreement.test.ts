import { describe, expect, it } from "vitest";
import type { StandardLine } from "../../../src/model/index.ts";
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

  const cues = (...items: readonly object[]): StandardLine => ({
    place: "automation",
    hold: "at-least",
    items: items as never,
  });
  const waiting = (id: string, trigger: object) => ({ id, label: id, trigger, action: { kind: "mute" } });
  const go = { kind: "network", interfaceId: "lan", text: "GO" };

  it("has two automation items that wait for the same trigger", () => {
    const closing = { kind: "contact", connectorId: "gpi-1", edge: "closing" };
    expect(() => compiledOf([cues(waiting("a", closing), waiting("b", closing))])).toThrow(
      "'a' and 'b' wait for the same trigger: 'gpi-1' closing.",
    );
    expect(() => compiledOf([cues(waiting("a", go), waiting("b", go))])).toThrow(
      expect.objectContaining({
        code: "standard.bad-line",
        place: { pointer: "/lines/0" },
        next: expect.stringContaining("Give one of them another trigger"),
      }),
    );
    expect(() =>
      compiledOf([cues(waiting("a", closing), waiting("b", { ...closing, edge: "opening" }))]),
    ).not.toThrow();
  });

  it("counts what later lines say of a trigger, and what they leave to the screen", () => {
    const twice = cues(waiting("a", go), waiting("b", go));
    const text = "automation/b/trigger/text";
    expect(() => compiledOf([twice, { place: text, hold: "exactly", value: "STOP" }])).not.toThrow();
    expect(() => compiledOf([twice, { place: text, hold: "left-to-screen" }])).not.toThrow();
    const apart = cues(waiting("a", go), waiting("b", { ...go, text: "STOP" }));
    expect(() => compiledOf([apart, { place: text, hold: "exactly", value: "GO" }])).toThrow("same trigger");
  });
});
