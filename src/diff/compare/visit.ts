import {
  type Comparison,
  type Configuration,
  fieldAt,
  fieldsUnder,
  type StandardComparison,
} from "../../model/index.ts";
import type { Change } from "../changes/index.ts";
import { type CompareOptions, compareConfigurations } from "./compare.ts";

/** The three documents of a service visit. */
export interface VisitDocuments {
  /** The last configuration that was left at the screen. */
  readonly asLeft: Configuration;
  readonly asFound: Configuration;
  /** A configuration that shows how the house wants its screens; what rooms and units decide is not looked at. */
  readonly standard: Configuration;
}

/**
 * As found against last as left against the house standard: what changed since, and what is off the standard, with
 * each finding of the latter saying whether it changed since.
 *
 * @throws BoothkeepError as {@link compareConfigurations}
 */
export function compareVisit(documents: VisitDocuments, options: CompareOptions = {}): Comparison {
  const { asLeft, asFound, standard } = documents;
  const since = compareConfigurations(asLeft, asFound, options);
  const drift = compareConfigurations(standard, asFound, { ...options, before: {}, only: isHouseDecision });
  return { ...since, offStandard: { comparison: drift, changedSince: changedSince(since, drift) } };
}

/** Whether a change touches anything that a house standard may hold. */
function isHouseDecision({ field }: Change): boolean {
  const own = fieldAt(field);
  return (own === undefined ? fieldsUnder(field) : [own]).some(({ owner }) => owner === "house");
}

function changedSince(since: Comparison, drift: Comparison): StandardComparison["changedSince"] {
  const moved = since.changes.map(({ path }) => JSON.stringify(path).slice(0, -1));
  return drift.findings.map(({ causes }) =>
    causes.some((cause) => {
      const here = JSON.stringify(drift.changes[cause]?.path).slice(0, -1);
      return moved.some((place) => place.startsWith(here) || here.startsWith(place));
    }),
  );
}
