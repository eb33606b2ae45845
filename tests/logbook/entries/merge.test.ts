import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  bindLogbook,
  createLogbook,
  healLogbook,
  history,
  type Logbook,
  memoryLogbook,
  memoryStore,
  mergeLogbook,
  openLogbook,
  type RecordedEntry,
  readAttachment,
  readEntry,
  readPolicy,
  record,
  setPolicy,
  verifyLogbook,
  withdraw,
} from "../../../src/logbook/entries/index.ts";
import { runs } from "../../runs.ts";
import { circumstances, configuration, NEW_LOGBOOK } from "./support/documents.ts";
import { randomFrom } from "./support/random.ts";

type Files = Map<string, Uint8Array>;

function fresh(): { readonly logbook: Logbook; readonly files: Files } {
  const files: Files = new Map();
  return { files, logbook: createLogbook(memoryStore(files), NEW_LOGBOOK) };
}

function visit(
  logbook: Logbook,
  minute: number,
  gainDb: number,
  screenId = "screen-3",
  siteId = "harbour-lights",
) {
  const document = configuration({ outputs: [{ id: "left-hf", gainDb }] }, { siteId, screenId });
  return record(logbook, { configuration: document, ...circumstances(minute) });
}

/** What a logbook says, whatever files it says it with. */
function sayings(logbook: Logbook): unknown {
  const { items, findings } = history(logbook);
  expect(findings).toEqual([]);
  return items.map((item) => ({ ...item, text: readEntry(logbook, { id: item.id }).canonicalText }));
}

function soundly(logbook: Logbook): Logbook {
  const errors = verifyLogbook(logbook, { depth: "contents" }).findings.filter(
    (finding) => finding.severity === "error",
  );
  expect(errors).toEqual([]);
  return logbook;
}

