import { type AuditCheck, type AuditedScreen, type AuditLayout, fieldAt } from "../../model/index.ts";
import { PRINT_LENGTH } from "./house-print.ts";
import { FEWEST_TWINS, ODD_SHARE } from "./twins.ts";

/** For each row, how the screen stands among those that should be like it. */
export function twinChecks(
  rows: readonly AuditedScreen[],
  layouts: readonly AuditLayout[],
): readonly AuditCheck[] {
  const places = new Map(layouts.map((layout) => [layout.id, layout.places]));
  const groups = new Map<string, AuditedScreen[]>();
  for (const row of rows) {
    if (row.house === undefined) continue;
    const group = groups.get(row.house.twins);
    if (group === undefined) groups.set(row.house.twins, [row]);
    else group.push(row);
  }
  const found = new Map<AuditedScreen, AuditCheck>();
  for (const group of groups.values()) {
    const odd = oddPlaces(group, places);
    for (const row of group) found.set(row, checkOf(group.length - 1, odd(row)));
  }
  return rows.map((row) => found.get(row) ?? UNKNOWN);
}

const UNKNOWN: AuditCheck = { check: "twins", state: "unknown", words: "It cannot be compared with others." };

/** So many places are named. */
const MOST_PLACES = 3;

function checkOf(others: number, odd: readonly string[]): AuditCheck {
  const check = "twins";
  if (others + 1 < FEWEST_TWINS)
    return { check, state: "none", words: "Too few screens are of its format, drive and unit." };
  if (odd.length === 0) return { check, state: "good", words: `As most of its ${others} twins are.` };
  const named = odd.slice(0, MOST_PLACES).map(placeWords).join("; ");
  const more = odd.length - MOST_PLACES;
  const words = `Other than its ${others} twins in ${odd.length} ${odd.length === 1 ? "place" : "places"}: ${named}${more > 0 ? ` and ${more} more` : ""}.`;
  return { check, state: "advice", words, count: odd.length };
}

/** "presets/music, preset level" */
function placeWords(place: string): string {
  const parts = place.split("/");
  const name = parts.at(-1)!;
  if (parts.length === 1) return `${name}, which there are`;
  const isOperation = parts[0] === "operation";
  const field = isOperation ? parts.join(".") : `${parts[0]}[].${name}`;
  return `${parts.slice(0, -1).join("/")}, ${fieldAt(field)?.label ?? name}`;
}

type Places = ReadonlyMap<string, readonly string[]>;

/** The places in which a screen of a group has what few have, where nearly all agree. */
function oddPlaces(
  group: readonly AuditedScreen[],
  places: Places,
): (row: AuditedScreen) => readonly string[] {
  const alike = new Map<string, number>();
  for (const { house } of group) {
    const key = `${house!.layout} ${house!.values}`;
    alike.set(key, (alike.get(key) ?? 0) + 1);
  }
  const tallies = new Map<string, Map<string, number>>();
  for (const [key, count] of alike) {
    for (const [place, print] of printsOf(key, places)) {
      const tally = tallies.get(place) ?? new Map<string, number>();
      tallies.set(place, tally);
      tally.set(print, (tally.get(print) ?? 0) + count);
    }
  }
  const usual = new Map<string, string>();
  for (const [place, tally] of tallies) {
    const most = usualOf(tally, group.length);
    if (most !== undefined) usual.set(place, most);
  }
  const known = new Map<string, readonly string[]>();
  return ({ house }) => {
    const key = `${house!.layout} ${house!.values}`;
    const odd =
      known.get(key) ??
      [...printsOf(key, places)]
        .filter(([place, print]) => (usual.get(place) ?? print) !== print)
        .map(([place]) => place);
    known.set(key, odd);
    return odd;
  };
}

/** What nearly all have; undefined where there is no such thing, or where only a few have the part at all. */
function usualOf(tally: ReadonlyMap<string, number>, group: number): string | undefined {
  let screens = 0;
  let most: readonly [print: string, count: number] = ["", 0];
  for (const [print, count] of tally) {
    screens += count;
    if (count > most[1]) most = [print, count];
  }
  const others = screens - most[1];
  if (screens < FEWEST_TWINS || screens < group * (1 - ODD_SHARE)) return undefined;
  return others > screens * ODD_SHARE && others > 1 ? undefined : most[0];
}

function* printsOf(key: string, places: Places): Generator<readonly [place: string, print: string]> {
  const [layout, values] = key.split(" ") as [string, string];
  for (const [index, place] of (places.get(layout) ?? []).entries()) {
    yield [place, values.slice(index * PRINT_LENGTH, (index + 1) * PRINT_LENGTH)];
  }
}
