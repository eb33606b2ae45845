import { execFileSync } from "node:child_process";
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join, sep } from "node:path";
import { gunzipSync, gzipSync } from "node:zlib";
import { canonicalText, sha256 } from "../../../src/base/canonical/index.ts";
import {
  createLogbook,
  folderStore,
  history,
  type Logbook,
  memoryStore,
  mergeLogbook,
  openLogbook,
  setPolicy,
  withdraw,
} from "../../../src/logbook/entries/index.ts";
import { signDocument } from "../../../src/logbook/signing/index.ts";
import type { Configuration } from "../../../src/model/index.ts";
import {
  base64Key,
  configurationOf,
  isSigned,
  keep,
  nextMoment,
  OTHER_SCREEN,
  SCREEN,
  SITE,
  type SoundBook,
  STRANGER,
  TRUSTED,
  type Variant,
} from "./books.ts";

/** A copy of a sound logbook that something happens to. */
export interface Victim {
  readonly folder: string;
  readonly book: SoundBook;
  readonly first: Configuration;
  /** Whole numbers, drawn once, that choose among what can be hit. */
  readonly draws: () => number;
}

export interface Fault {
  /** As the table of the format page has it. */
  readonly name: string;
  /** Logbooks that can have it. @defaultValue all */
  readonly variants?: readonly Variant[];
  /** Chooses among all files: another one each time, so that it has no row in the table. */
  readonly isDrawn?: true;
  readonly hit: (victim: Victim) => void;
}

const SIGNED: readonly Variant[] = ["signed", "signed-bound"];
const LOOSE: readonly Variant[] = ["loose", "signed"];
const BOUND: readonly Variant[] = ["bound", "signed-bound"];

// ------------------------------------------------------------------ files

/** Files of the logbook but for the register, as sorted paths with "/". */
function filesOf(folder: string, start = ""): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .map((name) => name.split(sep).join("/"))
    .filter((name) => !name.startsWith("register/") && name.startsWith(start))
    .filter((name) => statSync(join(folder, name)).isFile())
    .sort();
}

function drawn<T>(from: readonly T[], { draws }: Victim): T {
  return from[draws() % from.length]!;
}

/** Lines of a record's file, first the record. */
function linesOf(path: string): readonly string[] {
  return gunzipSync(readFileSync(path)).toString("utf8").split("\n").slice(0, -1);
}

interface RecordFile {
  readonly path: string;
  readonly record: {
    readonly kind: string;
    readonly number?: number;
    readonly entry?: string;
    readonly screenId: string;
  };
}

/** Files of the screen that is asked about. */
function recordFiles({ folder }: Victim, kind?: string): readonly RecordFile[] {
  const home = join(folder, "entries", SITE, SCREEN);
  return (existsSync(home) ? readdirSync(home) : [])
    .sort()
    .map((name) => ({
      path: join(home, name),
      record: JSON.parse(linesOf(join(home, name))[0]!) as RecordFile["record"],
    }))
    .filter(({ record }) => kind === undefined || record.kind === kind);
}

/** The file of an entry of the screen. */
function fileOfEntry(victim: Victim, number: number): string {
  return recordFiles(victim, "boothkeep.entry").find(({ record }) => record.number === number)!.path;
}

/** RFC 1952, with the header that the format page asks for. */
function packed(lines: readonly string[]): Uint8Array {
  const bytes = gzipSync(lines.map((line) => `${line}\n`).join(""));
  bytes.set([0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 0, 255]);
  return bytes;
}

/** Writes a record as whoever knows the format page could. */
function writeRecord({ folder }: Victim, lines: readonly string[], screen = SCREEN): void {
  const id = sha256(lines[0]!);
  const bytes = packed(lines);
  const home = join(folder, "entries", SITE, screen);
  mkdirSync(home, { recursive: true });
  writeFileSync(join(home, `${id}.${sha256(bytes).slice(0, 16)}.gz`), bytes);
  const marks = join(folder, "register", "entries", SITE);
  mkdirSync(marks, { recursive: true });
  writeFileSync(join(marks, `${screen}.${id}`), "");
}