describe("merge", () => {
  it("brings over what is missing, once", () => {
    const [office, booth] = [fresh().logbook, fresh().logbook];
    visit(office, 0, -1);
    const { id } = visit(booth, 1, -2);
    withdraw(booth, { id }, { reason: "Wrong.", recordedAt: "2026-03-03T08:00:00Z", recordedBy: "north" });
    expect(mergeLogbook(office, booth)).toMatchObject({
      entriesAdded: 1,
      withdrawalsAdded: 1,
      signaturesAdded: 0,
      findings: [],
      // The other one was withdrawn: it contradicts nobody.
      forks: [],
    });
    expect(mergeLogbook(office, booth)).toMatchObject({ entriesAdded: 0, withdrawalsAdded: 0 });
    expect(history(soundly(office)).items).toHaveLength(2);
    visit(booth, 2, -3);
    const apart = fresh().logbook;
    visit(apart, 3, -4);
    expect(mergeLogbook(booth, apart).forks).toMatchObject([
      { siteId: "harbour-lights", latest: [{ number: 1 }, { number: 2 }] },
    ]);
  });

  it("gives the same whatever the order, bound or not", () => {
    const actions = fc.array(
      fc.record({
        who: fc.nat(2),
        screenId: fc.constantFrom("screen-1", "screen-2"),
        gainDb: fc.integer({ min: -3, max: 0 }),
        bound: fc.boolean(),
      }),
      { maxLength: 8 },
    );
    fc.assert(
      fc.property(actions, fc.nat(), (list, seed) => {
        const laptops = [fresh().logbook, fresh().logbook, fresh().logbook];
        for (const [minute, { who, screenId, gainDb, bound }] of list.entries()) {
          visit(laptops[who]!, minute, gainDb, screenId);
          if (bound) bindLogbook(laptops[who]!);
        }
        const [forth, back, chain] = [fresh().logbook, fresh().logbook, fresh().logbook];
        for (const laptop of laptops) mergeLogbook(forth, laptop);
        for (const laptop of [...laptops].reverse()) mergeLogbook(back, laptop);
        const chance = randomFrom(seed);
        const shuffled = laptops.map((laptop) => [chance(), laptop] as const).sort((a, b) => a[0] - b[0]);
        mergeLogbook(shuffled[1]![1], shuffled[0]![1]);
        mergeLogbook(shuffled[2]![1], shuffled[1]![1]);
        mergeLogbook(chain, shuffled[2]![1]);
        expect(sayings(soundly(back))).toEqual(sayings(soundly(forth)));
        expect(sayings(soundly(chain))).toEqual(sayings(forth));
        for (const laptop of laptops) mergeLogbook(laptop, forth);
        expect(laptops.map(sayings)).toEqual([sayings(forth), sayings(forth), sayings(forth)]);
      }),
      { numRuns: runs(25, 1000) },
    );
  });

  it("can be kept to a site or a screen", () => {
    const from = fresh().logbook;
    visit(from, 0, -1, "screen-1", "quay");
    visit(from, 1, -1, "screen-2", "quay");
    visit(from, 2, -1, "screen-1", "pier");
    const site = fresh().logbook;
    mergeLogbook(site, from, { only: { siteId: "quay" } });
    expect(history(soundly(site)).items.map(({ entry }) => entry.screenId)).toEqual(["screen-1", "screen-2"]);
    const screen = fresh().logbook;
    mergeLogbook(screen, from, { only: { siteId: "quay", screenId: "screen-2" } });
    expect(history(soundly(screen)).items.map(({ entry }) => entry.screenId)).toEqual(["screen-2"]);
  });

  it("brings what entries rest on: references and attachments", () => {
    const from = fresh().logbook;
    for (let index = 0; index < 7; index += 1) visit(from, index, -1 - index, `screen-${index}`);
    const bytes = new Uint8Array([1, 2, 3]);
    const { entry } = record(from, {
      configuration: configuration(),
      ...circumstances(50),
      attachments: [{ name: "export.bin", bytes }],
    });
    const into = fresh().logbook;
    mergeLogbook(into, from, { only: { siteId: "harbour-lights", screenId: "screen-6" } });
    mergeLogbook(into, from, { only: { siteId: "harbour-lights", screenId: "screen-3" } });
    expect(
      readEntry(soundly(into), { siteId: "harbour-lights", screenId: "screen-6" }).configuration,
    ).toEqual(configuration({ outputs: [{ id: "left-hf", gainDb: -7 }] }, { screenId: "screen-6" }));
    expect(readAttachment(into, entry.attachments![0]!.sha256)).toEqual(bytes);
  });

  it("keeps a configuration whose line was damaged here and is whole there", () => {
    const { files, logbook } = fresh();
    // Large enough that each visit is kept as edits to the one before.
    const large = (gainDb: number) =>
      configuration({ outputs: [{ id: "left-hf", gainDb }], presets: [...Array(2000).keys()] });
    const [, , third] = [-1, -2, -3].map((gainDb, minute) =>
      record(logbook, { configuration: large(gainDb), ...circumstances(minute) }),
    ) as [unknown, unknown, ReturnType<typeof record>];
    const copy = openLogbook(memoryStore(new Map(files)));
    for (const path of files.keys())
      if (/^entries\/.*\.gz$/.test(path) && !path.includes(third.id)) files.delete(path);
    expect(() => readEntry(logbook, { id: third.id })).toThrow(
      expect.objectContaining({ code: "logbook.lost-configuration" }),
    );
    mergeLogbook(logbook, copy);
    expect(readEntry(soundly(logbook), { id: third.id }).configuration).toEqual(large(-3));
  });

  it("brings a configuration to an entry that is here but has lost what it rests on", () => {
    const { files, logbook } = fresh();
    const large = (gainDb: number) => configuration({ outputs: [gainDb], presets: [...Array(2000).keys()] });
    const [, second, third] = [-1, -2, -3].map((gainDb, minute) =>
      record(logbook, { configuration: large(gainDb), ...circumstances(minute) }),
    ) as [unknown, RecordedEntry, RecordedEntry];
    files.delete([...files.keys()].find((path) => path.endsWith(".gz") && path.includes(second.id))!);
    const read = () => readEntry(logbook, { id: third.id }).configuration;
    expect(read).toThrow(expect.objectContaining({ code: "logbook.lost-configuration" }));
    const pack = memoryLogbook([{ entry: third.entry, configuration: large(-3) }]);
    expect(mergeLogbook(logbook, pack).entriesAdded).toBe(0);
    expect(read()).toEqual(large(-3));
  });

  it("is not led in a circle where each of two configurations is kept as edits to the other", () => {
    const [one, two] = [fresh().logbook, fresh().logbook];
    for (const [logbook, gains] of [
      [one, [1, 3]],
      [two, [3, 1]],
    ] as const) {
      for (const gainDb of gains) visit(logbook, gainDb, gainDb);
    }
    mergeLogbook(one, two);
    expect(sayings(soundly(one))).toHaveLength(4);
    bindLogbook(one);
    expect(sayings(soundly(one))).toHaveLength(4);
  });

  it("does not bring damaged records, nor the other one's policy", () => {
    const from = fresh();
    visit(from.logbook, 0, -1);
    const second = visit(from.logbook, 1, -2);
    setPolicy(from.logbook, {
      restoreNeedsSignature: true,
      trustedKeys: [{ name: "stranger", publicKey: Buffer.alloc(32).toString("base64") }],
      recordedAt: "2026-03-03T08:00:00Z",
      recordedBy: "stranger",
    });
    const path = [...from.files.keys()].find(
      (name) => name.startsWith("entries/") && name.includes(second.id),
    )!;
    from.files.get(path)![40]! ^= 1;
    const into = fresh().logbook;
    const report = mergeLogbook(into, from.logbook);
    expect(report.entriesAdded).toBe(1);
    expect(report.findings.map((finding) => finding.code)).toEqual(["logbook/damaged-file"]);
    expect(readPolicy(into)).toMatchObject({ restoreNeedsSignature: false, trustedKeys: [], findings: [] });
  });

  it("says how far it is", () => {
    const from = fresh().logbook;
    for (const screenId of ["a", "b", "c"]) visit(from, 0, -1, screenId);
    const said: string[] = [];
    mergeLogbook(fresh().logbook, from, { onProgress: (done, total) => said.push(`${done} of ${total}`) });
    expect(said).toEqual(["1 of 3", "2 of 3", "3 of 3"]);
  });
});

