import type { Caution } from "./document.ts";

/**
 * The usual cautions. Everything that loads, migrates or prints a configuration shows them, and only from here.
 * Source: common practice, no source; what emergency equipment must do is a matter of local codes.
 */
export const CAUTIONS = [
  {
    code: "amplifiers-off",
    words: "Before loading settings: amplifiers off or muted, fader down.",
  },
  {
    code: "each-way-alone",
    words:
      "Wrong crossovers destroy drivers. Check each way alone, at low level, before anything plays at full level.",
  },
  {
    code: "hearing",
    words: "Protect hearing. Nobody in the auditorium at the first sound.",
  },
  {
    code: "life-safety",
    words:
      "After a swap, test the emergency (fire alarm) mute and the paging microphone with whoever is responsible for life safety. Local codes and licensed practice decide what is required, not this tool.",
  },
  {
    code: "measure-again",
    words:
      "Measure again before handing over: equal settings are not equal sound if anything else has changed.",
  },
] as const;

export type CautionCode = (typeof CAUTIONS)[number]["code"];

/** The cautions as a block of a report. */
export function cautionBlock(): Caution {
  return { kind: "caution", title: "Caution", items: CAUTIONS.map(({ words }) => words) };
}
