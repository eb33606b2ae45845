import { BoothkeepError, type Configuration } from "../src/public/boothkeep.ts";

/**
 * A configuration of another screen would be compared with, or recorded under, the wrong name.
 * @throws BoothkeepError usage.wrong
 */
export function requireScreen(
  { screen }: Configuration,
  file: string,
  wish: { readonly site: string; readonly screen: string },
): void {
  if (screen.siteId === wish.site && screen.screenId === wish.screen) return;
  throw new BoothkeepError(
    "usage.wrong",
    `'${file}' is of site '${screen.siteId}', screen '${screen.screenId}', not of '${wish.site}', '${wish.screen}'.`,
    { place: { file, pointer: "/screen" }, next: "Name the right screen, or read out the right unit." },
  );
}
