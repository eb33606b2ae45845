import { connectorsById } from "../../profile/index.ts";
import { connectorUses } from "../connector-uses.ts";
import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const noSuchConnector = screenRule({
  code: "unit/no-such-connector",
  kind: "routing",
  severity: "error",
  title: "Every connector is one that the unit has.",
  why: "A cable cannot be plugged into a connector that is not there.",
  source: "the unit's profile",
  remedy: "Name a connector of the unit.",
  needsProfile: true,
  example: {
    breaks: [set("/outputs/monitor/connectorId", "out-33")],
    mends: [set("/outputs/monitor/connectorId", "out-19")],
  },
  *check({ configuration, profile }) {
    const connectors = connectorsById(profile!);
    for (const { path, connectorId } of connectorUses(configuration)) {
      if (connectors.has(connectorId)) continue;
      yield {
        path,
        words: `The unit has no connector '${connectorId}'.`,
        numbers: { connectorId },
      };
    }
  },
});
