import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { canonicalHash, canonicalText, sha256 } from "../../../src/base/canonical/index.ts";
import { BoothkeepError } from "../../../src/base/errors/index.ts";
import {
  bindLogbook,
  createLogbook,
  healLogbook,
  history,
  type KeptDocument,
  memoryLogbook,
  memoryStore,
  openLogbook,
  readEntry,
  record,
  verifyLogbook,
} from "../../../src/logbook/entries/index.ts";
import { editsBetween, pieces } from "../../../src/logbook/medium/edits.ts";
import { packLines } from "../../../src/logbook/medium/gzip-lines.ts";
import { fileName } from "../../../src/logbook/medium/layout.ts";
import { editedLine, wholeLine } from "../../../src/logbook/medium/records.ts";
import { LONG, runs } from "../../runs.ts";
import { circumstances, configuration, NEW_LOGBOOK } from "./support/documents.ts";

const VISITS = [
  configuration(),
  configuration({ outputs: [{ id: "left-hf", gainDb: -2 }] }),
  configuration({ outputs: [{ id: "left-hf", gainDb: -2.5 }] }),
];

type Files = Map<string, Uint8Array>;

/** A small logbook with three visits of a screen and one of another; the first two visits are bound. */
function smallLogbook(): { readonly files: Files; readonly kept: ReadonlyMap<string, KeptDocument> } {
  const files: Files = new Map();
  const logbook = createLogbook(memoryStore(files), NEW_LOGBOOK);
  const kept = new Map<string, KeptDocument>();
  const keep = (document: KeptDocument, minute: number) =>
    kept.set(record(logbook, { configuration: document, ...circumstances(minute) }).id, document);
  keep(VISITS[0]!, 0);
  keep(VISITS[1]!, 1);
  bindLogbook(logbook);
  keep(VISITS[2]!, 2);
  keep(configuration({}, { siteId: "quay", serial: "T16-00420" }), 3);
  return { files, kept };
}

const { files, kept } = smallLogbook();
const paths = [...files.keys()].filter((path) => !path.startsWith("register/"));

function withFile(path: string, bytes: Uint8Array | undefined): Files {
  const changed = new Map(files);
  if (bytes === undefined) changed.delete(path);
  else changed.set(path, bytes);
  return changed;
}

/** Codes that a damaged logbook may answer with instead of a configuration. */
const HONEST = [
  "logbook.no-entry",
  "logbook.damaged-records",
  "logbook.lost-configuration",
  "logbook.damaged-header",
  "document.newer-version",
];

/**
 * Reads everything of a damaged logbook: each entry gives its own configuration or an honest error; what is found is
 * returned.
 */
function examine(
  damaged: Files,
  where: string,
): { readonly errors: readonly string[]; readonly lost: number } {
  const store = memoryStore(damaged);
  try {
    const logbook = openLogbook(store);
    let lost = 0;
    for (const [id, document] of kept) {
      try {
        expect(readEntry(logbook, { id }).canonicalText, where).toBe(canonicalText(document));
      } catch (error) {
        if (!(error instanceof BoothkeepError)) throw error;
        expect(HONEST, where).toContain(error.code);
        lost += 1;
      }
    }
    for (const { id } of history(logbook).items) expect(kept.has(id), where).toBe(true);
    const { findings } = verifyLogbook(logbook, { depth: "files" });
    return { errors: findings.filter((f) => f.severity === "error").map((f) => f.words), lost };
  } catch (error) {
    if (!(error instanceof BoothkeepError)) throw error;
    expect(HONEST, where).toContain(error.code);
    return { errors: [error.message], lost: 0 };
  }
}

