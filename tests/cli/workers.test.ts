import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { chunked } from "../../cli/fleet/chunks.ts";
import { spread } from "../../cli/workers/pool.ts";
import type { TaskNote } from "../../cli/workers/tasks.ts";
import { FLEET_PROFILE, makeFleet } from "../../samples/generate/fleet.ts";
import standard from "../../samples/standards/house-71-1.0.0.json" with { type: "json" };
import { BoothkeepError } from "../../src/base/errors/index.ts";
import { Census, compileStandard } from "../../src/fleet/standard/index.ts";
import { type Drift, DriftJob, type Survey, screensToAudit } from "../../src/jobs/index.ts";
import {
  createLogbook,
  folderStore,
  type KeptDocument,
  openLogbook,
  record,
} from "../../src/logbook/entries/index.ts";
import type { AuditedScreen, Standard, UnitProfile } from "../../src/model/index.ts";

const root = join(import.meta.dirname, "..", "..");
const folder = mkdtempSync(join(tmpdir(), "boothkeep-workers-"));
const path = join(folder, "logbook");
const worker = pathToFileURL(join(folder, "worker.mjs"));
const SCREENS = 10;

beforeAll(async () => {
  await build({
    entryPoints: [join(root, "cli", "workers", "worker.ts")],
    outfile: join(folder, "worker.mjs"),
    bundle: true,
    platform: "node",
    format: "esm",
    logLevel: "error",
    external: ["@aws-sdk/client-s3"],
    banner: {
      js: 'import { createRequire as __createRequire } from "node:module"; const require = __createRequire(import.meta.url);',
    },
  });
  // As the build does: validators are loaded one by one from beside the bundle.
  cpSync(join(root, "src", "model", "generated", "validators"), join(folder, "validators"), {
    recursive: true,
  });
  const logbook = createLogbook(folderStore(path), {
    id: "018f3f2e-0000-7000-8000-000000000009",
    startedAt: "2021-01-01T00:00:00Z",
  });
  for (const { takenAt, configuration } of makeFleet({ screens: SCREENS, visits: 2, seed: 4 })) {
    record(logbook, {
      configuration: configuration as unknown as KeptDocument,
      reason: "routine",
      recordedAt: takenAt,
      recordedBy: "Service team",
    });
  }
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true }));

const ground = {
  standards: [standard as unknown as Standard],
  profiles: [FLEET_PROFILE],
  programVersion: "test",
};
const folders = () => screensToAudit(openLogbook(folderStore(path)), ground);

/** What a task gives on this thread, and on two others. */
async function bothWays<Result>(
  run: (file: URL | undefined, onNote: (note: TaskNote) => void) => Promise<Result>,
) {
  const notes: TaskNote[] = [];
  const here = await run(undefined, () => {});
  const spreadOut = await run(worker, (note) => notes.push(note));
  return { here, spreadOut, done: notes.filter(({ kind }) => kind === "done").length };
}

describe("work spread over threads", () => {
  it("gives the same drift", async () => {
    const { here, spreadOut, done } = await bothWays(async (file, onNote): Promise<Drift> => {
      const job = new DriftJob(compileStandard(standard as unknown as Standard));
      const setup = {
        world: { cwd: folder, env: {} },
        standard: standard as unknown as Standard,
        profiles: undefined,
      };
      const inputs = chunked(folders()).map((some) => ({
        path,
        named: "logbook",
        folders: some.map((screen) => screen.folder),
      }));
      const onResult = (part: Parameters<typeof job.addPart>[0]) => job.addPart(part);
      await spread({ task: "drift", setup, inputs, worthWorkers: 2, onResult, onNote }, file);
      return job.result();
    });
    expect(here.screens).toBe(SCREENS);
    expect(here.findings.length).toBeGreaterThan(0);
    expect(spreadOut).toEqual(here);
    expect(done).toBe(SCREENS);
  });

  it("gives the same rows of an audit, in the same order", async () => {
    const { here, spreadOut } = await bothWays(async (file, onNote): Promise<readonly AuditedScreen[]> => {
      const rows: AuditedScreen[] = [];
      const inputs = chunked(folders()).map((some) => ({
        path,
        named: "logbook",
        screens: some,
      }));
      const onResult = (some: readonly AuditedScreen[]) => void rows.push(...some);
      await spread({ task: "audit", setup: { ground }, inputs, worthWorkers: 2, onResult, onNote }, file);
      return rows;
    });
    expect(here).toHaveLength(SCREENS);
    expect(spreadOut).toEqual(here);
  });

  it("gives the same counts of values", async () => {
    const { here, spreadOut } = await bothWays(async (file, onNote) => {
      const census = new Census();
      const inputs = chunked(folders()).map((some) => ({
        path,
        named: "logbook",
        folders: some.map((screen) => screen.folder),
      }));
      const onResult = (counts: Parameters<typeof census.addCounts>[0]) => census.addCounts(counts);
      const setup = { screens: {} };
      await spread({ task: "census", setup, inputs, worthWorkers: 2, onResult, onNote }, file);
      return { places: census.places(), lists: census.lists(), screens: census.screens };
    });
    expect(here.screens).toBe(SCREENS);
    expect(spreadOut).toEqual(here);
  });

  it("passes an error on with its code and its next step", async () => {
    const inputs = ["a", "b"].map((name) => ({ path: join(folder, name), named: name, folders: ["x/y"] }));
    const nothing = () => {};
    await expect(
      spread(
        {
          task: "census",
          setup: { screens: {} },
          inputs,
          worthWorkers: 2,
          onResult: nothing,
          onNote: nothing,
        },
        worker,
      ),
    ).rejects.toMatchObject({ name: "BoothkeepError", code: "logbook.not-found", next: expect.any(String) });
  });
});

describe("results that may come as they are done", () => {
  const files = Array.from({ length: 12 }, (_none, index) => `missing-${index}.json`);
  const setup = {
    cwd: folder,
    version: "0.0.0",
    to: FLEET_PROFILE as unknown as UnitProfile,
    into: "into",
    sheets: undefined,
    from: undefined,
    profiles: undefined,
    decisions: undefined,
    classes: undefined,
    records: [],
  };
  const surveyed = (onResult: (survey: Survey, file: string) => void) =>
    spread<"survey">(
      { task: "survey", setup, inputs: files, worthWorkers: 2, asDone: true, onResult },
      worker,
    );

  it("come once for each input, with the input that they are for", async () => {
    const told: string[] = [];
    await surveyed((survey, file) => {
      expect(survey).toMatchObject({ kind: "failed", file, error: { code: "input.not-found" } });
      told.push(file);
    });
    expect(told.toSorted()).toEqual(files.toSorted());
  });

  it("end everything when one cannot be kept, and the reason comes through", async () => {
    const full = new BoothkeepError("output.no-space", "The disk is full.", { next: "Make room." });
    await expect(
      surveyed(() => {
        throw full;
      }),
    ).rejects.toBe(full);
  });
});
