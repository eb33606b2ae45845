import { describe, expect, it } from "vitest";
import { FIELDS, fieldAt, fieldsUnder, LIST_KEYS } from "../../src/model/index.ts";
import { schemaParts } from "../diff/changes/schema-leaves.ts";

const { leaves, lists, resolve } = schemaParts();

/** Endings of a member's name and the unit they promise. */
const UNIT_OF_ENDING: readonly (readonly [RegExp, string])[] = [
  [/Dbfs$/, "dBFS"],
  [/DbC$/, "dB SPL"],
  [/sensitivityDb$/, "dB SPL"],
  [/Db(\[\])?$/, "dB"],
  [/Hz$/, "Hz"],
  [/Ms$/, "ms"],
  [/[a-z]W$/, "W"],
  [/Ohm$/, "Ω"],
  [/M$/, "m"],
  [/eC$/, "°C"],
  [/Mark$/, "mark"],
  [/seats$/, "seats"],
  [/prefixLength$/, "bits"],
];

describe("fields", () => {
  it("reads the whole schema", () => {
    expect(leaves.size).toBeGreaterThan(140);
    expect(lists.size).toBeGreaterThan(15);
  });

  it("has exactly one line for every leaf of the schema, and none for anything else", () => {
    expect(FIELDS.map(({ path }) => path).sort()).toEqual([...leaves.keys()].sort());
  });

  it("has exactly one key for every list of the schema, and none for anything else", () => {
    expect(Object.keys(LIST_KEYS).sort()).toEqual([...lists.keys()].sort());
  });

  it("keys a list only by a member that every item must have", () => {
    for (const [path, key] of Object.entries(LIST_KEYS)) {
      const items = resolve(lists.get(path)!.items!);
      for (const branch of items.oneOf ?? [items]) {
        const item = resolve(branch);
        if (key === "index" || key === "whole") expect(item.properties, path).toBeUndefined();
        else expect(item.required, path).toContain(key);
      }
    }
  });

  it("gives the unit that the name promises", () => {
    for (const { path, unit } of FIELDS) {
      const promised = UNIT_OF_ENDING.find(([ending]) => ending.test(path))?.[1] ?? "";
      expect(unit, path).toBe(promised);
    }
  });

  it("refers only to lists with keys, and says so for every member named after one", () => {
    for (const { path, refersTo } of FIELDS) {
      if (refersTo !== undefined) expect(["id", "channelId"], path).toContain(LIST_KEYS[refersTo]);
      const reference =
        /(source|preset|loudspeaker|way|channel|equalization|output|interface|sourceChannel)Id$/;
      if (reference.test(path)) expect(refersTo, path).toBeDefined();
    }
  });

  it("lists a list after those that it refers to", () => {
    const order = Object.keys(LIST_KEYS);
    for (const { path, refersTo } of FIELDS) {
      const list = order.filter((name) => path.startsWith(`${name}[]`)).at(-1);
      if (refersTo !== undefined && list !== undefined)
        expect(order.indexOf(refersTo), path).toBeLessThan(order.indexOf(list));
    }
  });

  it("finds one leaf, and all below a place", () => {
    expect(fieldAt("outputs[].gainDb")?.unit).toBe("dB");
    expect(fieldAt("outputs[].limiter")).toBeUndefined();
    expect(fieldsUnder("outputs[].limiter").map(({ path }) => path)).toEqual([
      "outputs[].limiter.enabled",
      "outputs[].limiter.thresholdDbfs",
      "outputs[].limiter.attackMs",
      "outputs[].limiter.releaseMs",
    ]);
    expect(fieldsUnder("channels[]").every(({ path }) => path.startsWith("channels[]."))).toBe(true);
    expect(fieldsUnder("")).toHaveLength(FIELDS.length);
  });
});
