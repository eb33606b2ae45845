import { describe, expect, it } from "vitest";
import { BoothkeepError } from "../../../src/base/errors/index.ts";
import {
  bindLogbook,
  createLogbook,
  type FileStore,
  findEntries,
  history,
  memoryStore,
  openLogbook,
  readEntry,
  readPolicy,
  record,
  verifyLogbook,
} from "../../../src/logbook/entries/index.ts";
import { LONG } from "../../runs.ts";
import { circumstances, configuration, NEW_LOGBOOK } from "./support/documents.ts";
import {
  CHANGING,
  countOperations,
  fatStore,
  faultyStore,
  LOOKING,
  watchedStore,
} from "./support/faulty-store.ts";
import { expectKept, expectSound, noPromises, otherLogbook, runScenario } from "./support/scenario.ts";

const CODES = ["ENOSPC", "EIO", "EROFS", "EACCES", "EPERM", "EBUSY", "EMFILE", "EDQUOT"] as const;

/** Runs the scenario while an operation fails; what was promised must hold once the medium works again. */
function failAt(failAt: number, code: string, forever: boolean): void {
  const medium = memoryStore();
  const promises = noPromises();
  const where = `operation ${failAt} fails with ${code}${forever ? " for good" : ""}`;
  try {
    runScenario(faultyStore(medium, { failAt, code, forever }), promises);
  } catch (error) {
    expect(error, where).toBeInstanceOf(BoothkeepError);
  }
  expectSound(medium, promises, where);
}

describe("a medium that fails", () => {
  const operations = countOperations(memoryStore(), (store) => runScenario(store, noPromises()));

  it("at any writing operation, once or for good, harms nothing that was recorded", () => {
    for (let at = 1; at <= operations; at += 1) {
      failAt(at, CODES[at % CODES.length]!, at % 2 === 0);
    }
  });

  it.runIf(LONG).each(CODES)(
    "at any writing operation with %s harms nothing",
    (code) => {
      for (let at = 1; at <= operations; at += 1)
        for (const forever of [false, true]) failAt(at, code, forever);
    },
    600_000,
  );

  it("at any reading operation gives an error in words or tells what is missing", () => {
    const medium = memoryStore();
    const promises = noPromises();
    runScenario(medium, promises);
    const readAll = (store: FileStore) => void verifyLogbook(openLogbook(store), { depth: "contents" });
    const looks = countOperations(medium, readAll, LOOKING);
    for (let at = 1; at <= looks; at += 3) {
      const store = faultyStore(medium, { failAt: at, code: "EIO", operations: LOOKING });
      try {
        const { findings } = verifyLogbook(openLogbook(store), { depth: "contents" });
        expect(
          findings.some((finding) => finding.severity === "error"),
          `reading ${at}`,
        ).toBe(true);
      } catch (error) {
        expect(error, `reading ${at}`).toMatchObject({ name: "BoothkeepError", code: "output.failed" });
      }
    }
    expectKept(openLogbook(medium), promises, "afterwards");
  });

  it.each([
    ["ENOSPC", "output.no-space"],
    ["EDQUOT", "output.no-space"],
    ["EROFS", "output.read-only"],
    ["EACCES", "input.no-permission"],
    ["EPERM", "input.no-permission"],
    ["EBUSY", "output.failed"],
    ["ENODEV", "output.failed"],
  ])("says %s as %s", (code, expected) => {
    const medium = memoryStore();
    const logbook = createLogbook(medium, NEW_LOGBOOK);
    const store = faultyStore(medium, { failAt: 1, code, forever: true });
    const broken = { ...logbook, store };
    expect(() => record(broken, { configuration: configuration(), ...circumstances() })).toThrow(
      expect.objectContaining({ code: expected, next: expect.stringMatching(/./) }),
    );
  });

  it("that gives back other bytes than were written is named", () => {
    const medium = memoryStore();
    const logbook = createLogbook(medium, NEW_LOGBOOK);
    const lying: FileStore = {
      ...medium,
      read: (path) => (path.startsWith("references/") ? medium.read(path).fill(0) : medium.read(path)),
    };
    expect(() =>
      record({ ...logbook, store: lying }, { configuration: configuration(), ...circumstances() }),
    ).toThrow("What was written does not read back the same.");
  });
});