describe("a damaged logbook", () => {
  it("is sound to begin with", () => {
    expect(examine(files, "whole")).toEqual({ errors: [], lost: 0 });
    expect(paths.map((path) => path.split("/")[0])).toEqual(
      expect.arrayContaining(["bound", "entries", "references", "logbook.json"]),
    );
  });

  const bits = LONG ? [0, 1, 2, 3, 4, 5, 6, 7] : undefined;
  it.each(paths)(
    "shows every flipped byte of %s",
    (path) => {
      const whole = files.get(path)!;
      for (let at = 0; at < whole.length; at += 1) {
        for (const bit of bits ?? [at % 8]) {
          const bytes = whole.slice();
          bytes[at]! ^= 1 << bit;
          const where = `bit ${bit} of byte ${at} of ${path}`;
          const { errors } = examine(withFile(path, bytes), where);
          expect(
            errors.some((words) => words.includes(path)),
            where,
          ).toBe(true);
        }
      }
    },
    600_000,
  );

  it.each(paths)("shows %s cut at any length", (path) => {
    const whole = files.get(path)!;
    const step = LONG ? 1 : 7;
    for (let length = 0; length < whole.length; length += step) {
      const where = `${path} cut at ${length}`;
      const { errors } = examine(withFile(path, whole.slice(0, length)), where);
      expect(
        errors.some((words) => words.includes(path)),
        where,
      ).toBe(true);
    }
  });

  it.each(paths)("shows that %s is missing", (path) => {
    if (path === "logbook.json") {
      expect(() => openLogbook(memoryStore(withFile(path, undefined)))).toThrow(
        expect.objectContaining({ code: "logbook.damaged-header" }),
      );
      return;
    }
    const { errors } = examine(withFile(path, undefined), path);
    const subject = path.replace(/\.[0-9a-f]{16}\.gz$/, "");
    expect(errors.some((words) => words.includes(subject))).toBe(true);
  });

  it("names a record that is not in RFC 8785 form", () => {
    const logbook = createLogbook(memoryStore(), NEW_LOGBOOK);
    const { entry } = record(logbook, { configuration: configuration(), ...circumstances() });
    const text = JSON.stringify({ ...entry, notes: "Members in another order." });
    const bytes = packLines([text]);
    const folder = "entries/harbour-lights/screen-3";
    logbook.store.create(`${folder}/${fileName(sha256(text), bytes)}`, bytes);
    const codes = verifyLogbook(logbook, { depth: "contents" }).findings.map((finding) => finding.code);
    expect(codes).toContain("logbook/not-understood");
  });

  it("does not believe a line that leads to another configuration than it says, and takes another way", () => {
    const astray: Files = new Map();
    const logbook = createLogbook(memoryStore(astray), NEW_LOGBOOK);
    const [first, second] = [configuration({ outputs: [1] }), configuration({ outputs: [2] })];
    record(logbook, { configuration: first, ...circumstances(0) });
    const { id, entry } = record(logbook, {
      configuration: configuration({ outputs: [3] }),
      ...circumstances(1),
    });
    const keep = (...lines: readonly string[]) => {
      const bytes = packLines(lines);
      logbook.store.create(`entries/harbour-lights/screen-3/${fileName(sha256(lines[0]!), bytes)}`, bytes);
    };
    const edits = editsBetween(pieces(canonicalText(first)), pieces(canonicalText(second)));
    const forged = {
      ...entry,
      number: 3,
      previous: [id],
      configuration: canonicalHash(configuration({ outputs: [9] })),
    };
    const line = canonicalText(forged);
    keep(line, editedLine(forged.configuration, canonicalHash(first), edits));
    const read = () => readEntry(logbook, { id: sha256(line) }).configuration;
    expect(read).toThrow(expect.objectContaining({ code: "logbook.lost-configuration" }));
    expect(verifyLogbook(logbook, { depth: "contents" }).entries.lost.map((lost) => lost.number)).toEqual([
      3,
    ]);
    keep(line, wholeLine(canonicalText(configuration({ outputs: [9] }))));
    expect(read()).toEqual(configuration({ outputs: [9] }));
  });

  it("names an entry whose number does not follow the one before", () => {
    const { entry } = record(createLogbook(memoryStore(), NEW_LOGBOOK), {
      configuration: configuration(),
      ...circumstances(),
    });
    const next = { ...entry, previous: [canonicalHash(entry)] };
    const logbook = memoryLogbook(
      [entry, next].map((item) => ({ entry: item, configuration: configuration() })),
    );
    expect(verifyLogbook(logbook, { depth: "contents" }).findings.map((finding) => finding.code)).toEqual([
      "logbook/number-order",
    ]);
  });

  it("says that a mark of the register is missing", () => {
    for (const path of [...files.keys()].filter((name) => name.startsWith("register/"))) {
      const { findings } = verifyLogbook(openLogbook(memoryStore(withFile(path, undefined))), {
        depth: "files",
      });
      expect(
        findings.map((finding) => finding.code),
        path,
      ).toEqual(["logbook/unmarked-file"]);
    }
  });

  it("says that the mark of a bound file is damaged, which harms nothing", () => {
    const [path] = [...files.keys()].filter((name) => name.startsWith("register/bound/"));
    const whole = files.get(path!)!;
    for (let at = 0; at < whole.length; at += 1) {
      const bytes = whole.slice();
      bytes[at]! ^= 1 << (at % 8);
      const damaged = withFile(path!, bytes);
      expect(examine(damaged, `byte ${at}`), `byte ${at}`).toEqual({ errors: [], lost: 0 });
      const { findings } = verifyLogbook(openLogbook(memoryStore(damaged)), { depth: "files" });
      expect(findings, `byte ${at}`).toMatchObject([{ code: "logbook/damaged-mark", severity: "advice" }]);
      healLogbook(openLogbook(memoryStore(damaged)), undefined);
      expect(damaged.get(path!), `byte ${at}`).toEqual(whole);
    }
  });

  it("survives arbitrary changes of any file without a wrong word", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...paths),
        fc.nat(),
        fc.uint8Array({ minLength: 1, maxLength: 40 }),
        fc.boolean(),
        (path, position, patch, insert) => {
          const whole = files.get(path)!;
          const at = position % whole.length;
          const bytes = Uint8Array.from([
            ...whole.slice(0, at),
            ...patch,
            ...whole.slice(insert ? at : at + patch.length),
          ]);
          if (Buffer.compare(bytes, whole) === 0) return;
          const { errors } = examine(withFile(path, bytes), path);
          expect(errors.length).toBeGreaterThan(0);
        },
      ),
      { numRuns: runs(200, 5000) },
    );
  });

  it("keeps the other screens of a bound file readable when one is damaged", () => {
    const many: Files = new Map();
    const logbook = createLogbook(memoryStore(many), NEW_LOGBOOK);
    const ids = ["a", "b", "c"].map(
      (screenId) =>
        record(logbook, {
          configuration: configuration({ outputs: [screenId] }, { screenId }),
          ...circumstances(),
        }).id,
    );
    bindLogbook(logbook);
    const [path] = [...many.keys()].filter((name) => name.startsWith("bound/"));
    const bytes = many.get(path!)!;
    const hurt = { first: 0, last: 0 };
    for (let at = 0; at < bytes.length; at += 2) {
      const damaged = bytes.slice();
      damaged[at]! ^= 0x10;
      const opened = openLogbook(memoryStore(new Map(many).set(path!, damaged)));
      const lost = ids.filter((id) => {
        try {
          return readEntry(opened, { id }).id !== id;
        } catch {
          return true;
        }
      });
      expect(lost.length, `byte ${at}`).toBeLessThanOrEqual(1);
      if (lost[0] === ids[0]) hurt.first += 1;
      if (lost[0] === ids[2]) hurt.last += 1;
    }
    expect(hurt.first).toBeGreaterThan(25);
    expect(hurt.last).toBeGreaterThan(25);
  });
});

