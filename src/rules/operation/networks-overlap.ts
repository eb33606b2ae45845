import { set } from "../edits.ts";
import { isSameNetwork } from "../ip-address.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const networksOverlap = screenRule({
  code: "operation/networks-overlap",
  kind: "operation",
  severity: "error",
  title: "The unit's interfaces lie in different networks.",
  why: "With two interfaces in one network answers leave by the wrong one: control drops out now and then.",
  source: COMMON_PRACTICE,
  remedy: "Give control and audio networks of their own.",
  example: {
    breaks: [
      set("/network/interfaces/audio/mode", "fixed"),
      set("/network/interfaces/audio/address", "10.20.1.131"),
      set("/network/interfaces/audio/prefixLength", 24),
    ],
    mends: [set("/network/interfaces/audio/address", "10.20.2.131")],
  },
  *check({ configuration: { network } }) {
    for (const [index, { address, prefixLength }] of network.interfaces.entries()) {
      const earlier = network.interfaces.slice(0, index);
      const other = earlier.find(
        (item) =>
          item.address !== undefined &&
          address !== undefined &&
          isSameNetwork(item.address, address, Math.min(item.prefixLength ?? 32, prefixLength ?? 32)),
      );
      if (other === undefined) continue;
      yield {
        path: ["network", "interfaces", index, "address"],
        words: `${address} lies in the network of ${other.label} (${other.address}).`,
        numbers: { address: address!, other: other.address! },
      };
    }
  },
});
