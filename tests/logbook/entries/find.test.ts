import { describe, expect, it } from "vitest";
import {
  createLogbook,
  type FindQuery,
  findEntries,
  memoryStore,
  record,
} from "../../../src/logbook/entries/index.ts";
import { circumstances, configuration, NEW_LOGBOOK } from "./support/documents.ts";

const logbook = createLogbook(memoryStore(), NEW_LOGBOOK);
const crossover = (frequencyHz: number) => [
  { id: "left-hf", gainDb: 0, highPass: { family: "butterworth", frequencyHz } },
  { id: "left-lf", gainDb: -1, lowPass: { family: "butterworth", frequencyHz } },
];
const ids = [800, 900, 900].map(
  (frequencyHz, index) =>
    record(logbook, {
      configuration: configuration({ outputs: crossover(frequencyHz) }, { screenId: `screen-${index}` }),
      ...circumstances(index),
    }).id,
);

const hits = (place: FindQuery["place"], value: FindQuery["value"], filter: FindQuery["filter"] = {}) =>
  findEntries(logbook, { place, value, filter }).hits.map((hit) => [
    ids.indexOf(hit.item.id),
    ...hit.places.map((found) => found.pointer),
  ]);

describe("find", () => {
  it.each([
    [
      { kind: "pointer", pointer: "/outputs/0/highPass/frequencyHz" },
      [
        [1, "/outputs/0/highPass/frequencyHz"],
        [2, "/outputs/0/highPass/frequencyHz"],
      ],
    ],
    [
      { kind: "pointer", pointer: "/outputs/left-hf/highPass/frequencyHz" },
      [
        [1, "/outputs/0/highPass/frequencyHz"],
        [2, "/outputs/0/highPass/frequencyHz"],
      ],
    ],
    [
      { kind: "field", field: "highPass.frequencyHz" },
      [
        [1, "/outputs/0/highPass/frequencyHz"],
        [2, "/outputs/0/highPass/frequencyHz"],
      ],
    ],
    [
      { kind: "field", field: "frequencyHz" },
      [1, 2].map((n) => [n, "/outputs/0/highPass/frequencyHz", "/outputs/1/lowPass/frequencyHz"]),
    ],
    [{ kind: "pointer", pointer: "/outputs/left-hf" }, []],
    [{ kind: "field", field: "Hz" }, []],
  ] as const)("finds entries by %o", (place, expected) => {
    expect(hits(place, { kind: "equal", value: 900 })).toEqual(expected);
  });

  it("finds ranges, any value, texts, and keeps to a filter", () => {
    const place = { kind: "field", field: "highPass.frequencyHz" } as const;
    expect(hits(place, { kind: "range", max: 850 })).toEqual([[0, "/outputs/0/highPass/frequencyHz"]]);
    expect(hits(place, { kind: "any" })).toHaveLength(3);
    expect(hits({ kind: "field", field: "serial" }, { kind: "equal", value: "T16-00417" })).toHaveLength(3);
    expect(hits(place, { kind: "equal", value: 900 }, { screenId: "screen-2" })).toHaveLength(1);
    expect(hits(place, { kind: "equal", value: "900" })).toEqual([]);
  });

  it("says how many entries it searched", () => {
    const query = { place: { kind: "field", field: "nothing" }, value: { kind: "any" } } as const;
    expect(findEntries(logbook, query)).toMatchObject({ hits: [], searched: 3, findings: [] });
  });
});
