import { type Configuration, fieldAt, type UnitProfile } from "../../../model/index.ts";
import { quotedShort } from "../../../words/index.ts";
import { type Item, keyedRows } from "../rows.ts";
import type { Draft } from "./draft.ts";
import { meantWords } from "./names.ts";
import type { Problems, TablePlace } from "./problem.ts";

/** A name from a table that must be there elsewhere: a loudspeaker, an EQ set, a connector. */
export interface NamedElsewhere {
  readonly item: Item;
  /** The field: "presets[].sourceId". */
  readonly field: string;
  readonly name: string;
  readonly place: TablePlace;
}

/** Whether what tables name is there; connectors only where the unit's profile is at hand. */
export function checkReferences(
  draft: Draft,
  references: readonly NamedElsewhere[],
  profile: UnitProfile | undefined,
  problems: Problems,
): void {
  for (const { item, field, name, place } of references) {
    const known = knownNames(draft.configuration, field, item, profile);
    if (known === undefined || known.includes(name)) continue;
    const words = `There is no ${fieldAt(field)?.label ?? "such thing"} ${quotedShort(name)}.`;
    problems.add(place, words, meantWords(name, known));
  }
}

function knownNames(
  configuration: Configuration,
  field: string,
  item: Item,
  profile: UnitProfile | undefined,
): readonly string[] | undefined {
  if (field.endsWith("connectorId")) {
    if (profile === undefined) return undefined;
    const direction = field.startsWith("outputs") ? "output" : "input";
    return profile.connectors.filter((connector) => connector.direction === direction).map(({ id }) => id);
  }
  const list = fieldAt(field)?.refersTo;
  if (list === undefined) return undefined;
  const loudspeaker = (item.feeds as Item | undefined)?.loudspeakerId;
  return keyedRows(configuration, list)
    .filter(({ keys }) => list !== "loudspeakers[].ways" || keys[0] === loudspeaker)
    .map(({ keys }) => keys.at(-1)!);
}
