import { BoothkeepError } from "../../../base/errors/index.ts";
import type { Configuration, Question, UnitProfile } from "../../../model/index.ts";
import { holdsForFirmware } from "../../../profile/index.ts";
import { printHz } from "../../../words/index.ts";
import { ask, type Step, type StepContext, type StepItem } from "../step.ts";
import { place } from "../words.ts";

const NOT_KNOWN = "not-known-yet";
/** Serial number of a unit whose plate nobody has read yet. */
const NO_SERIAL = "not recorded";

/** The document itself, the auditorium, and the unit: model, serial number, firmware, sample rate. */
export const unit: Step = {
  name: "unit",
  run: (context) => {
    const document: StepItem = {
      outcome: "kept",
      place: place("screen", "Auditorium"),
      words: "The auditorium's own data are kept.",
      claims: ["$schema", "kind", "schemaVersion", "screen"],
    };
    const model = sameModel(context) ? sameUnit(context) : otherUnit(context);
    const rate = sampleRate(context);
    return {
      next: { ...context.next, unit: { ...model.unit, sampleRateHz: rate.sampleRateHz } },
      items: [document, ...model.items, rate.item],
      questions: model.questions,
    };
  },
};

function sameModel({ from, to }: StepContext): boolean {
  return from.id === to.id && from.revision === to.revision;
}

interface NewUnit {
  readonly unit: Configuration["unit"];
  readonly items: readonly StepItem[];
  readonly questions: readonly Question[];
}

function sameUnit({ old }: StepContext): NewUnit {
  const item: StepItem = {
    outcome: "kept",
    place: place("unit", "Unit"),
    words: "Same model: serial number and firmware stay as they are.",
    claims: ["unit/profileId", "unit/profileRevision", "unit/serial", "unit/firmware"],
  };
  return { unit: old.unit, items: [item], questions: [] };
}

function otherUnit(context: StepContext): NewUnit {
  const { old, to } = context;
  const serial = ask(context, serialQuestion(to));
  const firmware = ask(context, firmwareQuestion(to));
  const firmwareText = firmware.answer?.text;
  if (firmwareText !== undefined && !holdsForFirmware(to, firmwareText)) {
    throw new BoothkeepError(
      "decisions.unfit-answer",
      `The profile '${to.id}' does not hold for firmware ${firmwareText}.`,
      {
        place: { id: firmware.question.id },
        next: `Update the unit to a version in the range ${to.firmwareRange}, or use a profile for its version.`,
      },
    );
  }
  const unitNow = {
    ...old.unit,
    profileId: to.id,
    profileRevision: to.revision,
    serial: serial.answer?.text ?? NO_SERIAL,
    firmware: firmwareText ?? lowestFirmware(to),
  };
  return {
    unit: unitNow,
    items: [
      {
        outcome: "moved",
        place: place("unit", "Unit"),
        words: `The screen goes over to a ${to.label}.`,
        claims: ["unit/profileId", "unit/profileRevision"],
      },
      {
        outcome: serial.decided ? (serial.answer?.text === undefined ? "lost" : "moved") : "asks",
        place: place("unit/serial", "Unit, serial number"),
        words: `Serial number ${old.unit.serial} belongs to the old unit; the new document says '${unitNow.serial}'.`,
        claims: ["unit/serial"],
        questionId: serial.question.id,
      },
      {
        outcome: firmware.decided ? (firmwareText === undefined ? "lost" : "moved") : "asks",
        place: place("unit/firmware", "Unit, firmware"),
        words: `Firmware ${old.unit.firmware} belongs to the old unit; the new document says ${unitNow.firmware}.`,
        claims: ["unit/firmware"],
        questionId: firmware.question.id,
      },
    ],
    questions: [serial.question, firmware.question],
  };
}

function serialQuestion(to: UnitProfile): Question {
  return {
    id: "unit/serial",
    place: place("unit/serial", "Unit, serial number"),
    words: `Which serial number does the new ${to.label} have?`,
    options: [
      {
        id: "as-on-plate",
        words: "As on its plate.",
        consequence: "Loading can check that it is the right unit.",
        numbers: {},
        takes: "text",
      },
      {
        id: NOT_KNOWN,
        words: "Not known yet.",
        consequence: "Loading cannot check the serial number.",
        numbers: {},
      },
    ],
    recommended: {
      optionId: "as-on-plate",
      reason: "it guards against loading into the wrong booth's unit.",
    },
    unanswered: { optionId: NOT_KNOWN, words: `The document says '${NO_SERIAL}'.` },
  };
}

function firmwareQuestion(to: UnitProfile): Question {
  return {
    id: "unit/firmware",
    place: place("unit/firmware", "Unit, firmware"),
    words: `Which firmware does the new ${to.label} run? The profile holds for ${to.firmwareRange}.`,
    options: [
      {
        id: "as-shown",
        words: "As the unit shows it.",
        consequence: "The plan is made for just this version.",
        numbers: {},
        takes: "text",
      },
      {
        id: NOT_KNOWN,
        words: "Not known yet.",
        consequence: `The document says ${lowestFirmware(to)}; check the version before loading.`,
        numbers: {},
      },
    ],
    recommended: { optionId: "as-shown", reason: "limits and steps may differ between versions." },
    unanswered: { optionId: NOT_KNOWN, words: `The document says ${lowestFirmware(to)}.` },
  };
}

/** A version of the profile's range: the first that the text of the range itself names and allows. */
function lowestFirmware(to: UnitProfile): string {
  const named = to.firmwareRange.match(/(?<!\d)\d+\.\d+\.\d+/g) ?? [];
  return named.find((version) => holdsForFirmware(to, version)) ?? "0.0.0";
}

/** The same rate where the unit has it, else the next higher one, else its highest. */
function sampleRate({ old, to }: StepContext): { readonly sampleRateHz: number; readonly item: StepItem } {
  const was = old.unit.sampleRateHz;
  const rates = [...to.sampleRatesHz].sort((a, b) => a - b);
  const now = rates.includes(was) ? was : (rates.find((rate) => rate > was) ?? rates.at(-1)!);
  const at = place("unit/sampleRateHz", "Unit, sample rate");
  const item: StepItem =
    now === was
      ? {
          outcome: "kept",
          place: at,
          words: `The unit runs at ${printHz(was)} as before.`,
          claims: ["unit/sampleRateHz"],
        }
      : {
          outcome: "rounded",
          place: at,
          words: `The unit runs at ${printHz(now)} instead of ${printHz(was)}; responses near the upper band edge change a little, and the proof counts that in.`,
          numbers: { fromHz: was, toHz: now },
          claims: ["unit/sampleRateHz"],
        };
  return { sampleRateHz: now, item };
}
