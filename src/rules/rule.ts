import type { FindingKind, FindingNumbers, Severity } from "../base/findings/index.ts";
import type { Configuration, DocumentPath, ShapeFault } from "../model/index.ts";
import type { RuleContext } from "./context.ts";
import type { Edit } from "./edits.ts";

/** The families of the rule book, in its order. */
export const RULE_FAMILIES = [
  "shape",
  "unit",
  "format",
  "crossover",
  "time",
  "level",
  "operation",
  "calibration",
] as const;
/** A chapter of the rule book. */
export type RuleFamily = (typeof RULE_FAMILIES)[number];

/** Stands where a rule rests on what engineers do, and on no text that could be named. */
export const COMMON_PRACTICE = "common practice, no source";

/** A number by which a rule judges, that an exhibitor can change. */
export interface RuleLimit {
  readonly value: number;
  /** Unit of the number, "" for none. */
  readonly unit: string;
  readonly words: string;
}

/** The smallest edit of the rule book's screen that breaks a rule, and the smallest that mends it again. */
export interface RuleExample {
  readonly breaks: readonly Edit[];
  readonly mends: readonly Edit[];
  /** Date at which the check is made, RFC 3339 full-date, where the rule needs one. */
  readonly today?: string;
}

/** What is said of a rule, for people. */
export interface RuleText {
  readonly code: `${RuleFamily}/${string}`;
  readonly kind: FindingKind;
  readonly severity: Severity;
  /** What holds when the rule is kept, as a sentence. */
  readonly title: string;
  /** What happens when it is not, as sentences. */
  readonly why: string;
  /** Standard and clause, or {@link COMMON_PRACTICE}. */
  readonly source: string;
  /** What to do about it, as a sentence. */
  readonly remedy: string;
}

/** One place where a rule is broken. */
export interface Breach {
  readonly path: DocumentPath;
  /** A sentence with its numbers and units. */
  readonly words: string;
  readonly numbers?: FindingNumbers;
  /** Where the rule's own remedy can be said closer. */
  readonly remedy?: string;
  /** Where this breach weighs less or more than the rule's usual one. */
  readonly severity?: Severity;
}

type LimitValues<Limits> = { readonly [Name in keyof Limits]: number };
/** The numbers by which a rule judges, by name. */
export type RuleLimits = Readonly<Record<string, RuleLimit>>;

/** A rule about one configuration. */
export interface ScreenRule extends RuleText {
  readonly scope: "screen";
  readonly limits: RuleLimits;
  /** True: silent where the unit profile is not at hand. */
  readonly needsProfile: boolean;
  readonly example: RuleExample;
  readonly check: (context: RuleContext, limits: Readonly<Record<string, number>>) => Iterable<Breach>;
}

/** A breach of a rule about several screens. */
export interface SiteBreach extends Breach {
  /** Which of the configurations, by its index. */
  readonly screen: number;
}

/** A rule about several configurations together. */
export interface SiteRule extends RuleText {
  readonly scope: "site";
  /** Edits of a second copy of the rule book's screen, standing beside the first. */
  readonly example: RuleExample;
  readonly check: (configurations: readonly Configuration[]) => Iterable<SiteBreach>;
}

/** A rule that reading a document holds: the check itself is the schema's, or that of the ids. */
export interface ShapeRule extends RuleText {
  readonly scope: "shape";
  readonly fault: ShapeFault;
  readonly example: RuleExample;
}

/** A rule of the rule book; `scope` tells the sorts apart. */
export type Rule = ScreenRule | SiteRule | ShapeRule;

interface ScreenRuleDefinition<Limits extends RuleLimits> extends RuleText {
  readonly limits?: Limits;
  readonly needsProfile?: boolean;
  readonly example: RuleExample;
  readonly check: (context: RuleContext, limits: LimitValues<Limits>) => Iterable<Breach>;
}

/** Defines a rule about one configuration. */
export function screenRule<const Limits extends RuleLimits = Record<never, RuleLimit>>(
  definition: ScreenRuleDefinition<Limits>,
): ScreenRule {
  return {
    needsProfile: false,
    ...definition,
    scope: "screen",
    limits: definition.limits ?? {},
    check: definition.check as ScreenRule["check"],
  };
}

/** Defines a rule about several configurations together. */
export function siteRule(definition: Omit<SiteRule, "scope">): SiteRule {
  return { ...definition, scope: "site" };
}

/** Defines a rule that reading a document holds. */
export function shapeRule(
  definition: Omit<ShapeRule, "scope" | "kind" | "severity" | "source"> & { readonly source?: string },
): ShapeRule {
  return {
    source: "the schema of the document's kind, JSON Schema 2020-12",
    ...definition,
    kind: "record",
    severity: "error",
    scope: "shape",
  };
}

export function familyOf(rule: RuleText): RuleFamily {
  return rule.code.split("/")[0] as RuleFamily;
}
