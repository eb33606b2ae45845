import { remove, restore } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const addressIncomplete = screenRule({
  code: "operation/address-incomplete",
  kind: "operation",
  severity: "error",
  title: "A fixed address is written down with its prefix.",
  why: "After a swap nobody in the booth knows which address the server expects.",
  source: COMMON_PRACTICE,
  remedy: "Write down address and prefix length.",
  example: {
    breaks: [remove("/network/interfaces/control/prefixLength")],
    mends: [restore("/network/interfaces/control/prefixLength")],
  },
  *check({ configuration: { network } }) {
    for (const [index, { mode, address, prefixLength }] of network.interfaces.entries()) {
      if (mode !== "fixed" || (address !== undefined && prefixLength !== undefined)) continue;
      yield {
        path: ["network", "interfaces", index],
        words: `The interface has a fixed address, but no ${address === undefined ? "address" : "prefix length"} is written down.`,
      };
    }
  },
});
