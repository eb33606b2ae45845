import { type CompareOptions, compareConfigurations, compareVisit } from "../diff/compare/index.ts";
import type { Comparison, Configuration, UnitProfile } from "../model/index.ts";
import { comparedSide } from "./compared-side.ts";

/** A configuration and the profile of its unit, where that is at hand. */
export interface VisitedScreen {
  readonly configuration: Configuration;
  readonly profile: UnitProfile | undefined;
}

/** The documents of a service visit. */
export interface VisitedDocuments {
  /** The screen as it was last left. */
  readonly lastLeft: VisitedScreen;
  readonly asFound: VisitedScreen;
  /** Absent: nothing was done, or it is not known yet. */
  readonly asLeft?: VisitedScreen | undefined;
  /** The screen as it would be if it followed the house standard. */
  readonly standard?: Configuration | undefined;
}

/** What a visit found and what it did. */
export interface VisitComparisons {
  /** As found against as last left, and against the standard where there is one. */
  readonly found: Comparison;
  /** As left against as found; undefined without as left. */
  readonly done: Comparison | undefined;
}

/**
 * What a service visit found changed and what it changed, with the curves of both.
 *
 * @throws BoothkeepError as `compareConfigurations` does
 */
export function visitComparisons({
  lastLeft,
  asFound,
  asLeft,
  standard,
}: VisitedDocuments): VisitComparisons {
  const side = ({ configuration, profile }: VisitedScreen) => comparedSide(configuration, profile);
  const after = side(asFound);
  const since: CompareOptions = { before: side(lastLeft), after, curves: true };
  const found =
    standard === undefined
      ? compareConfigurations(lastLeft.configuration, asFound.configuration, since)
      : compareVisit({ asLeft: lastLeft.configuration, asFound: asFound.configuration, standard }, since);
  const done =
    asLeft &&
    compareConfigurations(asFound.configuration, asLeft.configuration, {
      before: after,
      after: side(asLeft),
      curves: true,
    });
  return { found, done };
}
