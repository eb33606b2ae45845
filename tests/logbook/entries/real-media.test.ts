import { execFileSync, spawnSync } from "node:child_process";
import { chmodSync, cpSync, mkdtempSync, readdirSync, rmSync, statfsSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { BoothkeepError } from "../../../src/base/errors/index.ts";
import {
  createLogbook,
  folderStore,
  history,
  openLogbook,
  record,
  verifyLogbook,
} from "../../../src/logbook/entries/index.ts";
import { circumstances, configuration, NEW_LOGBOOK } from "./support/documents.ts";
import { expectKept, noPromises } from "./support/scenario.ts";

const root = mkdtempSync(join(tmpdir(), "media-"));
const mounted: string[] = [];
afterAll(() => {
  for (const folder of mounted) spawnSync("umount", [folder]);
  rmSync(root, { recursive: true });
});

/** A small file system in memory, or undefined where this process may not mount one. */
function mountSmall(kibibytes: number): string | undefined {
  const folder = mkdtempSync(join(root, "mount-"));
  const done = spawnSync("mount", ["-t", "tmpfs", "-o", `size=${kibibytes}k`, "tmpfs", folder]);
  if (done.status !== 0) return undefined;
  mounted.push(folder);
  return folder;
}

const probe = mountSmall(64);

describe.skipIf(probe === undefined)("a real full disk", () => {
  it.each([0, 4, 8, 12, 20, 32])(
    "with %i KiB free keeps what was recorded, and works again once there is room",
    (freeKiB) => {
      const folder = mountSmall(256)!;
      const logbook = createLogbook(folderStore(folder), NEW_LOGBOOK);
      record(logbook, { configuration: configuration(), ...circumstances(0) });
      const free = () => statfsSync(folder).bavail * statfsSync(folder).bsize;
      writeFileSync(join(folder, "filler"), new Uint8Array(Math.max(0, free() - freeKiB * 1024)));

      let recorded = 1;
      let refused: unknown;
      for (let minute = 1; refused === undefined && minute < 100; minute += 1) {
        // Numbers without pattern, so that every visit takes some room.
        const outputs = Array.from({ length: 400 }, (_, index) => Math.sin(minute * 1000 + index));
        try {
          record(logbook, { configuration: configuration({ outputs }), ...circumstances(minute) });
          recorded += 1;
        } catch (error) {
          refused = error;
        }
      }
      expect(refused).toBeInstanceOf(BoothkeepError);
      expect(refused).toMatchObject({ code: "output.no-space" });
      const errors = () =>
        verifyLogbook(logbook, { depth: "contents" }).findings.filter((found) => found.severity === "error");
      expect(errors()).toEqual([]);
      expect(history(logbook).items).toHaveLength(recorded);

      rmSync(join(folder, "filler"));
      record(logbook, { configuration: configuration({ outputs: [1] }), ...circumstances(200) });
      expect(errors()).toEqual([]);
      expect(history(logbook).items).toHaveLength(recorded + 1);
      expect(
        readdirSync(folder, { recursive: true }).filter((name) => String(name).endsWith(".tmp")),
      ).toEqual([]);
    },
  );

  it("mounted read-only can be read, and says why it cannot be written", () => {
    const folder = mountSmall(256)!;
    const logbook = createLogbook(folderStore(folder), NEW_LOGBOOK);
    const promises = noPromises();
    promises.entries.set(
      record(logbook, { configuration: configuration(), ...circumstances(0) }).id,
      configuration(),
    );
    execFileSync("mount", ["-o", "remount,ro", folder]);
    expectKept(openLogbook(folderStore(folder)), promises, "read-only");
    expect(verifyLogbook(logbook, { depth: "contents" }).findings).toEqual([]);
    expect(() => record(logbook, { configuration: configuration(), ...circumstances(1) })).toThrow(
      expect.objectContaining({ code: "output.read-only" }),
    );
  });

  it("that vanishes leaves words, not a stack", () => {
    const folder = mountSmall(256)!;
    const logbook = createLogbook(folderStore(folder), NEW_LOGBOOK);
    record(logbook, { configuration: configuration(), ...circumstances(0) });
    execFileSync("umount", [folder]);
    expect(() => openLogbook(folderStore(folder))).toThrow(
      expect.objectContaining({ code: "logbook.not-found" }),
    );
    expect(() => openLogbook(folderStore(join(folder, "gone")))).toThrow(
      expect.objectContaining({ code: "logbook.not-found" }),
    );
  });
});

describe.skipIf(process.getuid?.() === 0)("a folder without write permission", () => {
  it("can be read, and says why it cannot be written", () => {
    const source = mkdtempSync(join(root, "source-"));
    const logbook = createLogbook(folderStore(source), NEW_LOGBOOK);
    record(logbook, { configuration: configuration(), ...circumstances(0) });
    const folder = join(root, "locked");
    cpSync(source, folder, { recursive: true });
    for (const name of readdirSync(folder, { recursive: true })) chmodSync(join(folder, String(name)), 0o555);
    chmodSync(folder, 0o555);
    const locked = openLogbook(folderStore(folder));
    expect(history(locked).items).toHaveLength(1);
    expect(() => record(locked, { configuration: configuration(), ...circumstances(1) })).toThrow(
      expect.objectContaining({ code: "input.no-permission" }),
    );
    for (const name of readdirSync(folder, { recursive: true })) chmodSync(join(folder, String(name)), 0o755);
    chmodSync(folder, 0o755);
  });
});
