import { NOT_THIS_UNIT, UNDECIDED } from "../not-this-unit.ts";
import { ask, outcomeOf, type Part, type StepContext, type StepItem } from "../step.ts";
import { place } from "../words.ts";
import { NO_TERMINAL, terminalItem } from "./terminals.ts";
import { withoutMember } from "./without-member.ts";

/** The fire alarm's contact: kept, or asked about; nothing is chosen in its stead. */
export function carryEmergencyMute(context: StepContext): Part {
  const { next, to } = context;
  const mute = next.operation.emergencyMute;
  if (mute === undefined) return { next, items: [], questions: [] };
  const at = place("operation/emergencyMute", "Emergency mute");
  const values = ["enabled", "activeWhen", "release"].map((name) => `${at.address}/${name}`);
  const wired = mute.connectorId !== NO_TERMINAL;
  if (to.operation.emergencyMute && wired) {
    const item: StepItem = {
      outcome: "kept",
      place: at,
      words: "The emergency mute is set as before. Test it with whoever is responsible for life safety.",
      claims: values,
    };
    return { next, items: [item, terminalItem(context, at, mute.connectorId)], questions: [] };
  }
  const verdict = ask(context, {
    id: at.address,
    place: at,
    words:
      "The new unit has no contact for the emergency (fire alarm) mute. What silences the auditorium in an alarm?",
    options: [
      {
        id: "outside-the-unit",
        words: "Equipment outside of the unit, planned and tested by whoever is responsible for life safety.",
        consequence:
          "The unit itself no longer mutes in an alarm. Local codes and licensed practice decide what is required.",
        numbers: {},
        weakensProtection: true,
      },
      NOT_THIS_UNIT,
    ],
    unanswered: UNDECIDED,
  });
  const item: StepItem = {
    outcome: outcomeOf(verdict, "lost"),
    place: at,
    words: `The new unit has no emergency mute contact. ${verdict.option.words}`,
    claimsRest: [at.address],
    questionId: verdict.question.id,
  };
  return {
    next: { ...next, operation: withoutMember(next.operation, "emergencyMute") },
    items: [item],
    questions: [verdict.question],
  };
}
