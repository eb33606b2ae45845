import { set } from "../edits.ts";
import { COMMON_PRACTICE, siteRule } from "../rule.ts";
import { siteDoubles } from "../site-doubles.ts";

export const siteAddress = siteRule({
  code: "operation/site-address",
  kind: "operation",
  severity: "error",
  title: "No two screens of a site have the same address.",
  why: "Cues for one screen reach the other: its trailer level drops in the middle of a feature.",
  source: COMMON_PRACTICE,
  remedy: "Give one of them another address, in the unit and in the server's cues.",
  example: {
    breaks: [set("/network/interfaces/control/address", "10.20.1.31")],
    mends: [set("/network/interfaces/control/address", "10.20.1.32")],
  },
  *check(configurations) {
    const uses = configurations.flatMap(({ screen: { siteId }, network }, screen) =>
      network.interfaces.flatMap(({ address }, index) =>
        address === undefined
          ? []
          : [
              {
                screen,
                path: ["network", "interfaces", index, "address"],
                key: `${siteId} ${address}`,
                value: address,
              },
            ],
      ),
    );
    yield* siteDoubles(
      configurations,
      uses,
      (value, other) => `${value} is the address of ${other} already.`,
    );
  },
});