describe("heal", () => {
  let copy: Files;
  beforeAll(() => {
    copy = new Map(files);
  });

  it.each(paths.filter((path) => path !== "logbook.json"))(
    "brings %s back from another copy, damaged or gone",
    (path) => {
      const half = files.get(path)!.slice(0, files.get(path)!.length >> 1);
      for (const bytes of [undefined, half, files.get(path)!.map((byte) => byte ^ 1)]) {
        const damaged = withFile(path, bytes);
        const logbook = openLogbook(memoryStore(damaged));
        const report = healLogbook(logbook, openLogbook(memoryStore(new Map(copy))));
        expect(report.filesRestored).toEqual([path]);
        expect(damaged.get(path)).toEqual(files.get(path));
        const { findings } = verifyLogbook(logbook, { depth: "contents" });
        expect(findings).toEqual([]);
        const aside = [...damaged.keys()].filter((name) => name.startsWith("damaged/"));
        expect(aside.map((name) => damaged.get(name))).toEqual(bytes === undefined ? [] : [bytes]);
      }
    },
  );

  it("heals a damaged bound file from loose entries of another copy", () => {
    const loose: Files = new Map();
    const source = createLogbook(memoryStore(loose), NEW_LOGBOOK);
    const { id } = record(source, { configuration: configuration(), ...circumstances(0) });
    const bound: Files = new Map(loose);
    const logbook = openLogbook(memoryStore(bound));
    bindLogbook(logbook);
    const path = [...bound.keys()].find((name) => name.startsWith("bound/"))!;
    bound.set(
      path,
      bound.get(path)!.map((byte, index) => (index > 600 && index < 1200 ? byte ^ 255 : byte)),
    );
    expect(() => readEntry(logbook, { id })).toThrow(
      expect.objectContaining({ code: "logbook.damaged-records" }),
    );
    const report = healLogbook(logbook, source);
    expect(report).toMatchObject({ entriesAdded: 1, filesSetAside: [path] });
    expect(readEntry(logbook, { id }).configuration).toEqual(configuration());
    expect(
      verifyLogbook(logbook, { depth: "contents" }).findings.filter((f) => f.severity === "error"),
    ).toEqual([]);
  });

  it("leaves a damaged file where it is when nobody has what it held", () => {
    const path = paths.find((name) => name.startsWith("entries/"))!;
    const damaged = withFile(path, files.get(path)!.slice(3));
    const logbook = openLogbook(memoryStore(damaged));
    expect(healLogbook(logbook, undefined).filesSetAside).toEqual([]);
    expect(damaged.get(path)).toEqual(files.get(path)!.slice(3));
  });

  it("sets marks that are missing", () => {
    const unmarked: Files = new Map([...files].filter(([path]) => !path.startsWith("register/")));
    const logbook = openLogbook(memoryStore(unmarked));
    expect(healLogbook(logbook, undefined).marksSet).toBe(paths.length);
    expect(verifyLogbook(logbook, { depth: "files" }).findings).toEqual([]);
  });
});
