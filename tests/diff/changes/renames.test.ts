import { describe, expect, it } from "vitest";
import { applyChanges, changesBetween, revertChanges } from "../../../src/diff/changes/index.ts";
import type { Configuration } from "../../../src/model/index.ts";
import { asLeft } from "./samples.ts";

/** A configuration in which a text stands for another wherever it is a whole string. */
function replaced(document: Configuration, names: Readonly<Record<string, string>>): Configuration {
  return JSON.parse(JSON.stringify(document), (_name, value) =>
    typeof value === "string" && Object.hasOwn(names, value) ? names[value] : value,
  ) as Configuration;
}

type Draft = { -readonly [K in keyof Configuration]: Configuration[K] };

function withOutputs(change: (outputs: Record<string, unknown>[]) => void): Configuration {
  const draft = structuredClone(asLeft) as Draft;
  change(draft.outputs as unknown as Record<string, unknown>[]);
  return draft;
}

describe("renames", () => {
  it("knows a preset with another key, with every reference to it", () => {
    const id = asLeft.presets[3]!.id;
    const after = replaced(asLeft, { [id]: "brand-new" });
    expect(changesBetween(asLeft, after)).toMatchObject({
      renames: [{ path: ["presets"], before: id, after: "brand-new", because: "same-content" }],
      changes: [],
    });
  });

  it("knows an EQ set with another key though presets and the calibration refer to it", () => {
    const id = asLeft.equalizations[0]!.id;
    const set = changesBetween(asLeft, replaced(asLeft, { [id]: "renamed-set" }));
    expect(set.renames.map(({ before }) => before)).toEqual([id]);
    expect(set.changes).toEqual([]);
  });

  it("knows a loudspeaker and its ways with other keys", () => {
    const { id, ways } = asLeft.loudspeakers[0]!;
    const after = structuredClone(asLeft) as unknown as {
      loudspeakers: { id: string; ways: { id: string }[] }[];
      outputs: { feeds: { loudspeakerId?: string; wayId?: string } }[];
    };
    after.loudspeakers[0]!.id = "speaker-a";
    for (const way of after.loudspeakers[0]!.ways) way.id = `band-${way.id}`;
    for (const { feeds } of after.outputs) {
      if (feeds.loudspeakerId !== id) continue;
      feeds.loudspeakerId = "speaker-a";
      feeds.wayId = `band-${feeds.wayId}`;
    }
    const set = changesBetween(asLeft, after as unknown as Configuration);
    expect(set.changes).toEqual([]);
    expect(set.renames.map(({ field }) => field)).toEqual([
      "loudspeakers",
      ...ways.map(() => "loudspeakers[].ways"),
    ]);
    expect(applyChanges(asLeft, set)).toEqual(after);
    expect(revertChanges(after as unknown as Configuration, set)).toEqual(asLeft);
  });

  it("says a reference that did not follow", () => {
    const id = asLeft.presets[0]!.id;
    const after = replaced(asLeft, { [id]: "brand-new" }) as Draft;
    after.operation = { ...after.operation, startPresetId: id };
    const { changes } = changesBetween(
      { ...asLeft, operation: { ...asLeft.operation, startPresetId: id } },
      after,
    );
    expect(changes.map(({ path }) => path)).toEqual([["operation", "startPresetId"]]);
  });

  it("takes an item that also changed for another item", () => {
    const id = asLeft.presets[3]!.id;
    const after = replaced(asLeft, { [id]: "brand-new", [asLeft.presets[3]!.label]: "Other" });
    const { renames, changes } = changesBetween(asLeft, after);
    expect(renames).toEqual([]);
    expect(
      changes
        .filter(({ field }) => field === "presets[]")
        .map(({ kind }) => kind)
        .sort(),
    ).toEqual(["added", "removed"]);
  });

  it("follows a way that moved to another output: only connectors differ", () => {
    const after = withOutputs((outputs) => {
      const [a, b] = [outputs[0]!, outputs[3]!];
      outputs[0] = { ...b, id: a.id, connectorId: a.connectorId };
      outputs[3] = { ...a, id: b.id, connectorId: b.connectorId };
    });
    const { renames, changes } = changesBetween(asLeft, after);
    expect(renames.map(({ because }) => because)).toEqual(["same-feed", "same-feed"]);
    expect(changes.map(({ field }) => field)).toEqual(["outputs[].connectorId", "outputs[].connectorId"]);
    expect(applyChanges(asLeft, changesBetween(asLeft, after))).toEqual(after);
  });

  it("makes room for a way that moved to a spare output", () => {
    const spare = { ...asLeft.outputs.at(-1)!, id: "spare-x", feeds: { kind: "spare" as const }, mix: [] };
    const before = { ...asLeft, outputs: [...asLeft.outputs, spare] } as Configuration;
    const fed = before.outputs[0]!;
    const outputs = before.outputs.map((output) => {
      if (output.id === fed.id) return { ...spare, id: fed.id, connectorId: fed.connectorId };
      return output.id === spare.id ? { ...fed, id: spare.id, connectorId: spare.connectorId } : output;
    });
    const after = { ...before, outputs } as Configuration;
    const set = changesBetween(before, after);
    expect(set.renames.map(({ because }) => because)).toEqual(["same-feed", "made-room"]);
    expect(set.changes.map(({ field }) => field)).toEqual(["outputs[].connectorId", "outputs[].connectorId"]);
    expect(applyChanges(before, set)).toEqual(after);
    expect(revertChanges(after, set)).toEqual(before);
  });
});
