import { type Finding, pointerParts } from "../../base/findings/index.ts";
import { type Configuration, inspectDocument, keyPath, type UnitProfile } from "../../model/index.ts";
import { shapeFindings, validateConfiguration } from "../../rules/index.ts";
import { placeOf } from "../../words/index.ts";

/** What the rule book finds in a changed configuration and did not find before. */
export interface NewFaults {
  readonly findings: readonly Finding[];
  /** Those of them that stand in the way of loading: errors where there was none of their sort before. */
  readonly errors: readonly Finding[];
}

/** Tells what the rule book newly finds, for any number of changes to one configuration. */
export function newFaultsOf(
  before: Configuration,
  profile: UnitProfile,
): (after: Configuration) => NewFaults {
  const known = new Set<string>();
  for (const finding of validateConfiguration(before, { profile })) {
    known.add(placeKey(before, finding));
    known.add(`${placeKey(before, finding)}\n${finding.words}`);
  }
  return (after) => {
    const { shape } = inspectDocument(JSON.stringify(after));
    if (shape.total > 0) {
      const findings = shapeFindings(shape.problems).map((finding) => ({
        ...finding,
        place: placeOf(after, pointerParts(finding.place.pointer)),
      }));
      return { findings, errors: findings };
    }
    const findings = validateConfiguration(after, { profile }).filter(
      (finding) => !known.has(`${placeKey(after, finding)}\n${finding.words}`),
    );
    const errors = findings.filter(
      (finding) => finding.severity === "error" && !known.has(placeKey(after, finding)),
    );
    return { findings, errors };
  };
}

/** The rule and the place by ids: neither a new name nor another order makes a finding a new one. */
function placeKey(configuration: Configuration, { code, place }: Finding): string {
  return `${code}\n${keyPath(configuration, pointerParts(place.pointer)).join("/")}`;
}
