import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { REASON_CHOICES } from "../../cli/commands/record.ts";
import { localDateTime } from "../../cli/logbook-options.ts";
import { sha256 } from "../../src/base/canonical/index.ts";
import { folderStore, history, openLogbook, REASONS, readEntry } from "../../src/logbook/entries/index.ts";
import { keyPairFromSeed } from "../../src/logbook/signing/index.ts";
import { runCommand } from "./run-command.ts";

const root = mkdtempSync(join(tmpdir(), "logbook-commands-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));
const samples = join(import.meta.dirname, "../../samples");
const screenFile = join(samples, "screens/lantern-mill/screen-1.json");
const otherFile = join(samples, "screens/lantern-mill/screen-4.json");
const SCREEN = ["--site", "lantern-mill", "--screen", "screen-1"];
const AT = ["--at", "2026-11-02T23:15:00+01:00"];
const LEFT = ["--reason", "as-left", "--by", "Service team", ...AT];

let cwd = "";
let runs = 0;
const boothkeep = (...args: readonly string[]) => runCommand(args, { cwd });
const ids = () => history(openLogbook(folderStore(join(cwd, "book")))).items.map((item) => item.id);

/** Damages the only file in a folder of the logbook. */
function damage(folder: string): void {
  const [name] = readdirSync(join(cwd, folder), { recursive: true, encoding: "utf8" }).filter((path) =>
    path.endsWith(".gz"),
  );
  const path = join(cwd, folder, name!);
  const bytes = readFileSync(path);
  bytes[bytes.length >> 1]! ^= 1;
  writeFileSync(path, bytes);
}

beforeEach(async () => {
  runs += 1;
  cwd = join(root, String(runs));
  mkdirSync(cwd);
  expect((await boothkeep("begin", "book")).code).toBe(0);
  expect((await boothkeep("record", "book", screenFile, ...LEFT)).code).toBe(0);
});

describe("begin, record, history, show, find", () => {
  it("keep a configuration and give it back", async () => {
    const second = await boothkeep(
      "record",
      "book",
      otherFile,
      ...LEFT,
      "--attach",
      screenFile,
      "--notes",
      "As the house wants it.",
    );
    expect(second.out).toMatch(/^Recorded: lantern-mill, screen-4, entry 1, as left\.\n\([0-9a-f]{64}\)\n$/);
    const list = await boothkeep("history", "book");
    expect(list.code).toBe(0);
    expect(list.out).toContain("lantern-mill, screen-1");
    expect(list.out).toContain("2026-11-02 23:15");
    for (const line of list.out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
    expect((await boothkeep("history", "book", "--reason", "as-found")).out).toContain(
      "No entry is there, or none that fits what was asked for.",
    );

    const shown = await boothkeep(
      "show",
      "book",
      "--site",
      "lantern-mill",
      "--screen",
      "screen-4",
      "--out",
      "back.json",
    );
    expect(shown.out).toContain("As the house wants it.");
    expect(shown.out).toContain("CAUTION");
    expect(JSON.parse(readFileSync(join(cwd, "back.json"), "utf8"))).toEqual(
      JSON.parse(readFileSync(otherFile, "utf8")),
    );
    await boothkeep(
      "show",
      "book",
      ...[
        "--site",
        "lantern-mill",
        "--screen",
        "screen-4",
        "--attachment",
        "screen-1.json",
        "--out",
        "attached",
      ],
    );
    expect(sha256(readFileSync(join(cwd, "attached")))).toBe(sha256(readFileSync(screenFile)));

    const found = await boothkeep("find", "book", "/unit/serial", "G28-004173");
    expect(found.code).toBe(0);
    expect(found.out).toContain("1 of 2 entries.");
    expect((await boothkeep("find", "book", "delayMs", "--min", "5000")).code).toBe(1);
  });

  it("print one JSON document where asked", async () => {
    const commands = [
      ["record", "book", otherFile, ...LEFT],
      ["history", "book"],
      ["show", "book", ids()[0]!],
      ["find", "book", "gainDb"],
      ["verify", "book"],
      ["bind", "book"],
      ["policy", "book"],
      ["merge", "book", "book"],
      ["copy-out", "book", "copy", "--site", "lantern-mill"],
    ];
    for (const command of commands) {
      const { out, code } = await boothkeep(...command, "--json");
      expect(code, command[0]).toBe(0);
      expect(() => JSON.parse(out), command[0]).not.toThrow();
    }
  });

  it("refuse what is no configuration, a logbook that is there, an entry that is not", async () => {
    writeFileSync(join(cwd, "bad.json"), '{"kind":"boothkeep.configuration","schemaVersion":"1.0.0"}');
    expect((await boothkeep("record", "book", "bad.json", ...LEFT)).err).toContain(
      "(document.invalid, exit code 2)",
    );
    expect((await boothkeep("begin", "book")).err).toContain("(output.exists, exit code 2)");
    expect((await boothkeep("show", "book", "ffffffff")).err).toContain("(logbook.no-entry, exit code 2)");
    expect((await boothkeep("history", "nowhere")).err).toContain("(logbook.not-found, exit code 2)");
    const badTime = await boothkeep(
      "record",
      "book",
      otherFile,
      "--reason",
      "other",
      "--by",
      "x",
      "--at",
      "yesterday",
    );
    expect(badTime.err).toContain("RFC 3339");
  });

  it("offer the reasons of the schema", () => {
    expect(REASON_CHOICES).toEqual(REASONS);
  });

  it("write the time of this machine with its offset", () => {
    const script =
      "import('./cli/logbook-options.ts').then(m => console.log(m.localDateTime(new Date('2026-11-02T22:15:00Z'))))";
    expect(localDateTime(new Date("2026-11-02T22:15:00Z"))).toMatch(
      /^2026-11-0[23]T\d\d:\d\d:00[+-]\d\d:\d\d$/,
    );
    const there = (TZ: string) =>
      execFileSync(process.execPath, ["--import", "tsx", "-e", script], {
        cwd: join(samples, ".."),
        env: { ...process.env, TZ },
        encoding: "utf8",
      }).trim();
    expect(there("America/St_Johns")).toBe("2026-11-02T18:45:00-03:30");
    expect(there("Asia/Kathmandu")).toBe("2026-11-03T04:00:00+05:45");
  });
});

describe("verify, merge, copy-out, bind", () => {
  it("find damage, say what can be trusted, heal from a copy or a pack", async () => {
    await boothkeep("record", "book", otherFile, ...LEFT);
    await boothkeep("copy-out", "book", "copy", "--site", "lantern-mill");
    expect(
      (await boothkeep("pack", "book", ...SCREEN, "--profiles", join(samples, "profiles"), "--out", "p.zip"))
        .code,
    ).toBe(0);
    damage("book/entries/lantern-mill/screen-1");
    const checked = await boothkeep("verify", "book");
    expect(checked.code).toBe(3);
    expect(checked.out.replaceAll("\n", " ")).toContain("entries that can still be trusted: 1.");
    expect(checked.out).toContain("is damaged: its bytes are not those");
    expect((await boothkeep("history", "book")).code).toBe(3);
    expect((await boothkeep("verify", "book", "--quick")).code).toBe(3);
    const healed = await boothkeep("verify", "book", "--heal-from", "copy");
    expect(healed.code).toBe(0);
    expect(healed.out).toMatch(/Entries merged in +1/);

    damage("book/entries/lantern-mill/screen-1");
    expect((await boothkeep("verify", "book", "--heal-from", "p.zip")).code).toBe(0);
    expect(ids()).toHaveLength(2);
  });

  it("bring what was recorded elsewhere back", async () => {
    await boothkeep("copy-out", "book", "stick", "--site", "lantern-mill");
    await boothkeep("record", "stick", otherFile, ...LEFT);
    const merged = await boothkeep("merge", "book", "stick");
    expect(merged.out).toBe("Brought over: entries 1, withdrawals 0, signatures 0.\n");
    expect((await boothkeep("bind", "book")).out).toMatch(
      /^lantern-mill: one file of \d+ bytes; screens: 2, entries: 2\.\n$/,
    );
    expect((await boothkeep("bind", "book")).out).toBe("Nothing to gather.\n");
    expect(ids()).toHaveLength(2);
    expect((await boothkeep("copy-out", "book", "none", "--site", "elsewhere")).code).toBe(2);
  });

  it("tell how far long work is", async () => {
    for (let minute = 10; minute < 14; minute += 1) {
      const document = JSON.parse(readFileSync(screenFile, "utf8")) as { screen: { screenId: string } };
      document.screen.screenId = `screen-${minute}`;
      writeFileSync(join(cwd, "screen.json"), JSON.stringify(document));
      await boothkeep("record", "book", "screen.json", ...LEFT);
    }
    await boothkeep("begin", "office");
    expect((await boothkeep("merge", "office", "book")).err).toMatch(
      /^Merged: 1 of 5\n(.*\n)*Merged: 5 of 5\n$/,
    );
  });
});

describe("withdraw, sign, policy", () => {
  it("withdraw an entry, which then is not taken any more", async () => {
    const [id] = ids();
    const done = await boothkeep(
      "withdraw",
      "book",
      id!,
      "--reason",
      "Wrong microphone.",
      "--by",
      "Service team",
      ...AT,
    );
    expect(done.out).toBe(`Withdrawn: entry ${id!.slice(0, 12)}. It stays in the logbook.\n`);
    expect((await boothkeep("history", "book")).out).toContain("withdrawn");
    expect((await boothkeep("show", "book", id!)).out).toContain("Wrong microphone.");
    expect((await boothkeep("show", "book", ...SCREEN)).err).toContain("(logbook.no-entry, exit code 2)");
  });

  it("let only signed entries out when the policy asks for it", async () => {
    const keys = keyPairFromSeed(new Uint8Array(32).fill(3));
    writeFileSync(join(cwd, "key.pem"), keys.privateKeyPem);
    writeFileSync(join(cwd, "public.pem"), keys.publicKeyPem);
    const set = await boothkeep(
      "policy",
      "book",
      "--by",
      "Head office",
      "--need-signature",
      "--trust",
      "North=public.pem",
    );
    expect(set.out).toContain("Restoring needs the signature of a trusted key.");
    expect(set.out).toMatch(/North\n {4}[0-9a-f]{64}/);
    const pack = ["pack", "book", ...SCREEN, "--profiles", join(samples, "profiles"), "--key", "key.pem"];
    expect((await boothkeep(...pack, "--out", "p.zip")).err).toContain("(restore.no-entry, exit code 3)");
    expect((await boothkeep("verify", "book")).code).toBe(1);
    expect((await boothkeep("sign", "book", ids()[0]!, "--key", "key.pem")).code).toBe(0);
    expect((await boothkeep("verify", "book")).code).toBe(0);
    expect((await boothkeep(...pack, "--out", "p.zip")).code).toBe(0);
    expect((await boothkeep("unpack", "p.zip", "--policy-of", "book")).out).toMatch(/Signed +by North/);
    expect((await boothkeep("policy", "book", "--need-signature")).code).toBe(2);
  });
});

describe("pack and unpack", () => {
  const pack = (...more: readonly string[]) =>
    boothkeep("pack", "book", ...SCREEN, "--profiles", join(samples, "profiles"), ...AT, ...more);

  it("hand over what can be opened by anybody and checked", async () => {
    await boothkeep("record", "book", screenFile, ...LEFT, "--attach", otherFile);
    const made = await pack("--out", "p.zip", "--previous", "1", "--attachments");
    expect(made.code).toBe(0);
    expect(made.out).toContain("CAUTION");
    expect(made.out).toContain("Written, read back and compared: p.zip");
    await pack("--out", "again.zip", "--previous", "1", "--attachments");
    expect(readFileSync(join(cwd, "again.zip"))).toEqual(readFileSync(join(cwd, "p.zip")));
    expect((await pack("--out", "p.zip")).err).toContain("(output.exists, exit code 2)");

    expect((await boothkeep("unpack", "p.zip", "--out", "out")).code).toBe(0);
    expect(readdirSync(join(cwd, "out")).sort()).toEqual([
      "as-packed-cautions-txt.bin",
      "as-packed-sheet-html.bin",
      "as-packed-sheet-txt.bin",
      "attachment-01.bin",
      "cautions.txt",
      "configuration.json",
      "entry.json",
      "manifest.json",
      "previous-configuration-01.json",
      "previous-entry-01.json",
      "sheet.html",
      "sheet.txt",
      "unit-profile.json",
    ]);
    const { configuration } = readEntry(openLogbook(folderStore(join(cwd, "book"))), {
      siteId: "lantern-mill",
      screenId: "screen-1",
    });
    expect(JSON.parse(readFileSync(join(cwd, "out/configuration.json"), "utf8"))).toEqual(configuration);
    expect(readFileSync(join(cwd, "out/cautions.txt"), "utf8")).toContain("Wrong crossovers destroy drivers");
    expect((await boothkeep("unpack", "p.zip", "--out", "out")).err).toContain(
      "(output.exists, exit code 2)",
    );
  });

  it("refuse a damaged pack and write nothing of it", async () => {
    await pack("--out", "p.zip");
    const bytes = readFileSync(join(cwd, "p.zip"));
    bytes[bytes.length >> 1]! ^= 1;
    writeFileSync(join(cwd, "p.zip"), bytes);
    const refused = await boothkeep("unpack", "p.zip", "--out", "out");
    expect(refused.code).toBe(3);
    expect(refused.err).toMatch(/\(pack\.[a-z-]+, exit code 3\)/);
    expect(readdirSync(cwd)).not.toContain("out");
  });
});
