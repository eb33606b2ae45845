import { asJson, type Configuration, itemName, type Json } from "../../model/index.ts";
import { HOUSE_FIELDS, type HouseField, screenDrives } from "../standard/index.ts";

/**
 * What the house decides on one screen, short enough to be kept in an audit: so the next one can compare screens that it
 * does not read again.
 */
export interface HousePrint {
  /** Which screens should be alike: format, drive and unit. */
  readonly twins: string;
  /** Places in the order of the values: "presets/music/levelDb". */
  readonly places: readonly string[];
  /** A fingerprint of six characters for each place. */
  readonly values: string;
}

/** Characters of a fingerprint. */
export const PRINT_LENGTH = 6;

/** Prints a screen: each setting of presets, automation and operation by itself, routing and triggers as a whole. */
export function housePrint(configuration: Configuration): HousePrint {
  const { screen, unit } = configuration;
  const places: string[] = [];
  const values: string[] = [];
  for (const [place, value] of partsOf(asJson(configuration))) {
    places.push(place);
    values.push(fingerprint(JSON.stringify(value) ?? ""));
  }
  return {
    twins: `${screen.format}, ${screenDrives(configuration).join(" and ")}, unit ${unit.profileId}`,
    places,
    values: values.join(""),
  };
}

type Members = Readonly<Record<string, Json | undefined>>;

function* partsOf(configuration: Members): Generator<readonly [place: string, value: unknown]> {
  for (const [name, field] of HOUSE_FIELDS.members) {
    const value = configuration[name];
    if (field.item !== undefined) {
      const items = Array.isArray(value) ? (value as readonly Json[]) : [];
      if (field.isHeldList) yield [name, items.map(keyOf).sort()];
      for (const item of items) yield* membersOf(field.item, item as Members, `${name}/${keyOf(item)}`);
    } else yield* membersOf(field, (value ?? {}) as Members, name);
  }
}

function* membersOf(fields: HouseField, item: Members, at: string): ReturnType<typeof partsOf> {
  for (const [name, field] of fields.members) {
    const isGroupOfItsOwn = !at.includes("/") && field.members.size > 0;
    if (isGroupOfItsOwn) yield* membersOf(field, (item[name] ?? {}) as Members, `${at}/${name}`);
    else yield [`${at}/${name}`, ownedBy(field, item[name])];
  }
}

/** Of a part, what the house owns. */
function ownedBy(fields: HouseField, value: Json | undefined): unknown {
  if (fields.isLeaf || value === undefined || value === null) return value;
  if (fields.item !== undefined)
    return (value as readonly Json[]).map((item) => [keyOf(item), ownedBy(fields.item!, item)]);
  return [...fields.members].map(([name, field]) => ownedBy(field, (value as Members)[name]));
}

function keyOf(item: Json): string {
  return itemName(item, 0);
}

const DIGITS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

/**
 * Thirty-six bits of a text, for comparing, not for trusting: FNV-1a over 32 bits (G. Fowler, L. C. Noll, K.-P. Vo; constants
 * from memory), with four more from a second pass of the same sort.
 */
function fingerprint(text: string): string {
  let first = 0x811c9dc5;
  let second = text.length;
  for (let index = 0; index < text.length; index += 1) {
    const code = text.charCodeAt(index);
    first = Math.imul(first ^ code, 0x01000193);
    second = Math.imul(second ^ code, 0x85ebca6b) ^ (second >>> 13);
  }
  let print = DIGITS[((second >>> 28) << 2) | (first >>> 30)]!;
  for (let shift = 24; shift >= 0; shift -= 6) print += DIGITS[(first >>> shift) & 63]!;
  return print;
}
