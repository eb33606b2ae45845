import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const otherProfile = screenRule({
  code: "unit/other-profile",
  kind: "record",
  severity: "error",
  title: "The configuration is checked against the profile of its own unit.",
  why: "Limits of another model say nothing about this one.",
  source: COMMON_PRACTICE,
  remedy: "Name the profile of the unit in the booth, or move the configuration to the other model.",
  example: {
    breaks: [set("/unit/profileId", "marl-32")],
    mends: [set("/unit/profileId", "marl-24")],
  },
  *check({ configuration: { unit }, otherProfile }) {
    if (otherProfile === undefined) return;
    yield {
      path: ["unit", "profileId"],
      words: `The configuration is for ${unit.profileId}, the profile at hand for ${otherProfile.id}: what the unit can do was not checked.`,
      numbers: { configured: unit.profileId, profile: otherProfile.id },
    };
  },
});
