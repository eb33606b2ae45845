import { set } from "../edits.ts";
import { isPrivate } from "../ip-address.ts";
import { screenRule } from "../rule.ts";

export const publicAddress = screenRule({
  code: "operation/public-address",
  kind: "operation",
  severity: "warning",
  title: "The unit has an address that the internet does not reach.",
  why: "A sound processor with a public address is one scan away from a stranger at the fader.",
  source: "RFC 1918 (private addresses); that booth equipment stays private: common practice, no source",
  remedy: "Use a private address behind the site's firewall.",
  example: {
    breaks: [
      set("/network/interfaces/control/address", "198.18.1.31"),
      set("/network/interfaces/control/gateway", "198.18.1.1"),
    ],
    mends: [
      set("/network/interfaces/control/address", "10.20.1.31"),
      set("/network/interfaces/control/gateway", "10.20.1.1"),
    ],
  },
  *check({ configuration: { network } }) {
    for (const [index, { address }] of network.interfaces.entries()) {
      if (address === undefined || isPrivate(address)) continue;
      yield {
        path: ["network", "interfaces", index, "address"],
        words: `${address} is a public address.`,
        numbers: { address },
      };
    }
  },
});
