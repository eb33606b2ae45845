import type { Edit, Rule, RuleFamily } from "../../rules/index.ts";
import type { Block, ReportDocument } from "../document.ts";

const FAMILY_TITLES: Readonly<Record<RuleFamily, string>> = {
  shape: "Shape: is it a document that can be used?",
  unit: "Unit: can this unit do it?",
  format: "Format: does every channel of the program reach its place?",
  crossover: "Crossovers: do the ways of a loudspeaker fit, and are they safe?",
  time: "Time: does sound arrive when it should?",
  level: "Level: is anything too loud, too quiet, or unlike its twin?",
  operation: "Operation: will the booth work with it?",
  calibration: "Calibration: do the measurements bear the settings out?",
};

/** The whole rule book, family by family. */
export function ruleBookReport(rules: readonly Rule[]): ReportDocument {
  const families = [...new Set(rules.map(familyOf))];
  return {
    title: "The rule book",
    subtitle: `${rules.length} rules in ${families.length} families, by which a configuration is checked`,
    blocks: [
      {
        kind: "paragraph",
        text: "Every rule has a code, a severity (error, warning, advice) and a kind (what it is about). Limits can be changed, and rules switched off, for one screen, one site or all, in a file of rule settings with a reason; rules of the kind protection can only be acknowledged. The examples are edits of the screen in samples/rule-book/; places name list items by their ids.",
      },
      ...families.flatMap((family): readonly Block[] => [
        { kind: "heading", level: 2, text: FAMILY_TITLES[family] },
        ...rules.filter((rule) => familyOf(rule) === family).flatMap(ruleBlocks),
      ]),
    ],
  };
}

/** One rule with its reason, source, limits and example. */
export function ruleReport(rule: Rule): ReportDocument {
  const [, ...blocks] = ruleBlocks(rule);
  return { title: rule.code, subtitle: rule.title, blocks: blocks.slice(1) };
}

/** Codes and what holds when the rule is kept, family by family. */
export function ruleListReport(rules: readonly Rule[]): ReportDocument {
  const families = [...new Set(rules.map(familyOf))];
  return {
    title: "The rule book",
    subtitle: `${rules.length} rules; 'boothkeep rules CODE' explains one`,
    blocks: families.flatMap((family): readonly Block[] => [
      { kind: "heading", level: 2, text: FAMILY_TITLES[family] },
      {
        kind: "list",
        marker: "dot",
        items: rules
          .filter((rule) => familyOf(rule) === family)
          .map(({ code, title, severity, kind }) => ({
            lead: code,
            text: `${title} (${severity}, ${kind})`,
          })),
      },
    ]),
  };
}

function ruleBlocks(rule: Rule): readonly Block[] {
  const { breaks, mends } = rule.example;
  return [
    { kind: "heading", level: 3, text: rule.code },
    { kind: "paragraph", text: rule.title, weight: "lead" },
    { kind: "paragraph", text: rule.why },
    {
      kind: "facts",
      pairs: [
        ["Severity", `${rule.severity}, about ${rule.kind}`],
        ["To do", rule.remedy],
        ["Source", rule.source],
        ...limitPairs(rule),
        ["Breaks it", breaks.map(editWords).join(" ")],
        ["Mends it", mends.map(editWords).join(" ")],
      ],
    },
  ];
}

function limitPairs(rule: Rule): readonly (readonly [string, string])[] {
  if (rule.scope !== "screen") return [];
  const isFixed = rule.kind === "protection";
  return Object.entries(rule.limits).map(([name, { value, unit, words }]) => [
    isFixed ? "Fixed limit" : "Limit",
    `${name} ${value}${unit === "" ? "" : ` ${unit}`}: ${words}`,
  ]);
}

function editWords(edit: Edit): string {
  switch (edit.kind) {
    case "set":
      return `Set ${edit.at} to ${JSON.stringify(edit.value)}.`;
    case "remove":
      return `Take out ${edit.at}.`;
    case "restore":
      return `Put ${edit.at} back as it was.`;
  }
}

function familyOf(rule: Rule): RuleFamily {
  return rule.code.split("/")[0] as RuleFamily;
}
