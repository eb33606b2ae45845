import { FIELDS, fieldAt, keyMember, LIST_KEYS, sortOfField } from "../../model/index.ts";

/** What the house owns at a place of a configuration and below it, so that one walk meets all of it. */
export interface HouseField {
  /** "presets[].levelDb" */
  readonly field: string;
  /** Position among all fields. */
  readonly order: number;
  /** A single value that the house owns. */
  readonly isLeaf: boolean;
  /** A list whose items the house chooses. */
  readonly isHeldList: boolean;
  /** The member by which the items of a list are told apart; absent: by their position. */
  readonly key?: "id" | "channelId";
  /** What is inside each item of a list. */
  readonly item?: HouseField;
  readonly members: ReadonlyMap<string, HouseField>;
}

interface Building {
  readonly field: string;
  order: number;
  isLeaf: boolean;
  isHeldList: boolean;
  key?: "id" | "channelId";
  item?: Building;
  readonly members: Map<string, Building>;
}

/** Everything that the house owns, from the root of a configuration. */
export const HOUSE_FIELDS: HouseField = houseFields();

function houseFields(): HouseField {
  const root = building("");
  for (const [order, { path, owner }] of FIELDS.entries()) {
    if (owner !== "house" || /\[\]\.(id|channelId)$/.test(path)) continue;
    Object.assign(reached(root, path), { isLeaf: true, order });
  }
  for (const [order, list] of Object.keys(LIST_KEYS).entries()) {
    if (sortOfField(list) !== "keyed-list") continue;
    if (fieldAt(`${list}[].${keyMember(list)}`)?.owner !== "house") continue;
    Object.assign(reached(root, list), { isHeldList: true, order });
  }
  return root;
}

function building(field: string): Building {
  return { field, order: 0, isLeaf: false, isHeldList: false, members: new Map() };
}

/** The field with this path, made with those above it where they are not there. */
function reached(root: Building, path: string): Building {
  let at = root;
  for (const step of path.replaceAll("[]", ".[]").split(".")) {
    if (step === "[]") {
      if (sortOfField(at.field) === "keyed-list") at.key = keyMember(at.field);
      at.item ??= building(`${at.field}[]`);
      at = at.item;
    } else {
      const field = at.field === "" ? step : `${at.field}.${step}`;
      const member = at.members.get(step) ?? building(field);
      at.members.set(step, member);
      at = member;
    }
  }
  if (sortOfField(at.field) === "keyed-list") at.key = keyMember(at.field);
  return at;
}