function changeByte(path: string, at: number): void {
  const bytes = readFileSync(path);
  if (bytes.length === 0) return;
  bytes[at % bytes.length]! ^= 1 << (at % 8);
  writeFileSync(path, bytes);
}

const open = ({ folder }: Victim): Logbook => openLogbook(folderStore(folder));
const keyOf = ({ book }: Victim) => (isSigned(book.variant) ? TRUSTED : undefined);

// ------------------------------------------------------------------ records made by hand

type Members = Record<string, unknown>;

/** The next entry of the screen, as its own program would write it, but for what is changed; signed where all are. */
function nextEntry(victim: Victim, change: (entry: Members) => void): Members {
  const logbook = open(victim);
  const { items } = history(logbook, { siteId: SITE, screenId: SCREEN });
  const { entry, id } = items.at(-1)!;
  const next: Members = {
    ...structuredClone(entry),
    number: entry.number + 1,
    previous: [id],
    reason: "as-left",
    recordedAt: nextMoment(),
  };
  change(next);
  return next;
}

function signatureLine(record: Members, key: { readonly privateKeyPem: string }): string {
  return canonicalText({
    kind: "boothkeep.signature",
    schemaVersion: "1.0.0",
    siteId: record.siteId,
    screenId: record.screenId,
    record: sha256(canonicalText(record)),
    ...signDocument(record, key.privateKeyPem),
  });
}

/** A signature that is one in form and does not match. */
function brokenLine(record: Members, key: { readonly privateKeyPem: string }): string {
  return signatureLine(record, key).replace(/"value":"[^"]*"/, () => {
    const other = signDocument({ ...record, notes: "otherwise" }, key.privateKeyPem).value;
    return `"value":"${other}"`;
  });
}

function writeEntry(
  victim: Victim,
  entry: Members,
  configuration?: Configuration,
  signatures?: readonly string[],
): void {
  const key = keyOf(victim);
  const signed = signatures ?? (key === undefined ? [] : [signatureLine(entry, key)]);
  const text = configuration && canonicalText(configuration);
  const kept = text === undefined ? [] : [`{"configuration":${text},"kind":"boothkeep.whole"}`];
  writeRecord(victim, [canonicalText(entry), ...kept, ...signed]);
}

/** An entry as left of its own settings, signed so. */
function signedSo(victim: Victim, sign: (entry: Members) => readonly string[]): void {
  const own = configurationOf(victim.first, { gainDb: 7 });
  const entry = nextEntry(victim, (next) => {
    next.configuration = sha256(canonicalText(own));
  });
  writeEntry(victim, entry, own, sign(entry));
}

function readBack(
  victim: Victim,
  verdict: "equal" | "differs",
  gainDb: number,
  { lost = false }: { readonly lost?: boolean } = {},
): void {
  const own = configurationOf(victim.first, { gainDb });
  const { unit } = own;
  const described = (sha: string) => ({
    sha256: sha,
    profileId: unit.profileId,
    serial: unit.serial,
    firmware: unit.firmware,
  });
  const confirmation = {
    kind: "boothkeep.confirmation",
    schemaVersion: "1.0.0",
    verdict,
    screen: { siteId: SITE, screenId: SCREEN },
    intended: {
      ...described(sha256(canonicalText(victim.book.configuration))),
      entryId: victim.book.entryId,
    },
    readBack: described(sha256(canonicalText(own))),
    counts: { compared: 900, withinSteps: 0, differing: verdict === "equal" ? 0 : 1, notHeld: 0 },
    differences: [],
  };
  const bytes = new TextEncoder().encode(JSON.stringify(confirmation));
  keep(open(victim), own, {
    reason: "after-swap",
    key: keyOf(victim),
    attachments: [{ name: "confirmation.json", bytes }],
  });
  if (lost) {
    const part = filesOf(victim.folder, "parts/").find((name) => name.includes(sha256(bytes)))!;
    rmSync(join(victim.folder, part));
  }
}

// ------------------------------------------------------------------ the faults

