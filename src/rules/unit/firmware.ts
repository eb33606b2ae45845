import { holdsForFirmware } from "../../profile/index.ts";
import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const firmware = screenRule({
  code: "unit/firmware",
  kind: "operation",
  severity: "warning",
  title: "The profile holds for the unit's firmware.",
  why: "Another firmware may have other ranges, other filters or another order of channels.",
  source: "the unit's profile; Semantic Versioning 2.0.0 ranges",
  remedy: "Use a profile for this firmware, or bring the unit to a firmware that the profile covers.",
  needsProfile: true,
  example: {
    breaks: [set("/unit/firmware", "2.8.0")],
    mends: [set("/unit/firmware", "3.1.0")],
  },
  *check({ configuration: { unit }, profile }) {
    if (holdsForFirmware(profile!, unit.firmware)) return;
    yield {
      path: ["unit", "firmware"],
      words: `The unit runs firmware ${unit.firmware}; the profile holds for ${profile!.firmwareRange}.`,
      numbers: { firmware: unit.firmware, range: profile!.firmwareRange },
    };
  },
});