describe("two people who record apart", () => {
  it("leave two latest entries, which the next entry follows both", () => {
    const office = fresh().logbook;
    const common = visit(office, 0, 0);
    const booth = fresh().logbook;
    mergeLogbook(booth, office);
    const here = visit(office, 1, -1);
    const there = visit(booth, 2, -2);
    mergeLogbook(office, booth);
    expect(history(office).items.map((item) => [item.id, item.entry.number, item.isLatest])).toEqual([
      [common.id, 1, false],
      [here.id, 2, true],
      [there.id, 2, true],
    ]);
    expect(verifyLogbook(office, { depth: "contents" }).findings.map((finding) => finding.code)).toEqual([
      "logbook/recorded-apart",
    ]);
    const next = visit(office, 3, -3);
    expect(next.entry).toMatchObject({ number: 3, previous: [here.id, there.id].sort() });
    expect(verifyLogbook(office, { depth: "contents" }).findings).toEqual([]);
  });

  it("are put in order by their links, not by their clocks", () => {
    const logbook = fresh().logbook;
    const years = [
      "2107-12-31T23:59:58Z",
      "1970-01-01T00:00:00Z",
      "2026-03-02T22:00:00Z",
      "2026-03-02T21:00:00Z",
    ];
    const ids = years.map(
      (recordedAt, index) =>
        record(logbook, {
          ...circumstances(),
          recordedAt,
          configuration: configuration({ outputs: [index] }),
        }).id,
    );
    expect(history(logbook).items.map((item) => item.id)).toEqual(ids);
    expect(readEntry(logbook, { siteId: "harbour-lights", screenId: "screen-3" }).id).toBe(ids[3]);
  });
});

