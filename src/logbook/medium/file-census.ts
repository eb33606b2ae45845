import { type FileStore, UNFINISHED } from "./file-store.ts";
import {
  BOUND,
  DAMAGED,
  ENTRIES,
  HEADER_FILE,
  PARTS,
  POLICY,
  parseFileName,
  REFERENCES,
  REGISTER,
} from "./layout.ts";

/** Every file of a logbook by what its name says, and what the register says should be there. */
export interface FileCensus {
  /** Folders that keep files, with the names of their files that follow the logbook's pattern. */
  readonly folders: ReadonlyMap<string, readonly string[]>;
  /** Marks of the register, as `FOLDER/STEM` of the files that they stand for; that of the header as its name. */
  readonly marks: ReadonlySet<string>;
  /** Files and folders that are none of the logbook's. */
  readonly strangers: readonly string[];
  readonly unfinished: readonly string[];
}

/** Lists all names of a logbook; reads no file. */
export function takeCensus(store: FileStore): FileCensus {
  return new CensusTaker(store).take();
}

/** Top-level folders by how many folders deep their files lie. */
const DEPTHS: Readonly<Record<string, number>> = {
  [ENTRIES]: 2,
  [BOUND]: 0,
  [REFERENCES]: 1,
  [PARTS]: 0,
  [POLICY]: 0,
};

class CensusTaker {
  private readonly folders = new Map<string, string[]>();
  private readonly marks = new Set<string>();
  private readonly strangers: string[] = [];
  private readonly unfinished: string[] = [];
  private readonly store: FileStore;

  constructor(store: FileStore) {
    this.store = store;
  }

  take(): FileCensus {
    for (const { name, kind } of this.store.list("")) {
      const depth = DEPTHS[name];
      if (kind === "folder" && depth !== undefined) this.files(name, depth);
      else if (kind === "folder" && name === REGISTER) this.register();
      else if (!(kind === "folder" && name === DAMAGED) && name !== HEADER_FILE) this.other(name);
    }
    const { folders, marks, strangers, unfinished } = this;
    return { folders, marks, strangers, unfinished };
  }

  private files(folder: string, depth: number): void {
    const names: string[] = [];
    for (const { name, kind } of this.store.list(folder)) {
      const path = `${folder}/${name}`;
      if (depth > 0 && kind === "folder") this.files(path, depth - 1);
      else if (depth === 0 && kind === "file" && parseFileName(name) !== undefined) names.push(name);
      else this.other(path);
    }
    if (depth === 0) this.folders.set(folder, names);
  }

  private register(): void {
    for (const { name, kind } of this.store.list(REGISTER)) {
      if (kind === "file" && name.startsWith(`${HEADER_FILE}.`)) this.marks.add(name);
      else if (kind !== "folder" || DEPTHS[name] === undefined) this.other(`${REGISTER}/${name}`);
    }
    for (const [top, depth] of Object.entries(DEPTHS)) {
      // Marks of a site's screens lie in one folder; see registerPlace.
      this.marksIn(`${REGISTER}/${top}`, Math.min(depth, 1));
    }
  }

  private marksIn(folder: string, depth: number): void {
    for (const { name, kind } of this.store.list(folder)) {
      if (depth > 0 && kind === "folder") {
        this.marksIn(`${folder}/${name}`, depth - 1);
      } else if (depth === 0 && kind === "file") {
        const marked = folder.slice(REGISTER.length + 1);
        const inEntries = marked.startsWith(`${ENTRIES}/`);
        this.marks.add(`${marked}/${inEntries ? name.replace(".", "/") : name}`);
      } else {
        this.other(`${folder}/${name}`);
      }
    }
  }

  private other(path: string): void {
    const name = path.slice(path.lastIndexOf("/") + 1);
    if (UNFINISHED.test(name)) this.unfinished.push(path);
    else this.strangers.push(path);
  }
}
