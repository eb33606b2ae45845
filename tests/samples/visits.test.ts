import { describe, expect, it } from "vitest";
import { type Edit, edited } from "../../samples/generate/builders/edit.ts";
import { AUTUMN_EDITS } from "../../samples/generate/visits/lantern-mill-1-autumn.ts";
import { CONFIGURATIONS } from "./all-samples.ts";

function sample(name: string): unknown {
  return CONFIGURATIONS.find(([file]) => file === name)![1];
}

/** Every leaf by its path. */
function leaves(node: unknown, path = ""): [string, unknown][] {
  if (typeof node !== "object" || node === null) return [[path, node]];
  return Object.entries(node).flatMap(([key, child]) => leaves(child, `${path}/${key}`));
}

describe("the autumn visit to Lantern Mill 1", () => {
  const before = new Map(leaves(sample("screens/lantern-mill/screen-1.json")));
  const after = new Map(leaves(sample("visits/lantern-mill/screen-1-autumn.json")));
  const changes = [...after].filter(([path, value]) => before.get(path) !== value);

  it("differs in the named edits and nothing else", () => {
    expect([...after.keys()]).toEqual([...before.keys()]);
    expect(changes.map(([path, value]) => [before.get(path), value]).sort()).toEqual(
      AUTUMN_EDITS.map(({ from, to }) => [from, to]).sort(),
    );
  });

  it("lowers one high-pass below what its driver stands", () => {
    const lowered = changes.filter(([path]) => path.includes("/highPass/"));
    expect(lowered.map(([, value]) => value)).toEqual([1000]);
    const safe = [...before].find(([path]) => path.endsWith("/loudspeakers/0/ways/2/safeHighPassHz"))!;
    expect(safe[1]).toBe(1250);
  });
});

describe("an edit", () => {
  const edit: Edit = { what: "Level raised", at: ["channels", "L", "levelDb"], from: 0, to: 1 };

  it("finds items by their key and leaves the original alone", () => {
    const document = { channels: [{ id: "C" }, { id: "L", levelDb: 0 }] };
    expect(edited(document, [edit])).toEqual({ channels: [{ id: "C" }, { id: "L", levelDb: 1 }] });
    expect(document.channels[1]!.levelDb).toBe(0);
  });

  it("refuses a document that holds something else there", () => {
    expect(() => edited({ channels: [{ id: "L", levelDb: 2 }] }, [edit])).toThrow("Level raised");
    expect(() => edited({ channels: [] }, [edit])).toThrow("Level raised");
  });
});
