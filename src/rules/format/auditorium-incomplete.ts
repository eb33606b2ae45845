import { CHANNELS, FORMAT_CHANNELS } from "../../model/index.ts";
import { set } from "../edits.ts";
import { labelsPresent } from "../program.ts";
import { screenRule } from "../rule.ts";

export const auditoriumIncomplete = screenRule({
  code: "format/auditorium-incomplete",
  kind: "record",
  severity: "warning",
  title: "The auditorium has a program channel for every channel of its format.",
  why: "A screen that is sold and audited as 7.1DS but has no rear surrounds is not what its papers say.",
  source: "SMPTE ST 428-12:2013 (soundfield groups)",
  remedy: "Correct the screen's format, or add the channel and its loudspeakers.",
  example: {
    breaks: [set("/screen/format", "7.1SDS")],
    mends: [set("/screen/format", "7.1DS")],
  },
  *check(context) {
    const present = labelsPresent(context);
    const { format } = context.configuration.screen;
    const missing = FORMAT_CHANNELS[format].filter((label) => !present.has(label));
    if (missing.length === 0) return;
    yield {
      path: ["screen", "format"],
      words: `The screen is ${format}, but has no ${missing.map((label) => CHANNELS[label].name).join(", ")}.`,
      numbers: { format, missing: missing.join(" ") },
    };
  },
});
