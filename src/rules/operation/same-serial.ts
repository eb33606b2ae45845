import { set } from "../edits.ts";
import { COMMON_PRACTICE, siteRule } from "../rule.ts";
import { siteDoubles } from "../site-doubles.ts";

export const sameSerial = siteRule({
  code: "operation/same-serial",
  kind: "record",
  severity: "warning",
  title: "No two screens have the unit with the same serial number.",
  why: "One of the two files was copied from the other and not finished: the wrong one may be loaded after a swap.",
  source: COMMON_PRACTICE,
  remedy: "Read the serial number off the unit.",
  example: {
    breaks: [set("/unit/serial", "M24-000123")],
    mends: [set("/unit/serial", "M24-000124")],
  },
  *check(configurations) {
    const uses = configurations.map(({ unit: { serial, profileId } }, screen) => ({
      screen,
      path: ["unit", "serial"],
      key: `${profileId} ${serial}`,
      value: serial,
    }));
    yield* siteDoubles(configurations, uses, (value, other) => `Unit ${value} stands in ${other} already.`);
  },
});
