import type { Configuration, FieldMap, MapRule } from "../../../src/model/index.ts";
import { sampleJson } from "./sample-maps.ts";

/** A screen from which small maps take all that their exports do not hold. */
export const base = sampleJson<Configuration>("screens/lantern-mill/screen-4.json");

export function smallMap(
  source: FieldMap["source"],
  rules: readonly MapRule[],
  more: Partial<FieldMap> = {},
): FieldMap {
  return {
    kind: "boothkeep.field-map",
    schemaVersion: "1.0.0",
    id: "small",
    revision: "1.0.0",
    label: "Small",
    source,
    rules,
    ...more,
  };
}

/** Slots for filters, all always there: "off" where none is used. */
export const SLOTS: readonly MapRule[] = [
  {
    kind: "list",
    list: "outputs",
    each: "$.outs[*]",
    rules: [
      { kind: "value", field: "id", at: "/id" },
      { kind: "value", field: "gainDb", at: "/gain", as: { kind: "level", unit: "tenth-dB", decimals: 0 } },
      {
        kind: "list",
        list: "filters",
        each: "$.slots[*]",
        unused: { at: "/type", values: ["off"] },
        rules: [
          { kind: "value", field: "id", segment: 0, as: { kind: "template", text: "b{}", offset: 1 } },
          { kind: "value", field: "kind", at: "/type" },
          { kind: "value", field: "frequencyHz", at: "/hz" },
          { kind: "value", field: "gainDb", at: "/db" },
          { kind: "value", field: "q", at: "/q" },
        ],
      },
    ],
  },
];
