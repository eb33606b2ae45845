import type { NewPlace } from "../structural-change.ts";
import { pointerPart } from "../tree.ts";

/** A member that is to be made: with a value, or with members of its own. */
export interface NewMember {
  readonly name: string;
  readonly place: NewPlace | undefined;
  readonly members: readonly NewMember[];
}

interface Growing {
  readonly name: string;
  place: NewPlace | undefined;
  readonly members: Growing[];
}

/**
 * The members that new places need, by the nearest container that there is already. Fillers alone call nothing into
 * being: an item that lacks a whole group goes on lacking it.
 */
export function treeOfPlaces(
  places: readonly NewPlace[],
  exists: (pointer: string) => boolean,
): ReadonlyMap<string, readonly NewMember[]> {
  const found = new Map<string, Growing[]>();
  for (const place of places) {
    if (place.filler) continue;
    let at = place.item;
    let i = 0;
    while (i < place.names.length - 1 && exists(at + pointerPart(place.names[i]!))) {
      at += pointerPart(place.names[i]!);
      i += 1;
    }
    if (!exists(at)) continue;
    const members = found.get(at) ?? [];
    found.set(at, members);
    grow(members, place.names.slice(i), place);
  }
  return found;
}

function grow(members: Growing[], names: readonly string[], place: NewPlace): void {
  const [name, ...rest] = names;
  let member = members.find((known) => known.name === name);
  if (member === undefined) {
    member = { name: name!, place: undefined, members: [] };
    members.push(member);
  }
  if (rest.length === 0) member.place = place;
  else grow(member.members, rest, place);
}