describe("a bound file that does not give back what was put into it", () => {
  it("costs nothing: the single files stay", () => {
    const medium = memoryStore();
    const logbook = createLogbook(medium, NEW_LOGBOOK);
    const { id } = record(logbook, { configuration: configuration(), ...circumstances() });
    let reads = 0;
    const lying: FileStore = {
      ...medium,
      read(path) {
        const bytes = medium.read(path);
        if (!path.startsWith("bound/")) return bytes;
        reads += 1;
        // Right when it is compared byte by byte, wrong when it is opened.
        return reads === 1 ? bytes : bytes.fill(0, 300, 900);
      },
    };
    expect(() => bindLogbook({ ...logbook, store: lying })).toThrow(
      "does not give back what was put into it",
    );
    expect(medium.list("entries/harbour-lights/screen-3")).toHaveLength(1);
    expect(readEntry(logbook, { id }).configuration).toEqual(configuration());
  });
});

describe("a medium that cannot be written", () => {
  it("can be read by every reading command", () => {
    const medium = memoryStore();
    const promises = noPromises();
    runScenario(medium, promises);
    const store = watchedStore(medium, CHANGING, ({ operation, path }) => {
      throw new Error(`reading calls ${operation} on ${path}`);
    });
    const logbook = openLogbook(store);
    expectKept(logbook, promises, "read-only");
    expect(verifyLogbook(logbook, { depth: "contents" }).entries.lost).toEqual([]);
    expect(readPolicy(logbook).restoreNeedsSignature).toBe(false);
    const query = { place: { kind: "field", field: "gainDb" }, value: { kind: "equal", value: -2 } } as const;
    expect(findEntries(logbook, query).hits.length).toBeGreaterThan(0);
  });
});

describe("a medium with the manners of FAT", () => {
  it("serves like any other", () => {
    const promises = noPromises();
    const store = fatStore(memoryStore());
    runScenario(store, promises);
    expectSound(store, promises, "FAT");
    expect(history(openLogbook(store)).items.length).toBeGreaterThan(promises.entries.size - 1);
  });

  it("keeps screens apart whose ids differ by case only", () => {
    const logbook = createLogbook(fatStore(memoryStore()), NEW_LOGBOOK);
    for (const screenId of ["screen-a", "Screen-A", "SCREEN-A", "con", "a.b", "a_b"]) {
      record(logbook, { configuration: configuration({}, { screenId }), ...circumstances() });
    }
    const { items } = history(logbook);
    expect(items.map((item) => [item.entry.screenId, item.entry.number])).toEqual(
      ["SCREEN-A", "Screen-A", "a.b", "a_b", "con", "screen-a"].map((screenId) => [screenId, 1]),
    );
    expect(readEntry(logbook, { siteId: "harbour-lights", screenId: "Screen-A" }).configuration).toEqual(
      configuration({}, { screenId: "Screen-A" }),
    );
  });
});

describe("a stick that is pulled", () => {
  it("leaves what was recorded, whatever it was pulled from", () => {
    expect(history(otherLogbook()).items).toHaveLength(1);
    const medium = memoryStore();
    const promises = noPromises();
    const total = countOperations(memoryStore(), (store) => runScenario(store, noPromises()), [
      ...CHANGING,
      ...LOOKING,
    ]);
    for (const share of [0.2, 0.5, 0.8]) {
      const store = faultyStore(medium, {
        failAt: Math.floor(total * share),
        code: "ENODEV",
        forever: true,
        operations: [...CHANGING, ...LOOKING],
      });
      expect(() => runScenario(store, promises)).toThrow(BoothkeepError);
      expectKept(openLogbook(medium), promises, `pulled at ${share}`);
    }
  });
});
