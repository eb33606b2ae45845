import { pointerTo } from "../../../model/index.ts";
import { outputName } from "../../../words/index.ts";
import type { Change } from "../../changes/index.ts";
import type { Draft } from "../draft.ts";
import type { Explainer } from "../explainer.ts";
import { outputIn, type Scene, subjectAt } from "../scene.ts";
import { at, within } from "../select.ts";

/**
 * What leaves the unit by another connector of the same model. Two outputs that exchanged everything are one finding:
 * either the cables moved too, or each way now plays what the other one should.
 */
export const explainOutputMove: Explainer = (scene, open) => {
  if (scene.otherModel) return { drafts: [] };
  const moved = at(open, "outputs[].connectorId").filter((change) => change.kind === "changed");
  const exchanges = moved.flatMap((change, index) => {
    const other = moved
      .slice(index + 1)
      .find((one) => one.before === change.after && one.after === change.before);
    return other === undefined ? [] : [[change, other] as const];
  });
  const paired = new Set(exchanges.flat());
  return {
    drafts: [
      ...exchanges.map(([a, b]) => exchangeDraft(scene, open, a, b)),
      ...moved.filter((change) => !paired.has(change)).map((change) => moveDraft(scene, open, change)),
    ],
  };
};

/** The name of an output goes with its connector: a new one after a move is part of the same finding. */
function withLabels(open: readonly Change[], moves: readonly Change[]): readonly Change[] {
  const ids = new Set(moves.map(({ path }) => path[1]));
  return [
    ...moves,
    ...at(within(open, "outputs[]"), "outputs[].label").filter(({ path }) => ids.has(path[1])),
  ];
}

function exchangeDraft(scene: Scene, open: readonly Change[], a: Change, b: Change): Draft {
  const names = [a, b].map((change) => nameOf(scene, change));
  const [from, to] = a.kind === "changed" ? [String(a.before), String(a.after)] : ["", ""];
  return {
    code: "output/exchanged",
    kind: "protection",
    severity: "error",
    subject: { words: names.join(" and "), pointer: pointerTo(scene.after, a.path.slice(0, 2)) },
    words: `The two outputs exchanged everything: ${names[0]} now leaves by ${to}, ${names[1]} by ${from}.`,
    before: `${from}; ${to}`,
    after: `${to}; ${from}`,
    effects: [{ kind: "protection", guard: "other", guards: "driver" }],
    remedy:
      "Unless the two cables were exchanged too, each driver gets what the other should: keep the amplifiers muted and check.",
    causes: withLabels(open, [a, b]),
  };
}

function moveDraft(scene: Scene, open: readonly Change[], change: Change & { kind: "changed" }): Draft {
  return {
    code: "output/moved",
    kind: "routing",
    severity: "warning",
    subject: subjectAt(scene, change.path.slice(0, 2)),
    words: `Leaves by connector ${change.after} instead of ${change.before}.`,
    before: String(change.before),
    after: String(change.after),
    remedy: "Make sure that the cable moved too, amplifiers muted.",
    causes: withLabels(open, [change]),
  };
}

function nameOf(scene: Scene, { path }: Change): string {
  const output = outputIn(scene, path[1]!).after;
  return output === undefined ? path[1]! : outputName(scene.after, output);
}
