import type { Question } from "../../../model/index.ts";
import { carryEmergencyMute } from "../operation/emergency-mute.ts";
import { carryFader } from "../operation/fader-marks.ts";
import { carryStartPreset } from "../operation/start-preset.ts";
import { assignTerminals } from "../operation/terminals.ts";
import { carryFeed, carryUse } from "../operation/uses-and-feeds.ts";
import type { Part, Step, StepContext, StepItem } from "../step.ts";

/** How the booth works with the unit: fader, start, emergency mute, paging, feeds; and all control terminals. */
export const operation: Step = {
  name: "operation",
  run: (context) => {
    const terminals = assignTerminals(context);
    const items: StepItem[] = [];
    const questions: Question[] = [];
    let { next } = terminals;
    for (const carry of PARTS) {
      const part = carry({ ...context, next });
      next = part.next;
      items.push(...part.items);
      questions.push(...part.questions);
    }
    return { next, items, questions, cables: terminals.cables };
  },
};

const PARTS: readonly ((context: StepContext) => Part)[] = [
  carryFader,
  carryStartPreset,
  carryEmergencyMute,
  (context) => carryUse(context, "nonSync", "Music between shows"),
  (context) => carryUse(context, "paging", "Paging microphone"),
  (context) => carryFeed(context, "boothMonitor", "Booth monitor"),
  (context) => carryFeed(context, "hearingImpaired", "Hearing-impaired feed"),
  (context) => carryFeed(context, "narration", "Narration feed"),
];
