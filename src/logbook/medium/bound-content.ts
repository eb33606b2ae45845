import { type Sha256, sha256 } from "../../base/canonical/index.ts";
import type { BoundContent, BoundScreen } from "../medium/bound-file.ts";
import { configurationResolver } from "../medium/configurations.ts";
import { editsBetween, pieces } from "../medium/edits.ts";
import type { FileStore } from "../medium/file-store.ts";
import { editedLine, wholeLine } from "../medium/records.ts";
import { readReferences } from "../medium/references.ts";
import { anyRecord, type ScreenRecords } from "../medium/screen-records.ts";
import { screenEntries } from "./screen-entries.ts";

/** A sample is kept as edits to the common reference when these are below this share of its text. */
const WORTHWHILE_SHARE = 0.5;

/**
 * What a bound file of these screens holds: all that is kept of them, and the references that it rests on, so that
 * it needs no other file.
 */
export function boundContent(
  store: FileStore,
  siteId: string,
  screens: readonly ScreenRecords[],
): BoundContent {
  const basis = new Basis(store);
  const bound = screens
    .map((records) => boundScreen(records, basis))
    .filter((screen) => screen !== undefined);
  return { siteId, references: basis.lines(), screens: bound };
}

/** A screen's lines: each entry with its configuration, then what was said about entries. */
function boundScreen(records: ScreenRecords, basis: Basis): BoundScreen | undefined {
  const screenId = anyRecord(records)?.screenId;
  if (screenId === undefined) return undefined;
  const left = new Map([...records.configurations].map(([id, ways]) => [id, ways.map((way) => way.line)]));
  for (const [id, line] of basis.samplesOf(records)) left.set(id, [...(left.get(id) ?? []), line]);
  const configurationLines = (id: Sha256): readonly string[] => {
    const lines = left.get(id) ?? [];
    left.delete(id);
    return lines;
  };
  const recordLine = (id: Sha256) => records.lines.get(id)![0]!.text;
  const entries = screenEntries(records);
  const others = [...records.withdrawals.keys(), ...records.signatures.keys()].sort();
  const lines = [
    ...entries.flatMap(({ id, entry }) => [recordLine(id), ...configurationLines(entry.configuration)]),
    ...others.map(recordLine),
  ];
  return {
    screenId,
    ids: [...entries.map((item) => item.id), ...others],
    lines: [...lines, ...[...left.values()].flat()],
  };
}

/** The references that screens rest on. */
class Basis {
  private readonly texts = new Set<string>();
  private readonly store: FileStore;

  constructor(store: FileStore) {
    this.store = store;
  }

  lines(): readonly string[] {
    return [...this.texts].map(wholeLine).sort();
  }

  /**
   * Takes in the references that a screen rests on. Samples that are close to the common reference come back as
   * lines for the screen: kept so they take a third of the room.
   */
  samplesOf(records: ScreenRecords): ReadonlyMap<Sha256, string> {
    const lines = new Map<Sha256, string>();
    const common = this.commonOf(records);
    for (const text of this.referencesOf(records)) {
      const line =
        common === undefined || common === text
          ? undefined
          : editedLine(sha256(text), sha256(common), editsBetween(pieces(common), pieces(text)));
      if (common !== undefined && line !== undefined && line.length < text.length * WORTHWHILE_SHARE) {
        lines.set(sha256(text), line);
        this.texts.add(common);
      } else {
        this.texts.add(text);
      }
    }
    return lines;
  }

  private referencesOf(records: ScreenRecords): ReadonlySet<string> {
    const resolve = configurationResolver(this.store, records);
    const references = [...records.entries.values()].map((entry) => resolve(entry.configuration)?.reference);
    return new Set(references.filter((reference) => reference !== undefined));
  }

  private commonOf(records: ScreenRecords): string | undefined {
    const profiles = new Set([...records.entries.values()].map((entry) => entry.unit.profileId));
    return [...profiles]
      .flatMap((profileId) => readReferences(this.store, profileId))
      .find((reference) => reference.role !== "sample")?.text;
  }
}
