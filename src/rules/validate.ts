import { compareFindings, type Finding, type Severity } from "../base/findings/index.ts";
import { type Configuration, keyPath, type ShapeProblem, type UnitProfile } from "../model/index.ts";
import { placeOf } from "../words/index.ts";
import { RULES } from "./catalogue.ts";
import { ruleContext } from "./context.ts";
import type { Breach, RuleText, ScreenRule, ShapeRule, SiteRule } from "./rule.ts";
import { applySettings, limitsFor, type RuleSettings } from "./settings.ts";
import type { Validation } from "./validation.ts";

/** What a configuration is checked with. */
export interface ValidationOptions {
  /** What the unit can do; absent: rules that need it are silent. */
  readonly profile?: UnitProfile | undefined;
  /** By which rules are switched off, limited or acknowledged for this screen. */
  readonly settings?: RuleSettings | undefined;
  /** Date of the check, RFC 3339 full-date; absent: rules about age are silent. */
  readonly today?: string | undefined;
}

const screenRules = RULES.filter((rule): rule is ScreenRule => rule.scope === "screen");
const siteRules = RULES.filter((rule): rule is SiteRule => rule.scope === "site");
const shapeRules = RULES.filter((rule): rule is ShapeRule => rule.scope === "shape");

/** Checks one configuration by every rule of the book, and says what the settings changed. */
export function checkConfiguration(
  configuration: Configuration,
  { profile, settings, today }: ValidationOptions = {},
): Validation {
  const context = ruleContext(configuration, { profile, today });
  const found = screenRules.flatMap((rule) => {
    if (rule.needsProfile && context.profile === undefined) return [];
    const limits = limitsFor(rule, settings, configuration);
    return [...rule.check(context, limits)].map((breach) => ({
      finding: findingOf(rule, configuration, breach),
      keys: keyPath(configuration, breach.path),
    }));
  });
  return applySettings(found, settings, configuration);
}

/**
 * Checks one configuration by every rule of the book.
 *
 * @returns findings, most serious first; those that were acknowledged are among them and say so
 * @example
 * const findings = validateConfiguration(configuration, { profile });
 */
export function validateConfiguration(
  configuration: Configuration,
  options: ValidationOptions = {},
): readonly Finding[] {
  const { findings, acknowledged } = checkConfiguration(configuration, options);
  return [...findings, ...acknowledged.map((item) => item.finding)].sort(compareFindings);
}

/** A finding about one of several configurations. */
export interface SiteFinding {
  /** Index of the configuration in which the place of the finding lies. */
  readonly screen: number;
  readonly finding: Finding;
}

/** Checks several configurations against each other: addresses, names, serial numbers. */
export function validateSite(configurations: readonly Configuration[]): readonly SiteFinding[] {
  return siteRules
    .flatMap((rule) =>
      [...rule.check(configurations)].map((breach) => ({
        screen: breach.screen,
        finding: findingOf(rule, configurations[breach.screen]!, breach),
      })),
    )
    .sort((a, b) => a.screen - b.screen || compareFindings(a.finding, b.finding));
}

/** The problems of a document's shape as findings, for documents that cannot be read any further. */
export function shapeFindings(problems: readonly ShapeProblem[]): readonly Finding[] {
  return problems
    .map((problem) => {
      const rule = shapeRules.find((candidate) => candidate.fault === problem.fault)!;
      return {
        ...textOf(rule, rule.severity),
        place: { pointer: problem.pointer, words: problem.pointer === "" ? "The document" : problem.pointer },
        words: problem.words,
        numbers: problem.meant === undefined ? {} : { meant: problem.meant },
        remedy: rule.remedy,
      };
    })
    .sort(compareFindings);
}

function findingOf(rule: RuleText, configuration: Configuration, breach: Breach): Finding {
  return {
    ...textOf(rule, breach.severity ?? rule.severity),
    place: placeOf(configuration, breach.path),
    words: breach.words,
    numbers: breach.numbers ?? {},
    remedy: breach.remedy ?? rule.remedy,
  };
}

function textOf(rule: RuleText, severity: Severity) {
  return { code: rule.code, kind: rule.kind, severity, source: rule.source };
}
