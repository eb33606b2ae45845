import type { ConnectorContent, Proof } from "../../../model/index.ts";
import type { Plan } from "../plan.ts";

/**
 * Connectors of the new unit to which the re-patch sheet brings something else than the new configuration has there, in
 * words: two inputs or two outputs exchanged, a cable that the sheet forgot. Empty: sheet and documents agree.
 */
export function wiringClaims({ cables }: Plan, { connectors }: Pick<Proof, "connectors">): readonly string[] {
  const at = (direction: string, id: string) =>
    connectors.find((item) => item.direction === direction && item.connectorId === id);
  const stays = new Set(connectors.flatMap(({ after }) => after.map(({ id }) => id)));
  const lines = cables.flatMap(({ direction, from, to }) =>
    to.map(({ connectorId, label }, circuit) => ({
      direction,
      connectorId,
      label,
      brought: (at(direction, from[circuit]?.connectorId ?? "")?.before ?? []).filter(({ id }) =>
        stays.has(id),
      ),
    })),
  );
  const plugged = lines.flatMap(({ direction, connectorId, label, brought }) => {
    const there = at(direction, connectorId)?.after ?? [];
    if (idsOf(there) === idsOf(brought)) return [];
    return [
      `${label}: the re-patch sheet brings ${contentWords(brought)}, the new configuration has ${contentWords(there)} there.`,
    ];
  });
  const known = new Set(lines.map(({ direction, connectorId }) => `${direction} ${connectorId}`));
  const forgotten = connectors
    .filter(
      ({ direction, connectorId, after }) => after.length > 0 && !known.has(`${direction} ${connectorId}`),
    )
    .map(
      ({ connectorId, after }) =>
        `${connectorId}: the new configuration has ${contentWords(after)} there, and the re-patch sheet brings no cable.`,
    );
  return [...plugged, ...forgotten];
}

function idsOf(contents: readonly ConnectorContent[]): string {
  return JSON.stringify(contents.map(({ id }) => id).sort());
}

function contentWords(contents: readonly ConnectorContent[]): string {
  return contents.length === 0 ? "nothing" : contents.map(({ label }) => label).join(" and ");
}
