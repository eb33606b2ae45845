import { set } from "../edits.ts";
import { COMMON_PRACTICE, siteRule } from "../rule.ts";

export const screenNameTwice = siteRule({
  code: "operation/screen-name-twice",
  kind: "record",
  severity: "warning",
  title: "No two screens of a site have the same name.",
  why: "The pack for one screen is carried to the other.",
  source: COMMON_PRACTICE,
  remedy: "Rename one of them as the sign at its door says.",
  example: {
    breaks: [set("/screen/screenName", "Screen 1")],
    mends: [set("/screen/screenName", "Screen 2")],
  },
  *check(configurations) {
    for (const [screen, { screen: own }] of configurations.entries()) {
      const other = configurations
        .slice(0, screen)
        .find(
          ({ screen: { siteId, screenId, screenName } }) =>
            siteId === own.siteId && screenId !== own.screenId && screenName === own.screenName,
        );
      if (other === undefined) continue;
      yield {
        screen,
        path: ["screen", "screenName"],
        words: `Screen ${other.screen.screenId} of ${own.siteName} is called ${own.screenName} too.`,
        numbers: { screenName: own.screenName, otherScreenId: other.screen.screenId },
      };
    }
  },
});
