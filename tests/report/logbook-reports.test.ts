import { describe, expect, it } from "vitest";
import {
  createLogbook,
  findEntries,
  findEntry,
  healLogbook,
  history,
  judgeSignatures,
  memoryStore,
  openLogbook,
  record,
  verifyLogbook,
  withdraw,
} from "../../src/logbook/entries/index.ts";
import { readPack, writePack } from "../../src/logbook/pack/index.ts";
import { keyPairFromSeed, publicKeyBytes } from "../../src/logbook/signing/index.ts";
import {
  entryReport,
  historyReport,
  logbookCheckReport,
  packReport,
  renderHtml,
  renderText,
  searchReport,
} from "../../src/report/index.ts";
import { circumstances, configuration, NEW_LOGBOOK } from "../logbook/entries/support/documents.ts";
import { packContent } from "../logbook/pack/support.ts";
import { expectGolden } from "./golden.ts";

const keys = keyPairFromSeed(new Uint8Array(32).fill(4));
const trusted = {
  name: "Head office",
  publicKey: Buffer.from(publicKeyBytes(keys.publicKeyPem)).toString("base64"),
};

/** Two screens, one of them recorded in two places apart, one entry withdrawn, one file damaged. */
function storyLogbook() {
  const files = new Map<string, Uint8Array>();
  const logbook = createLogbook(memoryStore(files), NEW_LOGBOOK);
  const visit = (minute: number, gainDb: number, screenId = "screen-3") =>
    record(logbook, {
      configuration: configuration({ outputs: [{ id: "left-hf", gainDb }] }, { screenId }),
      ...circumstances(minute),
      notes: "Left high way lowered.\nComplaint from row 4.",
      key: keys,
      attachments: [{ name: "unit export.xml", bytes: new Uint8Array(1200) }],
    });
  visit(0, -3);
  const before = new Map(files);
  const second = visit(1, -4);
  const apart = openLogbook(memoryStore(before));
  record(apart, { configuration: configuration(), ...circumstances(2), reason: "as-found" });
  for (const [path, bytes] of before) if (!files.has(path)) files.set(path, bytes);
  withdraw(
    logbook,
    { id: second.id },
    { reason: "Wrong microphone.", recordedAt: "2026-03-03T09:00:00+01:00", recordedBy: "Head office" },
  );
  const lost = visit(3, -1, "screen-4");
  const copy = new Map(files);
  const path = [...files.keys()].find((name) => name.startsWith("entries/") && name.includes(lost.id))!;
  files.set(
    path,
    files.get(path)!.map((byte, index) => (index === 80 ? byte ^ 1 : byte)),
  );
  return { logbook, copy: openLogbook(memoryStore(copy)), second };
}

describe("reports about a logbook", () => {
  const { logbook, copy, second } = storyLogbook();

  it("list entries", () => {
    expectGolden("logbook/history.txt", renderText(historyReport(history(logbook), "office logbook")));
    expectGolden(
      "logbook/history-none.txt",
      renderText(historyReport(history(logbook, { siteId: "x" }), "office logbook")),
    );
  });

  it("show an entry", () => {
    const { item, findings } = findEntry(logbook, { id: second.id });
    const verdicts = judgeSignatures(item.entry, item.signatures, [trusted]);
    const report = entryReport({ item, verdicts, isWhole: true, findings });
    expectGolden("logbook/entry.txt", renderText(report));
    expectGolden(
      "logbook/entry-lost.txt",
      renderText(entryReport({ item, verdicts: [], isWhole: false, findings: [] })),
    );
    expect(renderHtml(report)).toContain("Withdrawn: not to be used any more");
  });

  it("tell where a value was found", () => {
    const query = { place: { kind: "field", field: "gainDb" }, value: { kind: "range", max: -3 } } as const;
    expectGolden(
      "logbook/search.txt",
      renderText(searchReport(findEntries(logbook, query), "gainDb up to -3")),
    );
  });

  it("say what can be trusted, and what was healed", () => {
    const damaged = verifyLogbook(logbook, { depth: "contents" });
    expectGolden("logbook/check.txt", renderText(logbookCheckReport(damaged, undefined, "office logbook")));
    const quick = verifyLogbook(logbook, { depth: "files" });
    expectGolden(
      "logbook/check-quick.txt",
      renderText(logbookCheckReport(quick, undefined, "office logbook")),
    );
    const healed = healLogbook(logbook, copy);
    const sound = verifyLogbook(logbook, { depth: "contents" });
    expectGolden("logbook/check-healed.txt", renderText(logbookCheckReport(sound, healed, "office logbook")));
  });

  it("name what a pack holds", async () => {
    const pack = await readPack(await writePack(packContent({ key: keys })), { trustedKeys: [trusted] });
    expectGolden("logbook/pack.txt", renderText(packReport(pack.manifest, pack.signature)));
  });
});
