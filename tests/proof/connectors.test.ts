import { describe, expect, it } from "vitest";
import type { ConnectorProof, Output } from "../../src/model/index.ts";
import type { GivenUp } from "../../src/proof/index.ts";
import { changed, type Draft, item, large, proveSamples, readSample, small } from "./samples.ts";

const used = (outputs: readonly Output[]) => outputs.filter(({ feeds }) => feeds.kind !== "spare");
const cable = (
  direction: ConnectorProof["direction"],
  fromConnectorId: string,
  toConnectorId: string | null,
): GivenUp => ({ kind: "cable", direction, fromConnectorId, toConnectorId });

/** Every cable of a screen where it is. */
function cablesInPlace(): readonly GivenUp[] {
  return proveSamples(large, large).connectors.map(({ direction, connectorId }) =>
    cable(direction, connectorId, connectorId),
  );
}

/** Two outputs on each other's connectors. */
const exchanged = changed(large, (draft) => {
  const [a, b] = ["left-lf", "right-hf"].map((id) => item(draft.outputs, id));
  [a!.connectorId, b!.connectorId] = [b!.connectorId, a!.connectorId];
});
const [LF, HF] = ["left-lf", "right-hf"].map((id) => item(large.outputs, id).connectorId);

describe("connectors", () => {
  it("are listed with what is at the far end of their cables, in the screen's words", () => {
    const { connectors } = proveSamples(large, large);
    const at = (id: string) => connectors.find(({ connectorId }) => connectorId === id)!;
    expect(connectors.filter(({ direction }) => direction === "output")).toHaveLength(
      used(large.outputs).length,
    );
    expect(at(LF!)).toMatchObject({ verdict: "equal", after: [{ label: "Screen left, lf way" }] });
    expect(at("aes-in-01").before[0]!.label).toMatch(/, position 1$/);
    expect(at("alarm-01").before).toEqual([{ id: "emergency-mute", label: "Emergency mute" }]);
    expect(new Set(connectors.map(({ verdict }) => verdict))).toEqual(new Set(["equal"]));
  });

  it("say before and after of two that are exchanged, and that is no proof of anything", () => {
    const proof = proveSamples(large, exchanged);
    expect(proof.verdict).toBe("differs");
    expect(proof.counts.equal).toBe(proof.counts.paths);
    const told = proof.connectors.filter(({ verdict }) => verdict === "changed");
    expect(told.map(({ before, after }) => [before[0]!.label, after[0]!.label]).sort()).toEqual([
      ["Screen left, lf way", "Screen right, hf way"],
      ["Screen right, hf way", "Screen left, lf way"],
    ]);
  });

  it("are as the cables go where the cables are said to go along, and only then", () => {
    const others = cablesInPlace().filter(
      (move) =>
        move.kind === "cable" && (move.direction !== "output" || ![LF, HF].includes(move.fromConnectorId)),
    );
    const along = [...others, cable("output", LF!, HF!), cable("output", HF!, LF!)];
    const proof = proveSamples(large, exchanged, { givenUp: along });
    expect(proof.verdict).toBe("equal");
    expect(proof.connectors.filter(({ verdict }) => verdict === "as-cabled")).toHaveLength(2);
    // The same cables, and nobody set the unit accordingly.
    expect(proveSamples(large, large, { givenUp: along }).verdict).toBe("differs");
    // A cable that nobody brought.
    const unplugged = [...others, cable("output", LF!, HF!), cable("output", HF!, null)];
    expect(proveSamples(large, exchanged, { givenUp: unplugged }).verdict).toBe("differs");
  });

  it("are all others: equal, wherever the outputs went, if every cable went along", () => {
    const elsewhere = changed(large, (draft) => {
      for (const output of draft.outputs) output.connectorId = `other-${output.connectorId}`;
    });
    const givenUp = cablesInPlace().map((move) =>
      move.kind === "cable" && move.direction === "output"
        ? { ...move, toConnectorId: `other-${move.fromConnectorId}` }
        : move,
    );
    expect(proveSamples(large, elsewhere, { givenUp }).verdict).toBe("equal");
    expect(proveSamples(large, elsewhere).verdict).toBe("differs");
  });

  it("are not judged on another model as long as nobody says where the cables go", () => {
    const proof = proveSamples(small, readSample("screens", "copper-heron", "screen-2.json"));
    expect(new Set(proof.connectors.map(({ verdict }) => verdict))).toEqual(new Set(["unknown"]));
  });

  it("carry nothing where an output is spare", () => {
    const spare = large.outputs.find(({ feeds }) => feeds.kind === "spare")!;
    const moved = changed(large, (draft: Draft<typeof large>) => {
      item(draft.outputs, spare.id).connectorId = "anywhere";
    });
    expect(proveSamples(large, moved).verdict).toBe("equal");
  });
});
