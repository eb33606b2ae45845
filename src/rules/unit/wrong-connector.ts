import { connectorsById } from "../../profile/index.ts";
import { connectorUses } from "../connector-uses.ts";
import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const wrongConnector = screenRule({
  code: "unit/wrong-connector",
  kind: "routing",
  severity: "error",
  title: "A connector carries the direction and the kind of signal that it is for.",
  why: "An AES3 source does not come in by an analog connector, and nothing comes out of an input.",
  source: "the unit's profile",
  remedy: "Choose a connector of the right direction and kind.",
  needsProfile: true,
  example: {
    breaks: [set("/sources/microphone/channels/mic/connectorId", "aes-in-01")],
    mends: [set("/sources/microphone/channels/mic/connectorId", "mic-in")],
  },
  *check({ configuration, profile }) {
    const connectors = connectorsById(profile!);
    for (const { path, connectorId, direction, kinds } of connectorUses(configuration)) {
      const connector = connectors.get(connectorId);
      if (connector === undefined) continue;
      const fits = connector.direction === direction && (kinds?.includes(connector.kind) ?? true);
      if (fits) continue;
      const wanted = `${kinds === undefined ? "" : `${kinds.join(" or ")} `}${direction}`;
      yield {
        path,
        words: `${connector.label} is for ${connector.kind} ${connector.direction}; ${wanted} is needed.`,
        numbers: { connectorId, direction: connector.direction, kind: connector.kind },
      };
    }
  },
});
