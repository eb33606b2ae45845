import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const profileRevision = screenRule({
  code: "unit/profile-revision",
  kind: "record",
  severity: "advice",
  title: "The configuration was made with the present revision of the profile.",
  why: "A profile is revised when something about the unit turns out to be different: look at what changed.",
  source: COMMON_PRACTICE,
  remedy: "Read the profile's notes, check the configuration, and write the present revision into it.",
  needsProfile: true,
  example: {
    breaks: [set("/unit/profileRevision", "1.1.0")],
    mends: [set("/unit/profileRevision", "1.2.0")],
  },
  *check({ configuration: { unit }, profile }) {
    if (unit.profileRevision === profile!.revision) return;
    yield {
      path: ["unit", "profileRevision"],
      words: `The configuration names revision ${unit.profileRevision} of the profile; the one at hand is ${profile!.revision}.`,
      numbers: { configured: unit.profileRevision, profile: profile!.revision },
    };
  },
});
