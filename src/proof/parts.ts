import type {
  PathGroup,
  PathVerdict,
  ProofPart,
  ProofParts,
  SettingProof,
  SumProof,
} from "../model/index.ts";

/** What the parts are made from. */
export interface Proved {
  readonly groups: readonly PathGroup[];
  readonly sums: readonly SumProof[];
  /** Settings that differ. */
  readonly settings: readonly SettingProof[];
  readonly settingsCompared: number;
}

const PART_OF: Readonly<Record<PathVerdict | SettingProof["verdict"], keyof ProofParts>> = {
  equal: "same",
  "within-tolerance": "same",
  "changed-by-decision": "changedByDecision",
  "left-out": "leftOut",
  audible: "undecided",
  missing: "undecided",
  new: "undecided",
  changed: "undecided",
  weaker: "undecided",
  lost: "undecided",
};

/** Sorts what was compared into parts. Each path, sum and setting is in exactly one. */
export function proofParts({ groups, sums, settings, settingsCompared }: Proved): ProofParts {
  const part = (name: keyof ProofParts): ProofPart => {
    const isIn = ({ verdict }: { readonly verdict: PathVerdict | SettingProof["verdict"] }) =>
      PART_OF[verdict] === name;
    const own = groups.filter(isIn);
    const ownSums = sums.filter(isIn);
    const deviations = own.flatMap(({ deviation }) => deviation ?? []);
    const equalSettings = name === "same" ? settingsCompared - settings.length : 0;
    return {
      paths: own.reduce((sum, { pathCount }) => sum + pathCount, 0),
      sums: ownSums.length,
      settings: settings.filter(isIn).length + equalSettings,
      largestDb: largest([
        ...deviations.flatMap(({ responseDb, lowEdgeDb }) => [responseDb, lowEdgeDb]),
        ...ownSums.flatMap(({ changeDb }) => changeDb ?? []),
      ]),
      largestPhaseDeg: largest(deviations.map(({ phaseDeg }) => phaseDeg)),
      largestDelayMs: largest(deviations.map(({ delayMs }) => delayMs)),
    };
  };
  return {
    same: part("same"),
    changedByDecision: part("changedByDecision"),
    leftOut: part("leftOut"),
    undecided: part("undecided"),
  };
}

function largest(values: readonly number[]): number {
  return values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
}
