import { fitsStarsByPart } from "../../base/text/index.ts";
import type { Configuration, DecisionClass } from "../../model/index.ts";

/**
 * The class of a screen: the first that names it. Screens are named by site and screen id, a star stands for any text
 * without a slash.
 *
 * @example
 * screenClass(configuration.screen, [{ name: "large", screens: ["lantern-mill/*"], decisions: "large.json" }])?.name;
 */
export function screenClass(
  { siteId, screenId }: Pick<Configuration["screen"], "siteId" | "screenId">,
  classes: readonly DecisionClass[],
): DecisionClass | undefined {
  const name = `${siteId}/${screenId}`;
  return classes.find(({ screens }) => screens.some((pattern) => fitsStarsByPart(pattern, name)));
}
