import { BoothkeepError } from "../../base/errors/index.ts";
import type { Finding } from "../../base/findings/index.ts";
import {
  anyRecord,
  BOUND,
  boundBytes,
  boundContent,
  boundMark,
  configurationResolver,
  ENTRIES,
  type FileStore,
  fileName,
  folderName,
  type KeptConfiguration,
  type KeptFile,
  keepFile,
  keepMark,
  type Logbook,
  markStem,
  memoryStore,
  REGISTER,
  readFolder,
  readLines,
  readScreen,
  removeIfThere,
  removeMarks,
  type ScreenPlace,
  type ScreenRecords,
  screenPlaces,
  sweepUnfinished,
  unpackLines,
  withStore,
} from "../medium/index.ts";

/** Which sites are bound. */
export interface BindOptions {
  /** Only this site; every site without it. */
  readonly siteId?: string;
  /** Called after each site. */
  readonly onProgress?: (done: number, total: number) => void;
}

/** What a binding came to. */
export interface BindReport {
  /** Sites whose entries were gathered; a site with nothing new is left as it is. */
  readonly sites: readonly BoundSite[];
  readonly findings: readonly Finding[];
}

/** A site whose records lie in one file now. */
export interface BoundSite {
  readonly siteId: string;
  readonly screens: number;
  readonly entries: number;
  readonly sizeBytes: number;
  /** Files whose content is in the bound file now and that were removed. */
  readonly filesRemoved: number;
}

/**
 * Gathers the entries of a site into one file: fewer and fuller blocks on small media. The bound file is read back
 * and every configuration put together from it alone before anything is removed, and only files that were gathered
 * are removed. Others may read and record meanwhile; damaged files stay where they are. May be interrupted at any
 * moment.
 *
 * @throws BoothkeepError output.no-space, output.read-only, input.no-permission, output.failed
 */
export function bindLogbook(logbook: Logbook, options: BindOptions = {}): BindReport {
  const { store } = logbook;
  return withStore(store, "", () => {
    const places = screenPlaces(store, options.siteId === undefined ? {} : { siteId: options.siteId });
    const sites = [...new Set(places.map((place) => place.site))];
    const bound: BoundSite[] = [];
    const findings: Finding[] = [];
    for (const [index, site] of sites.entries()) {
      const report = bindSite(
        store,
        site,
        places.filter((place) => place.site === site),
        findings,
      );
      if (report !== undefined) bound.push(report);
      options.onProgress?.(index + 1, sites.length);
    }
    return { sites: bound, findings };
  });
}

interface GatheredScreen {
  readonly place: ScreenPlace;
  readonly records: ScreenRecords;
  /** The screen's own files as they were when its records were read. */
  readonly files: readonly KeptFile[];
}

function bindSite(
  store: FileStore,
  site: string,
  places: readonly ScreenPlace[],
  findings: Finding[],
): BoundSite | undefined {
  const earlier = readFolder(store, BOUND, (stem) => stem === site).files;
  const screens = places.map((place): GatheredScreen => {
    const { files } = readFolder(store, folderOf(place));
    return { place, files, records: readScreen(store, place) };
  });
  findings.push(...screens.flatMap(({ records }) => records.findings));
  const siteId = screens.map(({ records }) => anyRecord(records)?.siteId).find((id) => id !== undefined);
  const nothingNew = earlier.length === 1 && screens.every(({ files }) => files.length === 0);
  if (siteId === undefined || nothingNew) return undefined;

  const content = boundContent(
    store,
    siteId,
    screens.map(({ records }) => records),
  );
  const bytes = boundBytes(content);
  const name = fileName(site, bytes);
  keepFile(store, BOUND, name, bytes);
  const records = content.screens.flatMap(({ screenId, ids }) =>
    ids.map((id) => ({ screen: folderName(screenId), id })),
  );
  keepMark(store, BOUND, markStem(BOUND, name), boundMark(records));
  proveBound(store, name, screens);
  const filesRemoved =
    screens.reduce((sum, screen) => sum + removeGathered(store, screen), 0) +
    removeFiles(
      store,
      BOUND,
      earlier.filter((file) => file.path !== `${BOUND}/${name}`),
    );
  tidy(store, site);
  return {
    siteId,
    screens: screens.length,
    entries: screens.reduce((sum, { records }) => sum + records.entries.size, 0),
    sizeBytes: bytes.length,
    filesRemoved,
  };
}

function folderOf({ site, screen }: ScreenPlace): string {
  return `${ENTRIES}/${site}/${screen}`;
}

/** Reads the bound file back and puts every configuration together from it alone. */
function proveBound(store: FileStore, name: string, screens: readonly GatheredScreen[]): void {
  const path = `${BOUND}/${name}`;
  const alone = memoryStore(new Map([[path, store.read(path)]]));
  for (const { place, records } of screens) {
    const back = readScreen(alone, place);
    const resolve = configurationResolver(store, records);
    const resolveBack = configurationResolver(alone, back);
    const sameRecords = [...records.lines.keys()].every((id) => back.lines.has(id));
    const sameConfigurations = [...records.entries.values()].every(
      ({ configuration }) => resolve(configuration) === undefined || resolveBack(configuration) !== undefined,
    );
    if (!sameRecords || !sameConfigurations) {
      throw new BoothkeepError("output.failed", "The bound file does not give back what was put into it.", {
        place: { file: `${store.label}/${path}` },
        next: "Nothing was removed. Do not trust this medium: copy the logbook to another one.",
      });
    }
  }
}

/** Removes the files of a screen whose every line was gathered. */
function removeGathered(store: FileStore, { place, records, files }: GatheredScreen): number {
  const isGathered = (file: KeptFile) =>
    readLines(unpackLines(file.bytes))?.every((line) =>
      line.kind === "record" ? records.lines.has(line.item.id) : isKept(records, line.item),
    ) === true;
  return removeFiles(store, folderOf(place), files.filter(isGathered));
}

function isKept({ configurations }: ScreenRecords, { sha256, line }: KeptConfiguration): boolean {
  return configurations.get(sha256)?.some((way) => way.line === line) === true;
}

function removeFiles(store: FileStore, folder: string, files: readonly KeptFile[]): number {
  const names = files.map(({ path }) => path.slice(folder.length + 1));
  // Marks go first, and for good: a file without a mark is no alarm, a mark without a file is one.
  removeMarks(store, folder, names);
  for (const { path } of files) removeIfThere(store, path);
  return files.length;
}

function tidy(store: FileStore, site: string): void {
  sweepUnfinished(store, BOUND);
  for (const { name, kind } of store.list(`${ENTRIES}/${site}`)) {
    const folder = `${ENTRIES}/${site}/${name}`;
    if (kind !== "folder") continue;
    sweepUnfinished(store, folder);
    store.removeFolder(folder);
  }
  for (const folder of [`${ENTRIES}/${site}`, `${REGISTER}/${ENTRIES}/${site}`]) store.removeFolder(folder);
}