describe("a folder that a cloud drive syncs", () => {
  function synced(): Files {
    const { files, logbook } = fresh();
    for (let index = 0; index < 3; index += 1) visit(logbook, index, -index);
    bindLogbook(logbook);
    for (let index = 3; index < 5; index += 1) visit(logbook, index, -index);
    return files;
  }

  it("may have received any part in any order: what is there is whole, what is missing is named", () => {
    const files = synced();
    const whole = sayings(openLogbook(memoryStore(files)));
    fc.assert(
      fc.property(fc.shuffledSubarray([...files.keys()]), (arrived) => {
        const part: Files = new Map(arrived.map((path) => [path, files.get(path)!]));
        part.set("logbook.json", files.get("logbook.json")!);
        const logbook = openLogbook(memoryStore(part));
        for (const { id } of history(logbook).items) {
          try {
            expect(JSON.stringify(whole)).toContain(JSON.stringify(readEntry(logbook, { id }).canonicalText));
          } catch (error) {
            expect(error).toMatchObject({ code: "logbook.lost-configuration" });
          }
        }
        const { findings } = verifyLogbook(logbook, { depth: "contents" });
        const damage = findings.filter((finding) => /damaged|understood|foreign/.test(finding.code));
        expect(damage).toEqual([]);
        for (const [path, bytes] of files) part.set(path, bytes);
        expect(sayings(openLogbook(memoryStore(part)))).toEqual(whole);
      }),
      { numRuns: 60 },
    );
  });

  it.each([
    [
      "a copy beside the original",
      "logbook/renamed-copy",
      (name: string) => name.replace(".gz", " (1).gz"),
      true,
    ],
    [
      "a conflict copy whose original is missing",
      "logbook/stray-record",
      (name: string) => name.replace(".gz", ".sync-conflict-20260302.gz"),
      false,
    ],
  ])("names %s and never reads it as truth", (_what, code, rename, keepOriginal) => {
    const files = synced();
    const path = [...files.keys()].find((name) => name.startsWith("entries/"))!;
    const foreign = rename(path);
    files.set(foreign, files.get(path)!);
    if (!keepOriginal) files.delete(path);
    const logbook = openLogbook(memoryStore(files));
    expect(history(logbook).items).toHaveLength(keepOriginal ? 5 : 4);
    const found = verifyLogbook(logbook, { depth: "files" }).findings.find(
      (finding) => finding.code === code,
    );
    expect(found?.words).toContain(foreign);
    if (!keepOriginal) {
      expect(healLogbook(logbook, undefined).straysTakenIn).toEqual([foreign]);
      expect(history(logbook).items).toHaveLength(5);
    }
  });

  it("may hold foreign files anywhere: they are named and harm nothing", () => {
    const files = synced();
    const strangers = [
      "desktop.ini",
      "entries/.DS_Store",
      "entries/harbour-lights/notes.txt",
      "entries/harbour-lights/screen-3/photo.jpg",
      "bound/._site.gz",
      "references/tern-16/x.gz",
      "register/x",
      "other/deep/file",
    ];
    for (const path of strangers) files.set(path, new Uint8Array([1]));
    const logbook = openLogbook(memoryStore(files));
    expect(history(logbook).items).toHaveLength(5);
    const { findings } = verifyLogbook(logbook, { depth: "files" });
    expect(findings.map((finding) => [finding.code, finding.place.words]).sort()).toEqual(
      strangers.map((path) => ["logbook/foreign-file", path.replace("/deep/file", "")]).sort(),
    );
  });
});