export const FAULTS: readonly Fault[] = [
  { name: "nothing", hit: () => {} },
  {
    name: "newest entry lost",
    hit: (victim) => rmSync(fileOfEntry(victim, 5)),
  },
  {
    name: "newest entry and its mark lost",
    hit: (victim) => {
      const file = fileOfEntry(victim, 5);
      rmSync(file);
      rmSync(join(victim.folder, "register", "entries", SITE, `${SCREEN}.${basename(file).split(".")[0]}`));
    },
  },
  {
    name: "entry as left lost",
    variants: LOOSE,
    hit: (victim) => rmSync(fileOfEntry(victim, 3)),
  },
  {
    name: "old entry lost",
    variants: LOOSE,
    hit: (victim) => rmSync(fileOfEntry(victim, 1 + (victim.draws() % 2))),
  },
  {
    name: "withdrawal lost",
    variants: LOOSE,
    hit: (victim) => rmSync(recordFiles(victim, "boothkeep.withdrawal")[0]!.path),
  },
  {
    name: "signature lost",
    variants: ["signed"],
    hit: (victim) => rmSync(recordFiles(victim, "boothkeep.signature")[0]!.path),
  },
  {
    name: "references lost",
    hit: ({ folder }) => {
      for (const file of filesOf(folder, "references/")) rmSync(join(folder, file));
    },
  },
  {
    name: "a reference lost",
    isDrawn: true,
    hit: (victim) => rmSync(join(victim.folder, drawn(filesOf(victim.folder, "references/"), victim))),
  },
  {
    name: "a record lost",
    isDrawn: true,
    hit: (victim) => rmSync(join(victim.folder, drawn(filesOf(victim.folder, "entries/"), victim))),
  },
  {
    name: "attachment lost",
    hit: (victim) => rmSync(join(victim.folder, drawn(filesOf(victim.folder, "parts/"), victim))),
  },
  {
    name: "policy lost",
    variants: SIGNED,
    hit: (victim) => rmSync(join(victim.folder, filesOf(victim.folder, "policy/")[0]!)),
  },
  {
    name: "policy renamed",
    variants: SIGNED,
    hit: ({ folder }) => {
      const file = join(folder, filesOf(folder, "policy/")[0]!);
      renameSync(file, file.replace(/\.gz$/, " (1).gz"));
    },
  },
  {
    name: "bound file lost",
    variants: BOUND,
    hit: ({ folder }) => rmSync(join(folder, filesOf(folder, "bound/")[0]!)),
  },
  {
    name: "bound file lost, its mark empty",
    variants: BOUND,
    hit: ({ folder }) => {
      rmSync(join(folder, filesOf(folder, "bound/")[0]!));
      const marks = join(folder, "register", "bound");
      for (const mark of readdirSync(marks)) writeFileSync(join(marks, mark), "");
    },
  },
  {
    name: "bound file emptied",
    variants: BOUND,
    hit: ({ folder }) => writeFileSync(join(folder, filesOf(folder, "bound/")[0]!), ""),
  },
  {
    name: "byte of the bound file flipped",
    variants: BOUND,
    hit: (victim) => changeByte(join(victim.folder, filesOf(victim.folder, "bound/")[0]!), victim.draws()),
  },
  { name: "logbook.json lost", hit: ({ folder }) => rmSync(join(folder, "logbook.json")) },
  {
    name: "byte of logbook.json flipped",
    hit: (victim) => changeByte(join(victim.folder, "logbook.json"), victim.draws()),
  },
  {
    name: "files not synchronized yet",
    isDrawn: true,
    hit: (victim) => {
      const share = 2 + (victim.draws() % 6);
      for (const file of filesOf(victim.folder, "")) {
        if (file !== "logbook.json" && victim.draws() % share === 0) rmSync(join(victim.folder, file));
      }
    },
  },
  {
    name: "files and marks not synchronized yet",
    isDrawn: true,
    hit: (victim) => {
      const share = 2 + (victim.draws() % 6);
      const all = readdirSync(victim.folder, { recursive: true, encoding: "utf8" })
        .filter((name) => name !== "logbook.json" && statSync(join(victim.folder, name)).isFile())
        .sort();
      for (const file of all) if (victim.draws() % share === 0) rmSync(join(victim.folder, file));
    },
  },
  {
    name: "byte of an entry as left flipped",
    variants: LOOSE,
    hit: (victim) => changeByte(fileOfEntry(victim, 3), victim.draws()),
  },
  {
    name: "byte of any file flipped",
    isDrawn: true,
    hit: (victim) => changeByte(join(victim.folder, drawn(filesOf(victim.folder), victim)), victim.draws()),
  },
  {
    name: "file truncated",
    isDrawn: true,
    hit: (victim) => {
      const file = join(victim.folder, drawn(filesOf(victim.folder), victim));
      const bytes = readFileSync(file);
      writeFileSync(file, bytes.subarray(0, victim.draws() % bytes.length));
    },
  },
  {
    name: "file emptied",
    isDrawn: true,
    hit: (victim) => writeFileSync(join(victim.folder, drawn(filesOf(victim.folder), victim)), ""),
  },
  {
    name: "entry renamed by a sync client",
    variants: LOOSE,
    hit: (victim) => {
      const file = fileOfEntry(victim, 2 + (victim.draws() % 3));
      renameSync(file, file.replace(/\.gz$/, " (conflicted copy).gz"));
    },
  },
  {
    name: "copy under another name beside the original",
    hit: (victim) => {
      const file = fileOfEntry(victim, 5);
      copyFileSync(file, file.replace(/\.gz$/, " (1).gz"));
    },
  },
  {
    name: "record in the folder of another screen",
    hit: (victim) => {
      const file = fileOfEntry(victim, 5);
      const other = join(dirname(dirname(file)), OTHER_SCREEN);
      mkdirSync(other, { recursive: true });
      copyFileSync(file, join(other, basename(file)));
    },
  },
  {
    name: "withdrawn entry as non-canonical JSON",
    hit: (victim) => {
      const { items } = history(open(victim), { siteId: SITE, screenId: SCREEN });
      const { entry, signatures } = items.find(({ withdrawals }) => withdrawals.length > 0)!;
      const line = canonicalText(entry).replace('{"', '{ "');
      writeRecord(victim, [line, ...signatures.map((signature) => canonicalText(signature))]);
    },
  },
  {
    name: "withdrawn entry's settings as an entry of their own",
    hit: (victim) => {
      const { items } = history(open(victim), { siteId: SITE, screenId: SCREEN });
      const { entry } = items.find(({ withdrawals }) => withdrawals.length > 0)!;
      writeRecord(victim, [
        canonicalText({ ...entry, notes: "the same again" }),
        ...(isSigned(victim.book.variant) ? [brokenLine(entry as unknown as Members, TRUSTED)] : []),
      ]);
    },
  },
  {
    name: "entry with another screen's configuration",
    hit: (victim) => {
      const other = configurationOf(victim.first, { screen: OTHER_SCREEN, gainDb: 5 });
      const entry = nextEntry(victim, (next) => {
        next.configuration = sha256(canonicalText(other));
      });
      writeEntry(victim, entry, other);
    },
  },
  {
    name: "entry with another unit's configuration",
    hit: (victim) => {
      const own = configurationOf(victim.first, { gainDb: 5 });
      const other = { ...own, unit: { ...own.unit, serial: "D16-99999" } };
      const entry = nextEntry(victim, (next) => {
        next.configuration = sha256(canonicalText(other));
      });
      writeEntry(victim, entry, other);
    },
  },
  {
    name: "entry whose configuration is nowhere",
    hit: (victim) => {
      writeEntry(
        victim,
        nextEntry(victim, (next) => (next.configuration = "0".repeat(64))),
      );
    },
  },
  {
    name: "entry not signed, though asked for",
    variants: SIGNED,
    hit: (victim) => signedSo(victim, () => []),
  },
  {
    name: "entry signed by an unknown key",
    hit: (victim) => signedSo(victim, (entry) => [signatureLine(entry, STRANGER)]),
  },
  {
    name: "signature of an entry does not match",
    hit: (victim) => signedSo(victim, (entry) => [brokenLine(entry, TRUSTED)]),
  },
  {
    name: "signature that does not match beside a good one",
    hit: (victim) =>
      signedSo(victim, (entry) => [signatureLine(entry, TRUSTED), brokenLine(entry, STRANGER)]),
  },
  {
    name: "key reported stolen",
    variants: SIGNED,
    hit: (victim) => {
      const logbook = open(victim);
      setPolicy(logbook, {
        restoreNeedsSignature: true,
        trustedKeys: [
          {
            name: "service team north",
            publicKey: base64Key(TRUSTED),
            retired: { from: "2026-08-01T00:00:00+02:00", stolen: true },
          },
        ],
        recordedAt: nextMoment(),
        recordedBy: "head office",
      });
    },
  },
  {
    name: "withdrawal not signed, though asked for",
    variants: SIGNED,
    hit: (victim) => {
      withdraw(
        open(victim),
        { id: victim.book.entryId },
        { reason: "No.", recordedAt: nextMoment(), recordedBy: "nobody" },
      );
    },
  },
  {
    name: "withdrawal whose signature does not match",
    hit: (victim) => {
      const withdrawal: Members = {
        kind: "boothkeep.withdrawal",
        schemaVersion: "1.0.0",
        siteId: SITE,
        screenId: SCREEN,
        entry: victim.book.entryId,
        reason: "No.",
        recordedAt: nextMoment(),
        recordedBy: "nobody",
      };
      writeRecord(victim, [canonicalText(withdrawal), brokenLine(withdrawal, TRUSTED)]);
    },
  },
  {
    name: "entry as left withdrawn",
    hit: (victim) => {
      const key = keyOf(victim);
      withdraw(
        open(victim),
        { id: victim.book.entryId },
        {
          reason: "A way was wired wrongly.",
          recordedAt: nextMoment(),
          recordedBy: "service team north",
          ...(key !== undefined && { key }),
        },
      );
    },
  },
  { name: "read-back differs", hit: (victim) => readBack(victim, "differs", 9) },
  {
    name: "read-back differs, a later one agrees",
    hit: (victim) => {
      readBack(victim, "differs", 9);
      readBack(victim, "equal", 3);
    },
  },
  {
    name: "what came of a read-back is lost",
    hit: (victim) => readBack(victim, "differs", 9, { lost: true }),
  },
  {
    name: "entry number far beyond",
    hit: (victim) => {
      const own = configurationOf(victim.first, { gainDb: 6 });
      const entry = nextEntry(victim, (next) => {
        next.number = 1_000_000_000;
        next.configuration = sha256(canonicalText(own));
      });
      writeEntry(victim, entry, own);
    },
  },
  {
    name: "screen recorded in two places apart",
    hit: (victim) => {
      const other = createLogbook(memoryStore(), {
        id: "7c9e6679-7425-40de-944b-e07fc1f90ae8",
        startedAt: "2026-08-31T09:00:00+02:00",
      });
      keep(other, configurationOf(victim.first, { gainDb: 8 }), { key: keyOf(victim) });
      mergeLogbook(open(victim), other);
    },
  },
  {
    name: "unit of another model recorded since",
    hit: (victim) => {
      const own = configurationOf(victim.first, { gainDb: 3 });
      const other = { ...own, unit: { ...own.unit, profileId: "whimbrel-32", serial: "W32-1" } };
      keep(open(victim), other as Configuration, { reason: "after-swap", key: keyOf(victim) });
    },
  },
  {
    name: "file that is none of the logbook's",
    hit: ({ folder }) => writeFileSync(join(folder, "entries", SITE, SCREEN, "thumbs.db"), "x"),
  },
  ...(process.platform === "win32"
    ? []
    : [
        {
          name: "named pipe in a screen's folder",
          hit: ({ folder }: Victim) => makePipe(join(folder, "entries", SITE, SCREEN, "pipe")),
        },
        {
          name: "named pipe in an entry's place",
          variants: LOOSE,
          hit: (victim: Victim) => {
            const file = fileOfEntry(victim, 3);
            rmSync(file);
            makePipe(file);
          },
        },
        {
          name: "named pipe in a bound file's place",
          variants: BOUND,
          hit: ({ folder }: Victim) => {
            const file = join(folder, filesOf(folder, "bound/")[0]!);
            rmSync(file);
            makePipe(file);
          },
        },
      ]),
];

function makePipe(path: string): void {
  execFileSync("mkfifo", [path]);
}
