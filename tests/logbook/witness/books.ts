import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import {
  bindLogbook,
  createLogbook,
  type FileStore,
  history,
  type KeptDocument,
  type Logbook,
  memoryStore,
  record,
  setPolicy,
  signEntry,
  withdraw,
} from "../../../src/logbook/entries/index.ts";
import { keyPairFromSeed, publicKeyBytes } from "../../../src/logbook/signing/index.ts";
import type { Configuration, Entry } from "../../../src/model/index.ts";
import { runCommand } from "../../cli/run-command.ts";
import { changed } from "../restore/documents.ts";

export const samples = join(import.meta.dirname, "..", "..", "..", "samples");
export const profiles = join(samples, "profiles");

export const SITE = "willow-arcade";
export const SCREEN = "screen-2";
export const OTHER_SCREEN = "screen-3";
export const FAR_SITE = "quay-house";

/** RFC 8032 seeds of keys that only these tests use. */
export const TRUSTED = keyPairFromSeed(new Uint8Array(32).fill(1));
export const STRANGER = keyPairFromSeed(new Uint8Array(32).fill(2));

/** The logbooks that are damaged: everything in files of its own or a site bound, signed or not. */
export const VARIANTS = ["loose", "bound", "signed", "signed-bound"] as const;
export type Variant = (typeof VARIANTS)[number];

export const isSigned = (variant: Variant) => variant.startsWith("signed");

export interface SoundBook {
  readonly variant: Variant;
  readonly folder: string;
  /** What a printed sheet of the screen's entry as left says. */
  readonly entryId: string;
  /** The same entry's configuration. */
  readonly configuration: Configuration;
}

/** A small screen that an engineer would commission with this program; no more than the commands need. */
export async function firstConfiguration(folder: string): Promise<Configuration> {
  mkdirSync(folder, { recursive: true });
  const { err } = await runCommand(
    [
      "new",
      join(samples, "descriptions", "willow-arcade-2.json"),
      ...["--loudspeakers", join(samples, "loudspeakers", "house-data.json")],
      ...["--out", "first.json", "--profiles", profiles],
    ],
    { cwd: folder },
  );
  if (err !== "") throw new Error(err);
  return JSON.parse(readFileSync(join(folder, "first.json"), "utf8")) as Configuration;
}

/** The configuration of a screen, with the gain of its first output as what changes from visit to visit. */
export function configurationOf(
  first: Configuration,
  {
    site = SITE,
    screen = SCREEN,
    gainDb = 0,
  }: { readonly site?: string; readonly screen?: string; readonly gainDb?: number },
): Configuration {
  return changed(first, (draft) => {
    draft.screen.siteId = site;
    draft.screen.screenId = screen;
    draft.unit.serial = `D16-${site.length}${screen.slice(-1)}`;
    draft.outputs[0]!.gainDb -= gainDb;
  });
}

let minute = 0;

/** Records with a clock that goes on by itself. */
export function keep(
  logbook: Logbook,
  configuration: Configuration,
  more: {
    readonly reason?: Entry["reason"];
    readonly key?: { readonly privateKeyPem: string } | undefined;
    readonly attachments?: readonly { readonly name: string; readonly bytes: Uint8Array }[];
  } = {},
): string {
  const { reason = "as-left", key, attachments } = more;
  return record(logbook, {
    configuration: configuration as unknown as KeptDocument,
    reason,
    recordedAt: nextMoment(),
    recordedBy: "service team north",
    ...(key !== undefined && { key }),
    ...(attachments !== undefined && { attachments }),
  }).id;
}

export function nextMoment(): string {
  minute += 1;
  return new Date(Date.UTC(2026, 8, 1, 8, minute)).toISOString().replace(".000Z", "+00:00");
}

/**
 * A logbook of three screens at two sites. The screen that is asked about has entries 1 and 2, then 3 as left, 4 as left and
 * withdrawn, 5 as found like 3.
 */
export function soundBook(variant: Variant, first: Configuration, folder: string): SoundBook {
  // In memory first: nothing here has to survive a power loss.
  const store = memoryStore();
  const logbook = createLogbook(store, {
    id: "7c9e6679-7425-40de-944b-e07fc1f90ae7",
    startedAt: "2026-08-31T09:00:00+02:00",
  });
  const key = isSigned(variant) ? TRUSTED : undefined;
  if (key !== undefined) {
    setPolicy(logbook, {
      restoreNeedsSignature: true,
      trustedKeys: [{ name: "service team north", publicKey: base64Key(key) }],
      recordedAt: nextMoment(),
      recordedBy: "head office",
    });
  }
  const visit = (gainDb: number, more: Parameters<typeof keep>[2] = {}) =>
    keep(logbook, configurationOf(first, { gainDb }), { key, ...more });
  visit(1, { attachments: [{ name: "note.txt", bytes: new TextEncoder().encode("as measured\n") }] });
  keep(logbook, configurationOf(first, { screen: OTHER_SCREEN }), { key });
  visit(2);
  keep(logbook, configurationOf(first, { site: FAR_SITE, screen: "screen-1" }), { key });
  const entryId = visit(3, { key: undefined });
  if (key !== undefined) signEntry(logbook, { id: entryId }, key);
  const withdrawn = visit(4);
  withdraw(
    logbook,
    { id: withdrawn },
    {
      reason: "Surround delays of another screen.",
      recordedAt: nextMoment(),
      recordedBy: "service team north",
      ...(key !== undefined && { key }),
    },
  );
  keep(logbook, configurationOf(first, { screen: OTHER_SCREEN, gainDb: 1 }), { key });
  if (variant.endsWith("bound")) bindLogbook(logbook, { siteId: SITE });
  visit(3, { reason: "as-found" });
  const found = history(logbook, { siteId: SITE, screenId: SCREEN });
  if (found.items.length !== 5 || found.findings.length > 0)
    throw new Error("The sound logbook is not sound.");
  copyTo(folder, store, "");
  return { variant, folder, entryId, configuration: configurationOf(first, { gainDb: 3 }) };
}

function copyTo(folder: string, store: FileStore, path: string): void {
  mkdirSync(join(folder, path), { recursive: true });
  for (const { name, kind } of store.list(path)) {
    const inside = path === "" ? name : `${path}/${name}`;
    if (kind === "folder") copyTo(folder, store, inside);
    else writeFileSync(join(folder, inside), store.read(inside));
  }
}

export function base64Key({ publicKeyPem }: { readonly publicKeyPem: string }): string {
  return Buffer.from(publicKeyBytes(publicKeyPem)).toString("base64");
}
