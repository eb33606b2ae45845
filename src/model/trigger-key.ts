import type { Trigger } from "./generated/configuration.ts";

/** What tells triggers apart: two with the same key start at the same moment. */
export function triggerKey(trigger: Trigger): string {
  switch (trigger.kind) {
    case "contact":
      return JSON.stringify([trigger.connectorId, trigger.edge]);
    case "serial":
      return JSON.stringify([trigger.connectorId, trigger.text]);
    case "network":
      return JSON.stringify(["network", trigger.interfaceId, trigger.text]);
  }
}
