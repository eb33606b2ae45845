import { compareFindings, type Finding, SEVERITIES, type Severity } from "../base/findings/index.ts";
import type { Configuration, ShapeProblem, UnitProfile } from "../model/index.ts";
import type { RuleSettings } from "./settings.ts";
import { checkConfiguration, shapeFindings, validateSite } from "./validate.ts";
import type { AcknowledgedFinding, SettingNote } from "./validation.ts";

/** One document to check: a configuration, or what is wrong with its shape. */
export interface ScreenToCheck {
  /** Where it came from: a file, an entry of a logbook, a pack. */
  readonly name: string;
  readonly configuration?: Configuration | undefined;
  /** Absent: rules that need it are silent, and the result says so. */
  readonly profile?: UnitProfile | undefined;
  /** Problems that make the document unusable: nothing else is then checked. */
  readonly problems?: readonly ShapeProblem[];
  readonly problemCount?: number;
}

/** What was found in one document. */
export interface CheckedScreen {
  readonly name: string;
  /** "Lantern Mill, Screen 1"; absent where the document could not be read that far. */
  readonly title?: string;
  /** False: the unit's limits were not checked. */
  readonly withProfile: boolean;
  /** Most serious first. */
  readonly findings: readonly Finding[];
  readonly acknowledged: readonly AcknowledgedFinding[];
  readonly notes: readonly SettingNote[];
  /** Findings that were found and not listed, since there were too many of them. */
  readonly unlisted: number;
}

/** What screens are checked with, and which rules count. */
export interface CheckOptions {
  readonly settings?: RuleSettings | undefined;
  readonly today?: string | undefined;
  /** Codes ("level/headroom") and families ("level") that are wanted; absent: all. */
  readonly only?: readonly string[] | undefined;
  /** Least severity that is wanted. @defaultValue "advice" */
  readonly severity?: Severity | undefined;
  /** Told after each document how many are done. */
  readonly onChecked?: ((done: number) => void) | undefined;
}

/**
 * Checks documents one by one by the whole rule book, and the screens among them against each other.
 *
 * @returns one result for each document, in their order
 */
export function checkScreens(
  screens: readonly ScreenToCheck[],
  options: CheckOptions = {},
): readonly CheckedScreen[] {
  const isWanted = wanted(options);
  const readable = screens.flatMap((screen, index) =>
    screen.configuration === undefined ? [] : [{ index, configuration: screen.configuration }],
  );
  const between = validateSite(readable.map(({ configuration }) => configuration)).map(
    ({ screen, finding }) => ({ index: readable[screen]!.index, finding }),
  );
  return screens.map((screen, index) => {
    const own = between.filter((item) => item.index === index).map(({ finding }) => finding);
    const checked = checkScreen(screen, own, { ...options, isWanted });
    options.onChecked?.(index + 1);
    return checked;
  });
}

function checkScreen(
  { name, configuration, profile, problems = [], problemCount = problems.length }: ScreenToCheck,
  between: readonly Finding[],
  { settings, today, isWanted }: CheckOptions & { readonly isWanted: (finding: Finding) => boolean },
): CheckedScreen {
  if (configuration === undefined) {
    const findings = shapeFindings(problems).filter(isWanted);
    const unlisted = problemCount - problems.length;
    return { name, withProfile: false, findings, acknowledged: [], notes: [], unlisted };
  }
  const { findings, acknowledged, notes } = checkConfiguration(configuration, { profile, settings, today });
  return {
    name,
    title: `${configuration.screen.siteName}, ${configuration.screen.screenName}`,
    withProfile: profile !== undefined,
    findings: [...findings, ...between].filter(isWanted).sort(compareFindings),
    acknowledged: acknowledged.filter(({ finding }) => isWanted(finding)),
    notes,
    unlisted: 0,
  };
}

function wanted({ only, severity = "advice" }: CheckOptions): (finding: Finding) => boolean {
  const least = SEVERITIES.indexOf(severity);
  const isCodeWanted = (code: string) =>
    only === undefined || only.some((name) => code === name || code.startsWith(`${name}/`));
  return (finding) => SEVERITIES.indexOf(finding.severity) <= least && isCodeWanted(finding.code);
}
