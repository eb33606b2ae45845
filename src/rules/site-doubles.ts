import type { Configuration, DocumentPath } from "../model/index.ts";
import type { SiteBreach } from "./rule.ts";

/** One value of one screen that no other screen should have. */
export interface SiteUse {
  readonly screen: number;
  readonly path: DocumentPath;
  /** What must not stand twice. */
  readonly key: string;
  /** The value as printed. */
  readonly value: string;
}

/** Values that stand in two different screens, told at the later one. */
export function* siteDoubles(
  configurations: readonly Configuration[],
  uses: readonly SiteUse[],
  words: (value: string, otherScreen: string) => string,
): Iterable<SiteBreach> {
  const first = new Map<string, number>();
  for (const { screen, path, key, value } of uses) {
    const other = first.get(key);
    if (other === undefined) first.set(key, screen);
    else if (other !== screen && !isSameScreen(configurations[other]!, configurations[screen]!)) {
      const name = configurations[other]!.screen.screenName;
      yield { screen, path, words: words(value, name), numbers: { value, otherScreen: name } };
    }
  }
}

/** Two documents of one screen, as found and as left, are no two screens. */
function isSameScreen(a: Configuration, b: Configuration): boolean {
  return a.screen.siteId === b.screen.siteId && a.screen.screenId === b.screen.screenId;
}
