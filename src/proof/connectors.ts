import type { Configuration, ConnectorContent, ConnectorProof } from "../model/index.ts";
import type { GivenUp } from "./given-up.ts";
import type { DocumentNames, ScreenNames } from "./screen-names.ts";

/** Where a cable goes, by connectors. */
export type CableMove = Extract<GivenUp, { readonly kind: "cable" }>;

export interface ConnectorOptions {
  readonly names: ScreenNames;
  /**
   * Where cables go. None: on a unit of the same model every cable stays where it is; on another model nobody knows, and
   * nothing is judged.
   */
  readonly cables: readonly CableMove[];
}

type Direction = ConnectorProof["direction"];
/** Contents by direction and connector. */
type Contents = ReadonlyMap<string, readonly ConnectorContent[]>;

/**
 * Says of every connector what it carried and what it carries, and whether that is what its cable brings. What is at the far
 * end of a cable stays the same, wherever it is plugged: a position of a source, a way of a loudspeaker, an automation item.
 * What one of the documents lacks altogether is not judged here: paths and settings say so.
 */
export function compareConnectors(
  before: Configuration,
  after: Configuration,
  { names, cables }: ConnectorOptions,
): readonly ConnectorProof[] {
  const old = contentsOf(before, names.before);
  const now = contentsOf(after, names.after);
  const brought = broughtBy(cables, old, before.unit.profileId === after.unit.profileId);
  const kept = new Set([...now.values()].flat().map(({ id }) => id));
  // The old words win.
  const labels = new Map([...now.values(), ...old.values()].flat().map(({ id, label }) => [id, label]));
  const named = (contents: readonly ConnectorContent[]) =>
    contents.map(({ id }) => ({ id, label: labels.get(id)! }));
  return (
    [...new Set([...old.keys(), ...now.keys(), ...(brought?.keys() ?? [])])]
      .map((key): ConnectorProof => {
        const [direction, connectorId] = JSON.parse(key) as [Direction, string];
        const was = old.get(key) ?? [];
        const is = now.get(key) ?? [];
        const expected = brought?.get(key)?.filter(({ id }) => kept.has(id)) ?? [];
        return {
          direction,
          connectorId,
          verdict:
            brought === undefined
              ? "unknown"
              : !sameContents(is, expected)
                ? "changed"
                : sameContents(was, is)
                  ? "equal"
                  : "as-cabled",
          before: named(was),
          after: named(is),
        };
      })
      // A cable without anything at its far end.
      .filter(({ before: was, after: is, verdict }) => was.length + is.length > 0 || verdict === "changed")
      .sort((a, b) => DIRECTIONS.indexOf(a.direction) - DIRECTIONS.indexOf(b.direction))
  );
}

const DIRECTIONS: readonly Direction[] = ["input", "output", "control"];

function sameContents(a: readonly ConnectorContent[], b: readonly ConnectorContent[]): boolean {
  const ids = (contents: readonly ConnectorContent[]) => JSON.stringify(contents.map(({ id }) => id).sort());
  return ids(a) === ids(b);
}

/** What the cables bring to each connector; undefined where nobody knows. */
function broughtBy(cables: readonly CableMove[], old: Contents, isSameModel: boolean): Contents | undefined {
  if (cables.length === 0) return isSameModel ? old : undefined;
  const brought = new Map<string, readonly ConnectorContent[]>();
  for (const { direction, fromConnectorId, toConnectorId } of cables) {
    if (toConnectorId === null) continue;
    const to = keyOf(direction, toConnectorId);
    const contents = old.get(keyOf(direction, fromConnectorId)) ?? [];
    brought.set(to, [...(brought.get(to) ?? []), ...contents]);
  }
  return brought;
}

function keyOf(direction: Direction, connectorId: string): string {
  return JSON.stringify([direction, connectorId]);
}

/** What each connector carries. A spare output carries nothing. */
function contentsOf(
  { sources, outputs, operation, automation }: Configuration,
  names: DocumentNames,
): Contents {
  const contents = new Map<string, readonly ConnectorContent[]>();
  const put = (direction: Direction, connectorId: string, id: readonly unknown[], label: string) => {
    const key = keyOf(direction, connectorId);
    contents.set(key, [...(contents.get(key) ?? []), { id: id.join("/"), label }]);
  };
  for (const { id, label, assignment, channels } of sources) {
    for (const { position, connectorId, carries } of channels) {
      const carried = carries ?? assignment;
      const words = carries === undefined ? "" : ` (${carries})`;
      put(
        "input",
        connectorId,
        ["source", names.source(id), position, carried],
        `${label}, position ${position}${words}`,
      );
    }
  }
  for (const output of outputs) {
    const feed = names.feeds.get(output.id);
    if (feed !== undefined) put("output", output.connectorId, ["feed", feed.id], feed.label);
  }
  if (operation.emergencyMute !== undefined) {
    put("control", operation.emergencyMute.connectorId, ["emergency-mute"], "Emergency mute");
  }
  for (const { id, label, trigger } of automation) {
    if ("connectorId" in trigger) {
      put("control", trigger.connectorId, ["automation", id], `Automation '${label}'`);
    }
  }
  return contents;
}
