import type { Feed } from "../../model/index.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

const FEEDS = [
  { name: "hearingImpaired", kind: "hearing-impaired", words: "hearing-impaired feed" },
  { name: "narration", kind: "narration", words: "narration feed" },
  { name: "boothMonitor", kind: "booth-monitor", words: "booth monitor" },
] as const satisfies readonly {
  readonly name: string;
  readonly kind: Feed["kind"];
  readonly words: string;
}[];

export const feedElsewhere = screenRule({
  code: "operation/feed-elsewhere",
  kind: "routing",
  severity: "error",
  title: "The headset feeds and the booth monitor come from outputs that are for them.",
  why: "A headset transmitter on the wrong output sends the wrong program to people who cannot do without it.",
  source: COMMON_PRACTICE,
  remedy: "Choose the output that feeds it.",
  example: {
    breaks: [set("/operation/narration/outputId", "hi")],
    mends: [set("/operation/narration/outputId", "narration")],
  },
  *check({ configuration: { operation }, outputs }) {
    for (const { name, kind, words } of FEEDS) {
      const outputId = operation[name]?.outputId;
      if (outputId === undefined) continue;
      const output = outputs.get(outputId)?.item;
      if (output?.feeds.kind === kind) continue;
      yield {
        path: ["operation", name, "outputId"],
        words:
          output === undefined
            ? `There is no output '${outputId}'.`
            : `Output ${output.label} is not for the ${words}.`,
        numbers: { outputId },
      };
    }
  },
});
