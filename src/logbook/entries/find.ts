import type { Sha256 } from "../../base/canonical/index.ts";
import { type Finding, pointer, pointerParts } from "../../base/findings/index.ts";
import { type Logbook, type LogbookFindingCode, logbookFinding, placeOf } from "../medium/index.ts";
import {
  type CheckEntry,
  entryCheck,
  type HistoryItem,
  isRefusal,
  judgeScreen,
  standingGround,
} from "../standing/index.ts";
import { type History, type HistoryFilter, history } from "./history.ts";

/** A JSON value that is no list and no object. */
export type Scalar = string | number | boolean | null;

/** Where to look: at one place, or at every field of a name. */
export type FindPlace =
  /** JSON Pointer (RFC 6901); a part may also be the id of a list's item: `/outputs/left-hf/highPass/frequencyHz`. */
  | { readonly kind: "pointer"; readonly pointer: string }
  /** The end of a path, names joined by dots: `frequencyHz`, `highPass.frequencyHz`. */
  | { readonly kind: "field"; readonly field: string };

/** Which values are wanted. */
export type FindValue =
  | { readonly kind: "any" }
  | { readonly kind: "equal"; readonly value: Scalar }
  /** Numbers from `min` to `max`, both included. */
  | { readonly kind: "range"; readonly min?: number; readonly max?: number };

/** A value to look for at a place of every configuration. */
export interface FindQuery {
  readonly place: FindPlace;
  readonly value: FindValue;
  readonly filter?: HistoryFilter;
}

/** An entry whose configuration answers to a query, with the places that do. */
export interface FindHit {
  readonly item: HistoryItem;
  readonly places: readonly { readonly pointer: string; readonly value: Scalar }[];
}

/** Where a value was found, and in how many configurations it was looked for. */
export interface FindResult extends Pick<History, "notes" | "unlistedSites"> {
  readonly hits: readonly FindHit[];
  readonly searched: number;
  readonly findings: readonly Finding[];
}

/**
 * Finds the entries whose configurations hold a value: which screens have this crossover, when did this serial
 * number have that delay.
 *
 * @throws BoothkeepError input.no-permission, output.failed
 */
export function findEntries(logbook: Logbook, query: FindQuery): FindResult {
  const { items, findings, ...rest } = history(logbook, query.filter);
  const ground = standingGround(logbook);
  const hits: FindHit[] = [];
  const lost: Finding[] = [];
  let places = new Map<Sha256, FindHit["places"]>();
  let check: CheckEntry | undefined;
  let screen = "";
  for (const item of items) {
    const { siteId, screenId, configuration } = item.entry;
    if (check === undefined || `${siteId}\n${screenId}` !== screen) {
      check = entryCheck(ground, judgeScreen(ground, placeOf(siteId, screenId)));
      screen = `${siteId}\n${screenId}`;
      places = new Map();
    }
    let found = places.get(configuration);
    if (found === undefined) {
      const checked = check(item);
      // Another entry may name the same configuration and be at home there.
      if (isRefusal(checked))
        lost.push(logbookFinding(FINDING_OF[checked.code] ?? "logbook/lost-configuration", item.id));
      else places.set(configuration, matchesIn(checked.configuration, query));
      found = places.get(configuration) ?? [];
    }
    if (found.length > 0) hits.push({ item, places: found });
  }
  return { ...rest, hits, searched: items.length, findings: [...findings, ...lost] };
}

const FINDING_OF: Readonly<Record<string, LogbookFindingCode>> = {
  "logbook.other-screen": "logbook/other-screen",
  "logbook.not-canonical": "logbook/not-canonical",
};

function matchesIn(document: unknown, { place, value }: FindQuery): FindHit["places"] {
  const found: { pointer: string; value: Scalar }[] = [];
  const wantedEnd = place.kind === "field" ? place.field.split(".") : pointerParts(place.pointer);
  const visit = (node: unknown, path: readonly PathPart[]): void => {
    if (typeof node === "object" && node !== null) {
      for (const [name, child] of Object.entries(node)) {
        visit(child, [...path, { name, id: Array.isArray(node) ? idOf(child) : undefined }]);
      }
    } else if (isAt(path, wantedEnd, place.kind) && isWanted(node as Scalar, value)) {
      found.push({ pointer: pointer(...path.map((part) => part.name)), value: node as Scalar });
    }
  };
  visit(document, []);
  return found;
}

interface PathPart {
  readonly name: string;
  readonly id: string | undefined;
}

function isAt(path: readonly PathPart[], wanted: readonly string[], kind: FindPlace["kind"]): boolean {
  // A field is named without the positions of list items.
  const parts = kind === "field" ? path.filter((part) => !/^[0-9]+$/.test(part.name)) : path;
  if (kind === "pointer" && parts.length !== wanted.length) return false;
  const end = parts.slice(-wanted.length);
  return (
    end.length === wanted.length &&
    end.every((part, index) => part.name === wanted[index] || part.id === wanted[index])
  );
}

function isWanted(value: Scalar, wanted: FindValue): boolean {
  switch (wanted.kind) {
    case "any":
      return true;
    case "equal":
      return value === wanted.value;
    case "range":
      return (
        typeof value === "number" && value >= (wanted.min ?? -Infinity) && value <= (wanted.max ?? Infinity)
      );
  }
}

function idOf(item: unknown): string | undefined {
  const { id, channelId } = (item ?? {}) as { readonly id?: unknown; readonly channelId?: unknown };
  const key = id ?? channelId;
  return typeof key === "string" ? key : undefined;
}
