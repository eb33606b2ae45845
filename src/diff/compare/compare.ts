import type { UnitAcoustics } from "../../acoustics/index.ts";
import type {
  ComparedDocument,
  Comparison,
  ComparisonTolerances,
  Configuration,
  RawChange,
} from "../../model/index.ts";
import { type Change, type ChangeSet, changesBetween } from "../changes/index.ts";
import type { Draft } from "./draft.ts";
import { EXPLAINERS } from "./explain/index.ts";
import { findingsFrom } from "./findings-from.ts";
import { aligned, type Scene } from "./scene.ts";
import { soundOf } from "./sound.ts";
import { COMPARISON_TOLERANCES, isBelowTolerance, OTHER_MODEL_COMPARISON_TOLERANCES } from "./tolerance.ts";

/** What is known of one of the two documents besides itself. */
export interface ComparedSide {
  /** What its unit does to sound besides its settings. */
  readonly unit?: UnitAcoustics;
  /** SHA-256 of its canonical form, where known. */
  readonly sha256?: string;
}

/** How two configurations are compared. */
export interface CompareOptions {
  /**
   * Differences below these are counted, not told. @defaultValue {@link COMPARISON_TOLERANCES}; between two models
   * {@link OTHER_MODEL_COMPARISON_TOLERANCES}
   */
  readonly tolerances?: Partial<ComparisonTolerances>;
  readonly before?: ComparedSide;
  readonly after?: ComparedSide;
  /** Whether the curves that findings refer to are given too. @defaultValue false */
  readonly curves?: boolean;
  /** Changes that count; the others are as if they were not there. @defaultValue all */
  readonly only?: (change: Change) => boolean;
}

/**
 * What differs between two configurations and what it means: findings in the engineer's words, most serious first, with
 * every raw change accounted for by exactly one finding or counted as below the tolerances. The two may be of one unit,
 * of two units, or of two models: then they are compared by loudspeaker and way, not by connector.
 *
 * @throws BoothkeepError `changes.unclear-identity`, `document.invalid`: see `changesBetween`
 * @example
 * for (const { severity, place, words } of compareConfigurations(asLeft, asFound).findings) { … }
 */
export function compareConfigurations(
  before: Configuration,
  after: Configuration,
  options: CompareOptions = {},
): Comparison {
  const found = changesBetween(before, after);
  const set = options.only === undefined ? found : { ...found, changes: found.changes.filter(options.only) };
  const otherModel = before.unit.profileId !== after.unit.profileId;
  const tolerances = {
    ...(otherModel ? OTHER_MODEL_COMPARISON_TOLERANCES : COMPARISON_TOLERANCES),
    ...options.tolerances,
  };
  const scene = sceneOf(before, after, set, tolerances, options);
  const { drafts, quiet } = explained(scene);
  const { findings, curves } = findingsFrom(scene, drafts);
  const positions = new Map(set.changes.map((change, index) => [change, index]));
  const count = (severity: string): number =>
    findings.filter((finding) => finding.severity === severity).length;
  return {
    kind: "boothkeep.comparison",
    schemaVersion: "1.0.0",
    before: comparedDocument(before, options.before),
    after: comparedDocument(after, options.after),
    tolerances,
    counts: {
      error: count("error"),
      warning: count("warning"),
      advice: count("advice"),
      changes: set.changes.length,
      belowTolerance: quiet.length,
      renames: set.renames.length,
    },
    findings: options.curves ? findings : findings.map((finding) => ({ ...finding, curves: [] })),
    belowTolerance: quiet.map((change) => positions.get(change)!).sort((a, b) => a - b),
    changes: set.changes as readonly RawChange[],
    renames: set.renames,
    orders: set.orders,
    curves: options.curves ? curves : [],
  };
}

function sceneOf(
  before: Configuration,
  after: Configuration,
  set: ChangeSet,
  tolerances: ComparisonTolerances,
  options: CompareOptions,
): Scene {
  const first = aligned(before, set);
  const units = {
    ...(options.before?.unit === undefined ? {} : { unitBefore: options.before.unit }),
    ...(options.after?.unit === undefined ? {} : { unitAfter: options.after.unit }),
  };
  return {
    before: first,
    after,
    set,
    otherModel: before.unit.profileId !== after.unit.profileId,
    tolerances,
    sound: soundOf(first, after, units),
  };
}

/** Lets the explainers take their changes one after the other, until none is left. */
function explained(scene: Scene): { readonly drafts: readonly Draft[]; readonly quiet: readonly Change[] } {
  const drafts: Draft[] = [];
  // Bands and filters are judged by their effect together, crossovers also by what the driver's data sheet asks.
  const quiet: Change[] = scene.set.changes.filter(
    (change) =>
      !/equalizations|filters|Pass/.test(change.field) && isBelowTolerance(change, scene.tolerances),
  );
  let open: readonly Change[] = without(scene.set.changes, quiet);
  for (const explain of EXPLAINERS) {
    const explanation = explain(scene, open);
    drafts.push(...explanation.drafts);
    quiet.push(...(explanation.quiet ?? []));
    open = without(open, [
      ...explanation.drafts.flatMap(({ causes }) => causes),
      ...(explanation.quiet ?? []),
    ]);
  }
  return { drafts, quiet };
}

function without(changes: readonly Change[], taken: readonly Change[]): readonly Change[] {
  if (taken.length === 0) return changes;
  const gone = new Set(taken);
  return changes.filter((change) => !gone.has(change));
}

function comparedDocument({ screen, unit }: Configuration, side: ComparedSide | undefined): ComparedDocument {
  const { siteId, siteName, screenId, screenName } = screen;
  const { profileId, profileRevision, serial, firmware } = unit;
  return {
    siteId,
    siteName,
    screenId,
    screenName,
    profileId,
    profileRevision,
    serial,
    firmware,
    ...(side?.sha256 === undefined ? {} : { sha256: side.sha256 }),
  };
}
