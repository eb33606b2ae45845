import type { Finding } from "../../base/findings/index.ts";
import { readBound } from "./bound-file.ts";
import { readBoundMark } from "./bound-mark.ts";
import { withStore } from "./faults.ts";
import type { FileStore } from "./file-store.ts";
import { readFolderOnce, readSteadily } from "./kept-files.ts";
import { BOUND, ENTRIES, folderName, REGISTER } from "./layout.ts";
import type { ScreenPlace } from "./screen-records.ts";

/** Which screens are wanted; what is left out does not restrict. */
export interface PlacesFilter {
  readonly siteId?: string;
  readonly screenId?: string;
}

export interface PlacesFound {
  /** By folder names, sorted. */
  readonly places: readonly ScreenPlace[];
  /**
   * Folder names of sites with a bound file that is missing, or does not say any more which screens it holds: they may
   * have screens that are not among the places.
   */
  readonly unlistedSites: readonly string[];
  /** Bound files that could not be read or trusted. */
  readonly findings: readonly Finding[];
}

/** The screens that a logbook may hold records of, by folder names, sorted. */
export function screenPlaces(store: FileStore, filter: PlacesFilter = {}): readonly ScreenPlace[] {
  return findPlaces(store, filter).places;
}

/** The same, with the sites whose screens cannot all be named. */
export function findPlaces(store: FileStore, { siteId, screenId }: PlacesFilter = {}): PlacesFound {
  const wantedSite = siteId === undefined ? undefined : folderName(siteId);
  const wantedScreen = screenId === undefined ? undefined : folderName(screenId);
  if (wantedSite !== undefined && wantedScreen !== undefined) {
    return { places: [{ site: wantedSite, screen: wantedScreen }], unlistedSites: [], findings: [] };
  }
  const wanted = ({ site, screen }: ScreenPlace) =>
    (wantedSite ?? site) === site && (wantedScreen ?? screen) === screen;
  return withStore(store, "", () =>
    readSteadily(() => {
      const marked = boundMarks(store, wantedSite);
      const loose = loosePlaces(store, wantedSite);
      const bound = boundPlaces(store, wantedSite, marked);
      const distinct = new Map(
        [...loose, ...bound.places].filter(wanted).map((place) => [`${place.site}/${place.screen}`, place]),
      );
      return {
        places: [...distinct.values()].sort(
          (a, b) => compareText(a.site, b.site) || compareText(a.screen, b.screen),
        ),
        unlistedSites: [...bound.unlisted].sort(),
        findings: bound.findings,
      };
    }),
  );
}

function loosePlaces(store: FileStore, wantedSite: string | undefined): ScreenPlace[] {
  const folders = (path: string) =>
    store
      .list(path)
      .filter((item) => item.kind === "folder")
      .map((item) => item.name);
  // A screen all of whose files were lost is still in the register.
  const marked = (path: string) => store.list(`${REGISTER}/${path}`);
  const sites =
    wantedSite === undefined
      ? new Set([...folders(ENTRIES), ...folders(`${REGISTER}/${ENTRIES}`)])
      : [wantedSite];
  return [...sites].flatMap((site) => {
    const screens = new Set(folders(`${ENTRIES}/${site}`));
    for (const { name } of marked(`${ENTRIES}/${site}`)) {
      const [screen, id] = name.split(".");
      if (screen !== undefined && id !== undefined) screens.add(screen);
    }
    return [...screens].map((screen) => ({ site, screen }));
  });
}

/** Marks of bound files, as `SITE.DIGEST`. */
function boundMarks(store: FileStore, wantedSite: string | undefined): readonly string[] {
  return store
    .list(`${REGISTER}/${BOUND}`)
    .map(({ name }) => name)
    .filter((name) => wantedSite === undefined || name.split(".")[0] === wantedSite);
}

function boundPlaces(
  store: FileStore,
  wantedSite: string | undefined,
  marks: readonly string[],
): {
  readonly places: ScreenPlace[];
  readonly unlisted: ReadonlySet<string>;
  readonly findings: readonly Finding[];
} {
  const { files, damaged, unreadable, findings } = readFolderOnce(
    store,
    BOUND,
    (stem) => (wantedSite ?? stem) === stem,
  );
  const unlisted = new Set<string>();
  const places: ScreenPlace[] = [];
  const fromMark = (mark: string) => {
    const site = mark.split(".")[0]!;
    const listed = readBoundMark(store, mark);
    if (listed === undefined) unlisted.add(site);
    for (const { screen } of listed ?? []) places.push({ site, screen });
  };
  for (const { stem, digest } of unreadable) fromMark(`${stem}.${digest}`);
  for (const file of [...files, ...damaged]) {
    const index = readBound(file.bytes)?.index;
    if (index === undefined) fromMark(`${file.stem}.${file.digest}`);
    for (const { screenId } of index?.members ?? []) {
      if (screenId !== undefined) places.push({ site: file.stem, screen: folderName(screenId) });
    }
  }
  const present = new Set(
    [...files, ...damaged, ...unreadable].map(({ stem, digest }) => `${stem}.${digest}`),
  );
  const isStillMarked = (mark: string) => boundMarks(store, mark.split(".")[0]).includes(mark);
  for (const mark of marks) {
    // A binding may have replaced the file since the marks were listed.
    if (!present.has(mark) && isStillMarked(mark)) fromMark(mark);
  }
  return { places, unlisted, findings: findings.filter(({ code }) => code !== "logbook/foreign-file") };
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
