import { set } from "../edits.ts";
import { isSameNetwork } from "../ip-address.ts";
import { screenRule } from "../rule.ts";

export const gatewayElsewhere = screenRule({
  code: "operation/gateway-elsewhere",
  kind: "operation",
  severity: "error",
  title: "The gateway lies in the interface's own network, and is another machine.",
  why: "A gateway outside the network cannot be reached: remote support and the clock do not work.",
  source: "RFC 4632 (prefixes)",
  remedy: "Correct the gateway, the address or the prefix length.",
  example: {
    breaks: [set("/network/interfaces/control/gateway", "10.20.2.1")],
    mends: [set("/network/interfaces/control/gateway", "10.20.1.1")],
  },
  *check({ configuration: { network } }) {
    for (const [index, { address, prefixLength, gateway }] of network.interfaces.entries()) {
      if (address === undefined || prefixLength === undefined || gateway === undefined) continue;
      if (isSameNetwork(address, gateway, prefixLength) && address !== gateway) continue;
      yield {
        path: ["network", "interfaces", index, "gateway"],
        words:
          address === gateway
            ? `The gateway ${gateway} is the unit itself.`
            : `The gateway ${gateway} lies outside ${address}/${prefixLength}.`,
        numbers: { address, prefixLength, gateway },
      };
    }
  },
});
