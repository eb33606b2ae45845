import { isDeepStrictEqual } from "node:util";
import { type Configuration, type Proposal, type ProposedStep, valueAt } from "../../model/index.ts";
import { type Deviation, isInside } from "../standard/index.ts";
import type { Snapshot } from "./since.ts";

/** The entry that recorded the decision by which a deviation stays. */
export type Acceptance = Omit<Snapshot, "read" | "sha256" | "reason">;

/** A standard as it was applied to a screen and confirmed by reading back. */
export interface AppliedStandard extends Acceptance {
  readonly proposal: Proposal;
  /** What was read back; undefined where it cannot be read any more. */
  readonly configuration: () => Configuration | undefined;
}

/**
 * Which deviations stay by a recorded decision: where the standard was applied, somebody was asked, and the place is still
 * as it was left then. Decisions count for the version that they were made for; one made for an earlier version counts on
 * while the versions after it did not touch the place.
 *
 * @param applied in their order
 */
export function acceptanceOf(
  deviation: Deviation,
  applied: readonly AppliedStandard[],
  standard: { readonly id: string; readonly version: string },
): Acceptance | undefined {
  const own = applied.filter(({ proposal }) => proposal.standard.id === standard.id);
  if (own.at(-1)?.proposal.standard.version !== standard.version) return undefined;
  for (const { proposal, configuration, ...entry } of own.toReversed()) {
    const said = saidOf(deviation, proposal);
    if (said === "nothing" || !isAsLeft(deviation, configuration())) return undefined;
    if (said === "decided") return entry;
  }
  return undefined;
}

/** What a proposal says of a place: that it was decided, that the screen simply kept it, or nothing of the kind. */
function saidOf(
  { path }: Deviation,
  { steps, fitting, questions }: Proposal,
): "decided" | "kept" | "nothing" {
  const place = path.join("/");
  const step = steps.find((each) => each.place === place);
  if (step !== undefined && DECIDED.has(step.outcome)) return "decided";
  if (step?.outcome === "kept") return "kept";
  const isOn = (other: string) => {
    const parts = other.split("/");
    return isInside(path, parts) || isInside(parts, path);
  };
  const isFitted = fitting.some(
    (item) => (item.outcome === "left-out" || item.outcome === "moved") && isOn(item.place),
  );
  const isAnswered = questions.some(({ place: asked, chosen }) => {
    const [, list, key] = asked.split("/");
    return chosen !== null && list === path[0] && key === path[1];
  });
  return isFitted || isAnswered ? "decided" : "nothing";
}

const DECIDED: ReadonlySet<ProposedStep["outcome"]> = new Set(["kept-by-decision", "nearest"]);

function isAsLeft(deviation: Deviation, left: Configuration | undefined): boolean {
  if (left === undefined) return false;
  const value = valueAt(left, deviation.path);
  if (deviation.kind === "value") return isDeepStrictEqual(value, deviation.actual);
  return (value !== undefined) === (deviation.kind === "extra-item");
}
