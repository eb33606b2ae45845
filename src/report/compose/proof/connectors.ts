import type { ConnectorContent, ConnectorProof, Proof } from "../../../model/index.ts";
import type { Block } from "../../document.ts";

/** How many connectors were compared, and what became of them: "38: 30 carry the same, 8 differ as their cables go ...". */
export function connectorCountWords({ connectors }: Proof): string {
  const count = (verdict: ConnectorProof["verdict"]) =>
    connectors.filter((connector) => connector.verdict === verdict).length;
  if (count("unknown") > 0) {
    return "not compared: another model, and nothing says where the cables go";
  }
  const parts = [
    [count("equal"), "carries the same", "carry the same"],
    [
      count("as-cabled"),
      "differs as its cable goes or as something is left out",
      "differ as their cables go or as something is left out",
    ],
    [count("changed"), "carries something else", "carry something else"],
  ] as const;
  const words = parts
    .filter(([number]) => number > 0)
    .map(([number, one, many]) => `${number} ${number === 1 ? one : many}`);
  return words.length === 0 ? "none in use" : `${connectors.length}: ${words.join(", ")}`;
}

/**
 * Connectors that carry something else than what their cables bring; on a unit of the same model also those whose cables
 * account for it. On another model all of them are others, and the re-patch sheet lists them.
 */
export function connectorBlocks({ connectors, before, after }: Proof): readonly Block[] {
  const changed = connectors.filter(({ verdict }) => verdict === "changed");
  const cabled =
    before.profileId === after.profileId ? connectors.filter(({ verdict }) => verdict === "as-cabled") : [];
  if (changed.length + cabled.length === 0) return [];
  return [
    { kind: "heading", level: 2, text: "Connectors that carry something else" },
    ...(changed.length === 0
      ? []
      : [
          {
            kind: "paragraph" as const,
            text: "Right only if the cables go along, and no cable is said to move there. Check each of them before anything plays.",
          },
          {
            kind: "list" as const,
            marker: "dot" as const,
            items: changed.map((connector) => ({
              lead: connector.connectorId,
              tags: [DIRECTION_WORDS[connector.direction]],
              text: `${changeWords(connector)}.`,
              severity: "error" as const,
            })),
          },
        ]),
    ...(cabled.length === 0
      ? []
      : [
          {
            kind: "table" as const,
            caption: "As their cables go, or as something is left out",
            columns: [{ header: "Connector" }, { header: "Before" }, { header: "Now" }],
            rows: cabled.map(({ connectorId, before, after }) => [
              connectorId,
              contentWords(before),
              contentWords(after),
            ]),
          },
        ]),
  ];
}

const DIRECTION_WORDS: Readonly<Record<ConnectorProof["direction"], string>> = {
  input: "input",
  output: "output",
  control: "control",
};

function changeWords({ before, after }: ConnectorProof): string {
  return `Before: ${contentWords(before)}. Now: ${contentWords(after)}`;
}

/** How many things on one connector are named. */
const NAMED_MAX = 2;

function contentWords(contents: readonly ConnectorContent[]): string {
  if (contents.length === 0) return "nothing";
  const named = contents.slice(0, NAMED_MAX).map(({ label }) => label);
  const more = contents.length - named.length;
  return more === 0 ? named.join(" and ") : `${named.join(", ")} and ${more} more`;
}
