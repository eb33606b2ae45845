import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { localDateTime } from "../../cli/logbook-options.ts";
import { sha256 } from "../../src/base/canonical/index.ts";
import {
  createLogbook,
  folderStore,
  history,
  type KeptDocument,
  type Logbook,
  readAttachment,
  readEntry,
  record,
  withdraw,
} from "../../src/logbook/entries/index.ts";
import { keyPairFromSeed } from "../../src/logbook/signing/index.ts";
import type { Configuration, Confirmation, Entry } from "../../src/model/index.ts";
import { asLeft, changed } from "../logbook/restore/documents.ts";
import { runCommand } from "./run-command.ts";

const root = mkdtempSync(join(tmpdir(), "restore-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));

const profiles = join(import.meta.dirname, "..", "..", "samples", "profiles");
const screen = ["--site", asLeft.screen.siteId, "--screen", asLeft.screen.screenId, "--profiles", profiles];
const unit = ["--serial", "G28-004519", "--firmware", asLeft.unit.firmware];

let cwd = "";
let logbook: Logbook;
let count = 0;

beforeEach(() => {
  cwd = join(root, String(count++));
  logbook = createLogbook(folderStore(join(cwd, "book")), {
    id: "0b4ff3a0-6c59-4e1d-9c1c-3c8a6f1f7d11",
    startedAt: "2026-03-01T10:00:00+01:00",
  });
});

function keep(configuration: Configuration, reason: Entry["reason"] = "as-left"): string {
  return record(logbook, {
    configuration: configuration as unknown as KeptDocument,
    reason,
    recordedAt: "2026-03-02T23:40:00+01:00",
    recordedBy: "Service team",
  }).id;
}

const restore = (...args: readonly string[]) =>
  runCommand(["restore", "book", ...screen, "--out", "to-load.json", ...args], { cwd });
const confirm = (...args: readonly string[]) =>
  runCommand(["confirm", "book", ...screen, "--by", "Service team", ...args], { cwd });

function readBackOf(configuration: Configuration, file = "read-back.json"): string {
  writeFileSync(join(cwd, file), JSON.stringify(configuration));
  return file;
}

const writtenFile = () => JSON.parse(readFileSync(join(cwd, "to-load.json"), "utf8")) as Configuration;

const louder = changed(asLeft, ({ outputs }) => {
  outputs[0]!.gainDb += 1;
});

describe("restore", () => {
  it("writes the last settings as left, for the unit at hand, and a sheet to work by", async () => {
    keep(louder);
    const id = keep(asLeft);
    keep(louder, "as-found");
    const { out, err, code } = await restore(...unit);
    expect([code, err]).toEqual([0, ""]);
    expect(writtenFile()).toEqual({ ...asLeft, unit: { ...asLeft.unit, serial: "G28-004519" } });
    const sheet = readFileSync(join(cwd, "to-load.sheet.txt"), "utf8");
    expect(out).toContain(sheet.trimEnd());
    expect(sheet).toContain("CAUTION");
    expect(sheet.replaceAll(/\s/g, "")).toContain(id);
    expect(sheet.replaceAll(/\s/g, "")).toContain(sha256(readFileSync(join(cwd, "to-load.json"))));
    expect(sheet).toContain("A newer entry exists: 3 (as found");
    expect(Math.max(...out.split("\n").map((line) => [...line].length))).toBeLessThanOrEqual(80);
  });

  it("takes the entry that is named", async () => {
    const id = keep(louder);
    keep(asLeft);
    expect((await restore(...unit, "--entry", id.slice(0, 10))).code).toBe(0);
    expect(writtenFile().outputs[0]!.gainDb).toBe(louder.outputs[0]!.gainDb);
  });

  it("does not go back behind an entry that is damaged on the disk, unless told which one to take", async () => {
    keep(louder);
    const newest = changed(asLeft, ({ outputs }) => {
      outputs[0]!.gainDb -= 7;
    });
    keep(newest);
    const { items } = history(logbook);
    const folder = join(cwd, "book");
    const damaged = allFiles(folder).filter((file) => file.includes(items[1]!.id));
    for (const file of damaged) {
      const bytes = readFileSync(file);
      if (bytes.length > 40) bytes[bytes.length >> 1]! ^= 0xff;
      writeFileSync(file, bytes);
    }
    expect(damaged.length).toBeGreaterThan(0);
    const { code, err } = await restore(...unit);
    expect(code).toBe(3);
    expect(err).toContain("restore.newer-unseen");
    expect(err).toContain("1 record of lantern-mill / screen-1 is damaged.");
    expect(existsSync(join(cwd, "to-load.json"))).toBe(false);
    const older = /--entry ([0-9a-f]+)/.exec(err.replace(/\s+/g, " "))![1]!;
    const named = await restore(...unit, "--entry", older);
    expect(named.code).toBe(0);
    expect(named.out).toContain("1 record of lantern-mill / screen-1 is damaged.");
    expect(writtenFile().outputs[0]!.gainDb).toBe(louder.outputs[0]!.gainDb);
  });

  it("writes nothing into a unit of another model, nor for firmware outside the range", async () => {
    keep(asLeft);
    const other = await restore(...unit, "--unit", "whimbrel-32");
    expect(other.code).toBe(1);
    expect(other.out).toContain("No file was written");
    const firmware = await restore("--serial", "S", "--firmware", "99.0.0");
    expect(firmware.code).toBe(1);
    expect(readdirSync(cwd)).toEqual(["book"]);
    expect(
      (await restore("--serial", "S", "--firmware", "99.0.0", "--accept", "restore/firmware-outside-range"))
        .code,
    ).toBe(0);
    expect(writtenFile().unit.firmware).toBe("99.0.0");
  });

  it("refuses to accept what nobody may overrule", async () => {
    keep(asLeft);
    const { code, err } = await restore("--accept", "restore/other-model");
    expect(code).toBe(2);
    expect(err).toContain("cannot be accepted");
  });

  it("writes nothing over", async () => {
    keep(asLeft);
    writeFileSync(join(cwd, "to-load.json"), "mine");
    const { code, err } = await restore(...unit);
    expect(code).toBe(2);
    expect(err).toContain("output.exists");
    expect(readFileSync(join(cwd, "to-load.json"), "utf8")).toBe("mine");
    expect(existsSync(join(cwd, "to-load.sheet.txt"))).toBe(false);
  });

  it("says 3 when no entry can be trusted, 2 for no logbook", async () => {
    keep(asLeft, "as-found");
    const none = await restore(...unit);
    expect(none.code).toBe(3);
    expect(none.err).toContain("--entry ID");
    const nowhere = await runCommand(["restore", "nowhere", ...screen, "--out", "x.json"], { cwd });
    expect(nowhere.code).toBe(2);
  });

  it("does not take what was withdrawn, unless named and accepted", async () => {
    const id = keep(asLeft);
    withdraw(
      logbook,
      { id },
      {
        reason: "Wrong screen.",
        recordedAt: "2026-03-03T10:00:00+01:00",
        recordedBy: "Service team",
      },
    );
    expect((await restore(...unit)).code).toBe(3);
    const named = await restore(...unit, "--entry", id);
    expect(named.code).toBe(1);
    expect(named.out).toContain("Wrong screen.");
    expect((await restore(...unit, "--entry", id, "--accept", "restore/entry-withdrawn")).code).toBe(0);
  });

  it("prints one JSON document", async () => {
    const id = keep(asLeft);
    const { out } = await restore(...unit, "--json");
    const result = JSON.parse(out) as {
      entryId: string;
      written: { sha256: string };
      findings: { code: string }[];
    };
    expect(result.entryId).toBe(id);
    expect(result.findings.map(({ code }) => code)).toEqual(["restore/other-serial"]);
    expect(result.written.sha256).toBe(sha256(readFileSync(join(cwd, "to-load.json"))));
  });
});

function allFiles(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .map((name) => join(folder, name))
    .filter((file) => statSync(file).isFile());
}

describe("confirm", () => {
  it("says that the unit holds what was loaded, and records what was read back with what was to be loaded", async () => {
    const id = keep(asLeft);
    await restore(...unit);
    const readBack = changed(writtenFile(), (draft) => {
      draft.outputs[0]!.gainDb += 0.03;
      delete draft.calibration;
    });
    const { out, err, code } = await confirm("--intended", "to-load.json", readBackOf(readBack));
    expect([code, err]).toEqual([0, ""]);
    expect(out).toContain("some numbers were rounded to its steps");
    const { items } = history(logbook);
    expect(items.map(({ entry }) => entry.reason)).toEqual(["as-left", "after-swap"]);
    const recorded = readEntry(logbook, { id: items[1]!.id });
    expect(recorded.configuration).toEqual(readBack);
    expect(recorded.entry.recordedAt).toBe(localDateTime(new Date("2026-11-02T22:15:00Z")));
    expect(recorded.entry.notes).toContain("1 numbers rounded");
    const [toBeLoaded, confirmation] = recorded.entry.attachments!.map(({ name, sha256: hash }) => ({
      name,
      document: JSON.parse(new TextDecoder().decode(readAttachment(logbook, hash))) as unknown,
    }));
    expect(toBeLoaded).toEqual({ name: "to-be-loaded.json", document: writtenFile() });
    expect(confirmation!.name).toBe("confirmation.json");
    expect((confirmation!.document as Confirmation).verdict).toBe("within-steps");
    expect(items[0]!.id).toBe(id);
  });

  it("says that it does not, tells what, and records that too", async () => {
    keep(asLeft);
    const readBack = changed(asLeft, ({ outputs }) => {
      delete outputs[2]!.highPass;
    });
    const { out, code } = await confirm(readBackOf(readBack));
    expect(code).toBe(1);
    expect(out).toContain("does NOT hold");
    expect(out).toContain("Screen left, hf way");
    expect(history(logbook).items.at(-1)!.entry.notes).toContain(
      "does not hold what was to be loaded: 1 differences",
    );
  });

  it("compares with the entry where no file is named, whatever unit stands in the booth now", async () => {
    const id = keep(asLeft);
    const readBack = changed(asLeft, (draft) => {
      draft.unit.serial = "G28-004519";
    });
    const { out, code } = await confirm(readBackOf(readBack), "--json");
    expect(code).toBe(0);
    const { confirmation } = JSON.parse(out) as { confirmation: Confirmation };
    expect(confirmation.intended.entryId).toBe(id);
    expect(confirmation.verdict).toBe("equal");
  });

  it("says what is odd about the unit itself: firmware that its profile does not hold for", async () => {
    keep(asLeft);
    const readBack = changed(asLeft, (draft) => {
      draft.unit.firmware = "9.0.0";
    });
    const { out, code } = await confirm(readBackOf(readBack));
    expect(code).toBe(0);
    const words = out.replace(/\s+/gu, " ");
    expect(words).toContain("The unit runs 9.0.0; its profile holds for >=2.1.0 <3.0.0.");
  });

  it("signs and dates what it records, as asked", async () => {
    keep(asLeft);
    writeFileSync(join(cwd, "key.pem"), keyPairFromSeed(new Uint8Array(32).fill(7)).privateKeyPem);
    const at = "2026-11-02T23:59:00+01:00";
    const { out, code } = await confirm(readBackOf(asLeft), "--key", "key.pem", "--at", at);
    expect([code, out.includes("after swap, signed")]).toEqual([0, true]);
    const recorded = history(logbook).items.at(-1)!;
    expect(recorded.entry.recordedAt).toBe(at);
    expect(recorded.signatures).toHaveLength(1);
    expect((await confirm(readBackOf(asLeft), "--key", "missing.pem")).code).toBe(2);
    expect(history(logbook).items).toHaveLength(2);
  });

  it("refuses the read-back of another screen and records nothing", async () => {
    keep(asLeft);
    const other = changed(asLeft, (draft) => {
      draft.screen.screenId = "screen-9";
    });
    const { code, err } = await confirm(readBackOf(other));
    expect(code).toBe(2);
    expect(err).toContain("screen-9");
    expect(history(logbook).items).toHaveLength(1);
  });
});
