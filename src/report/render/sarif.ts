import type { Finding, Severity } from "../../base/findings/index.ts";
import { jsonText } from "../../base/text/index.ts";
import type { CheckedScreen, RuleText } from "../../rules/index.ts";

/** Where a place of a document stands in its text, both from 1. */
export interface SarifPosition {
  readonly line: number;
  readonly column: number;
}

/** The tool, its rules, and where values stand in files. */
export interface SarifOptions {
  readonly version: string;
  readonly rules: readonly RuleText[];
  /** Line and column of a JSON Pointer in a document, where its text is at hand. */
  readonly position?: (name: string, pointer: string) => SarifPosition | undefined;
}

const LEVELS: Readonly<Record<Severity, string>> = { error: "error", warning: "warning", advice: "note" };

/**
 * The result of a check as SARIF 2.1.0 (OASIS Standard), which code hosts and editors read: one run, one result for
 * each finding; acknowledged findings are results with an accepted suppression.
 */
export function renderSarif(
  screens: readonly CheckedScreen[],
  { version, rules, position = () => undefined }: SarifOptions,
): string {
  const indexOf = new Map(rules.map((rule, index) => [rule.code as string, index]));
  const resultOf = (name: string, finding: Finding) => ({
    ruleId: finding.code,
    ...(indexOf.has(finding.code) ? { ruleIndex: indexOf.get(finding.code) } : {}),
    level: LEVELS[finding.severity],
    message: { text: messageOf(finding) },
    locations: [locationOf(name, finding, position(name, finding.place.pointer))],
    properties: { kind: finding.kind, numbers: finding.numbers },
  });
  const results = screens.flatMap(({ name, findings, acknowledged }) => [
    ...findings.map((finding) => resultOf(name, finding)),
    ...acknowledged.map(({ finding, by, reason }) => ({
      ...resultOf(name, finding),
      suppressions: [{ kind: "external", status: "accepted", justification: `${by}: ${reason}` }],
    })),
  ]);
  const log = {
    $schema: "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
    version: "2.1.0",
    runs: [
      {
        tool: { driver: { name: "boothkeep", semanticVersion: version, rules: rules.map(descriptorOf) } },
        columnKind: "utf16CodeUnits",
        results,
      },
    ],
  };
  return `${jsonText(log, 2)}\n`;
}

function descriptorOf({ code, title, why, remedy, source, severity, kind }: RuleText) {
  return {
    id: code,
    shortDescription: { text: title },
    fullDescription: { text: `${title} ${why}` },
    help: { text: `${remedy} Source: ${source}.` },
    defaultConfiguration: { level: LEVELS[severity] },
    properties: { kind },
  };
}

function messageOf({ place, words, remedy }: Finding): string {
  return `${place.words}: ${words}${remedy === undefined ? "" : ` ${remedy}`}`;
}

function locationOf(name: string, { place }: Finding, position: SarifPosition | undefined) {
  const region =
    position === undefined ? {} : { region: { startLine: position.line, startColumn: position.column } };
  return {
    physicalLocation: { artifactLocation: { uri: uriOf(name) }, ...region },
    logicalLocations: [{ fullyQualifiedName: place.pointer === "" ? "/" : place.pointer, name: place.words }],
  };
}

/** A name as a relative reference of RFC 3986: separators forward, everything else percent-encoded. */
function uriOf(name: string): string {
  return name.replaceAll("\\", "/").split("/").map(encodeURIComponent).join("/");
}
