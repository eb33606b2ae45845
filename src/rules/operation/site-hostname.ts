import { set } from "../edits.ts";
import { COMMON_PRACTICE, siteRule } from "../rule.ts";
import { siteDoubles } from "../site-doubles.ts";

export const siteHostname = siteRule({
  code: "operation/site-hostname",
  kind: "operation",
  severity: "warning",
  title: "No two screens of a site have the same host name.",
  why: "Whoever looks a unit up by name gets one of the two, and not always the same.",
  source: COMMON_PRACTICE,
  remedy: "Rename one of them.",
  example: {
    breaks: [set("/network/hostname", "model-house-1")],
    mends: [set("/network/hostname", "model-house-2")],
  },
  *check(configurations) {
    const uses = configurations.map(({ screen: { siteId }, network: { hostname } }, screen) => ({
      screen,
      path: ["network", "hostname"],
      key: `${siteId} ${hostname.toLowerCase()}`,
      value: hostname,
    }));
    yield* siteDoubles(
      configurations,
      uses,
      (value, other) => `${value} is the host name of ${other} already.`,
    );
  },
});
