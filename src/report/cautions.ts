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

/** The same cautions as steps of a list that is ticked off. */
export const CAUTION_STEPS = {
  amplifiersOff: "Amplifiers off, fader down.",
  oldUnitOff: "Amplifiers off, old unit off.",
  beforeLoading: "Amplifiers off or muted, fader down, nobody in the auditorium.",
  loading: (what: string) => `Load ${what}; amplifiers off or muted, fader down.`,
  eachWayAlone:
    "One amplifier channel at a time, at low level. A way that plays outside its range is wired or set wrongly: switch it off at once.",
  listenLow: "Listen to each changed preset at low level.",
  testIt: "Test it with whoever is responsible for life safety.",
  testPaging: "Paging microphone: test it with whoever is responsible for life safety.",
  askWhoever: "Ask whoever is responsible for life safety.",
  measureAgain: "Measure again, then record the screen as left.",
} as const;

export type CautionCode = (typeof CAUTIONS)[number]["code"];

/** The cautions as a block of a report. */
export function cautionBlock(): Caution {
  return { kind: "caution", title: "Caution", items: CAUTIONS.map(({ words }) => words) };
}
