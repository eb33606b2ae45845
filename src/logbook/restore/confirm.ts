import { canonicalHash } from "../../base/canonical/index.ts";
import { FINDING_KINDS, type FindingKind, pointer, pointerParts } from "../../base/findings/index.ts";
import { type Change, changesBetween } from "../../diff/changes/index.ts";
import {
  type Configuration,
  type Confirmation,
  type ConfirmedDifference,
  type ConfirmedDocument,
  type Field,
  fieldAt,
  fieldsUnder,
  pointerTo,
  type UnitProfile,
} from "../../model/index.ts";
import { type LimitedNumber, limitedNumbers } from "../../profile/index.ts";
import { placeOf } from "../../words/index.ts";
import { isWithinStep } from "./within-step.ts";

/** The unit that was read back, and the entry that was loaded. */
export interface ConfirmOptions {
  /** Profile of the unit that was read back: its steps decide what counts as equal. */
  readonly profile: UnitProfile;
  /** Entry of the logbook that holds what was to be loaded. */
  readonly entryId?: string;
}

/**
 * Compares what was read back from a unit with what was to be loaded into it. A number that the unit had to round to its
 * steps counts as equal; everything else that differs is told. Facts that no unit holds (the auditorium, remarks, the
 * calibration) are told apart, for they prove nothing. Items pair by identity: a unit that names its outputs otherwise
 * is no difference.
 *
 * @throws BoothkeepError `changes.unclear-identity`, `document.invalid`
 * @example
 * const confirmation = confirmReadBack(intended, readBack, { profile });
 * confirmation.verdict; // "equal", "within-steps" or "differs"
 */
export function confirmReadBack(
  intended: Configuration,
  readBack: Configuration,
  { profile, entryId }: ConfirmOptions,
): Confirmation {
  const steps = new Map(limitedNumbers(readBack, profile).map((item) => [pointer(...item.path), item]));
  const differences = changesBetween(intended, readBack)
    .changes.filter((change) => !isDefaultAgainstNone(change))
    .map((change) => difference(change, { intended, readBack, steps }))
    .sort(mostSeriousFirst);
  const count = (outcome: ConfirmedDifference["outcome"]) =>
    differences.filter((item) => item.outcome === outcome).length;
  const counts = {
    compared: heldValues(intended),
    withinSteps: count("within-step"),
    differing: count("differs"),
    notHeld: count("not-held"),
  };
  return {
    kind: "boothkeep.confirmation",
    schemaVersion: "1.0.0",
    verdict: counts.differing > 0 ? "differs" : counts.withinSteps > 0 ? "within-steps" : "equal",
    screen: { siteId: intended.screen.siteId, screenId: intended.screen.screenId },
    intended: { ...documentFacts(intended), ...(entryId !== undefined && { entryId }) },
    readBack: documentFacts(readBack),
    counts,
    differences,
  };
}

function documentFacts(configuration: Configuration): ConfirmedDocument {
  const { profileId, serial, firmware } = configuration.unit;
  return { sha256: canonicalHash(configuration), profileId, serial, firmware };
}

interface Documents {
  readonly intended: Configuration;
  readonly readBack: Configuration;
  /** Numbers that the unit limits, by pointer into what was read back. */
  readonly steps: ReadonlyMap<string, LimitedNumber>;
}

function difference(change: Change, { intended, readBack, steps }: Documents): ConfirmedDifference {
  const document = change.kind === "removed" ? intended : readBack;
  const at = pointerTo(document, change.path);
  const field = fieldAt(change.field);
  const values = valuesOf(change);
  const limited = steps.get(at);
  const step =
    limited !== undefined && typeof values.intended === "number" && typeof values.readBack === "number"
      ? limited
      : undefined;
  const outcome = !isHeldByUnit(change.field)
    ? "not-held"
    : step !== undefined && isWithinStep(step.grid, values.intended as number, values.readBack as number)
      ? "within-step"
      : "differs";
  return {
    outcome,
    kind: field?.kind ?? mostSeriousKind(fieldsUnder(change.field)),
    pointer: at,
    place: placeOf(document, pathOf(at)).words,
    label: field?.label ?? "the whole part",
    unit: field?.unit ?? "",
    ...values,
  };
}

/** The parts of a pointer with list positions as numbers. */
function pathOf(at: string): readonly (string | number)[] {
  return pointerParts(at).map((part) => (/^(0|[1-9][0-9]*)$/.test(part) ? Number(part) : part));
}

type Values = Pick<ConfirmedDifference, "intended" | "readBack">;

function valuesOf(change: Change): Values {
  switch (change.kind) {
    case "changed":
      return { intended: plain(change.before), readBack: plain(change.after) };
    case "added":
      return { intended: null, readBack: plain(change.after) };
    case "removed":
      return { intended: plain(change.before), readBack: null };
  }
}

/** Leaves as they are; a part as a whole is only said to be there. */
function plain(value: unknown): ConfirmedDifference["intended"] {
  return typeof value === "object" && value !== null ? "there" : (value as ConfirmedDifference["intended"]);
}

/** Values that stand for the same as nothing at all. */
const DEFAULTS: Readonly<Record<string, unknown>> = { enabled: true, waitMs: 0 };

/** A filter is in use unless it says otherwise; a unit may say so of each, or of none. */
function isDefaultAgainstNone(change: Change): boolean {
  if (change.kind === "changed") return false;
  const name = change.path.at(-1)!;
  const value = change.kind === "added" ? change.after : change.before;
  return Object.hasOwn(DEFAULTS, name) && DEFAULTS[name] === value;
}

/** Facts of the auditorium, of the document and of the measurements are not in a unit. */
function isHeldByUnit(field: string): boolean {
  const fields = fieldsUnder(field);
  return fields.some(
    ({ path, owner }) => owner !== "document" && owner !== "screen" && !path.startsWith("calibration"),
  );
}

function mostSeriousKind(fields: readonly Field[]): FindingKind {
  return FINDING_KINDS.find((kind) => fields.some((field) => field.kind === kind)) ?? "record";
}

/** How many leaves a unit holds. */
function heldValues(configuration: Configuration): number {
  return Object.entries(configuration)
    .filter(([name]) => isHeldByUnit(name) && name !== "calibration")
    .reduce((sum, [, value]) => sum + leaves(value), 0);
}

function leaves(value: unknown): number {
  if (value === undefined) return 0;
  if (typeof value !== "object" || value === null) return 1;
  return Object.values(value).reduce((sum: number, member) => sum + leaves(member), 0);
}

const OUTCOMES = ["differs", "within-step", "not-held"] as const;

/** The order of the changes is that of the document; sorting keeps it. */
function mostSeriousFirst(a: ConfirmedDifference, b: ConfirmedDifference): number {
  return (
    OUTCOMES.indexOf(a.outcome) - OUTCOMES.indexOf(b.outcome) ||
    FINDING_KINDS.indexOf(a.kind) - FINDING_KINDS.indexOf(b.kind)
  );
}
