import type { FileStore } from "./file-store.ts";
import { BOUND, ENTRIES, POLICY, REGISTER } from "./layout.ts";
import type { ScreenPlace } from "./screen-records.ts";

/**
 * What the register says should be here. Lists each of its folders once, when it is first asked for; ask before the files
 * are listed, since whoever writes marks a file after it is there. A binding takes marks and then their files away: what
 * seems missing is looked up once more ({@link isStillMarked}).
 */
export class Register {
  private readonly folders = new Map<string, readonly string[]>();
  private readonly screens = new Map<string, ReadonlyMap<string, readonly string[]>>();
  private readonly store: FileStore;

  constructor(store: FileStore) {
    this.store = store;
  }

  /** Ids of the records of a screen that have a file of their own, or had one. */
  recordMarks({ site, screen }: ScreenPlace): readonly string[] {
    let own = this.screens.get(site);
    if (own === undefined) {
      own = byScreen(this.list(`${ENTRIES}/${site}`));
      this.screens.set(site, own);
    }
    return own.get(screen) ?? [];
  }

  /** Digests of the bound files of a site. */
  boundMarks(site: string): readonly string[] {
    return this.list(BOUND).flatMap((name) => {
      const [stem, digest] = name.split(".");
      return stem === site && digest !== undefined ? [digest] : [];
    });
  }

  /** `NUMBER.SHA256` of every policy. */
  policyMarks(): readonly string[] {
    return this.list(POLICY);
  }

  /** Whether a mark is there now, whatever was listed before. */
  isStillMarked(folder: string, name: string): boolean {
    return this.store.list(`${REGISTER}/${folder}`).some((item) => item.name === name);
  }

  private list(folder: string): readonly string[] {
    const known = this.folders.get(folder);
    if (known !== undefined) return known;
    const names = this.store.list(`${REGISTER}/${folder}`).map(({ name }) => name);
    this.folders.set(folder, names);
    return names;
  }
}

/** Marks of a site's records are `SCREEN.ID`. */
function byScreen(names: readonly string[]): ReadonlyMap<string, readonly string[]> {
  const ids = new Map<string, string[]>();
  for (const name of names) {
    const [screen, id] = name.split(".");
    if (screen === undefined || id === undefined) continue;
    const own = ids.get(screen);
    if (own === undefined) ids.set(screen, [id]);
    else own.push(id);
  }
  return ids;
}
