import {
  type Configuration,
  fieldAt,
  type Json,
  keyMember,
  type ProposedStep,
  type StandardDecisions,
  type UnitProfile,
} from "../../model/index.ts";
import { faderLevelDb } from "../../profile/index.ts";
import { placeAtIds, printDb, printValue } from "../../words/index.ts";
import { answerAt, type GivenAnswer } from "./answers.ts";
import { type Classified, classified, isInside } from "./classify.ts";
import type { CompiledStandard } from "./compile.ts";
import { type Deviation, deviationsFrom } from "./deviations.ts";
import { houseLevelDb, isFaderMark } from "./fader-scale.ts";
import { freeSlotBeside, withSlot } from "./free-slot.ts";
import { settleKinds } from "./kinds.ts";
import { settleNewItems } from "./new-items.ts";
import { type Settle, unitSteps } from "./unit-steps.ts";
import { writeAt } from "./write-at.ts";

/** A standard, what was followed before it, and what was decided. */
export interface ApplyOptions {
  readonly standard: CompiledStandard;
  /** The version that the screen last followed. @defaultValue none: whatever differs is asked about */
  readonly followed?: CompiledStandard | undefined;
  /** The screen's unit: values settle on its steps. */
  readonly profile?: UnitProfile | undefined;
  readonly decisions?: StandardDecisions | undefined;
}

/** A configuration on a standard, with the steps that led to it. */
export interface Applied {
  /** The screen's configuration with everything taken that could be; equal to the old one where nothing was. */
  readonly configuration: Configuration;
  /** Every place where screen and standard differ, in the order of the document. */
  readonly steps: readonly ProposedStep[];
  /** Positions of the answers that were used. */
  readonly answersUsed: readonly number[];
}

/**
 * Brings a screen to a standard, three ways: the version last followed, the new version, the screen. What the standard
 * leaves alone or did not change stays as the screen has it; what only the standard changed is taken; what both changed is
 * asked. Only what the house owns is ever changed (see `FieldOwner`).
 *
 * @example
 * const { configuration, steps } = applyStandard(screen, { standard, followed, profile, decisions });
 * steps.filter(({ outcome }) => outcome === "asks"); // what is still open
 */
export function applyStandard(configuration: Configuration, options: ApplyOptions): Applied {
  const { standard, followed, profile, decisions } = options;
  const settle = unitSteps(configuration, profile);
  const used = new Set<number>();
  const answer = (path: readonly string[]): GivenAnswer | undefined => {
    const given = answerAt(decisions, path, configuration.screen);
    if (given !== undefined) used.add(given.index);
    return given;
  };
  const fates = classified(configuration, deviationsFrom(configuration, standard, settle), {
    standard,
    followed,
    settle,
  });
  const draft = structuredClone(configuration);
  const steps = fates
    .filter((fate) => !isInRemovedItem(fate.deviation, fates) && !waitsForKind(fate, answer))
    .map((fate) => stepOf(fate, { configuration, answer, settle, draft, standard, profile }));
  const changed = steps.some(({ outcome }) => CHANGES.has(outcome));
  if (changed) settleKinds(draft, configuration, standard);
  const inside = changed ? settleNewItems(draft, steps, { standard, profile, answer }) : [];
  return {
    configuration: changed ? draft : configuration,
    steps: [...steps, ...inside],
    answersUsed: [...used].sort((a, b) => a - b),
  };
}

const CHANGES: ReadonlySet<ProposedStep["outcome"]> = new Set(["taken", "rounded", "nearest"]);

/** Of an item that goes as a whole, nothing inside is told. */
function isInRemovedItem({ path, kind }: Deviation, fates: readonly Classified[]): boolean {
  return fates.some(
    ({ deviation, becomes }) =>
      deviation.kind === "extra-item" &&
      becomes === "taken" &&
      isInside(path, deviation.path) &&
      (kind !== "extra-item" || path.length > deviation.path.length),
  );
}

/** While nobody has decided about a kind, nothing is asked about what goes with it. */
function waitsForKind({ leader }: Classified, answer: Applying["answer"]): boolean {
  return leader !== undefined && decided(leader, answer).outcome === "asks";
}

interface Applying {
  readonly configuration: Configuration;
  readonly answer: (path: readonly string[]) => GivenAnswer | undefined;
  readonly settle: Settle;
  readonly draft: Configuration;
  readonly standard: CompiledStandard;
  readonly profile: UnitProfile | undefined;
}

type Outcome = Pick<ProposedStep, "outcome" | "why">;

function stepOf(
  fate: Classified,
  { configuration, answer, settle, draft, standard: compiled, profile }: Applying,
): ProposedStep {
  const { deviation } = fate;
  const { outcome, why: because } = decided(fate, answer);
  const before =
    deviation.kind === "missing-item"
      ? null
      : plain(deviation.kind === "value" ? deviation.actual : deviation.item);
  const standard =
    deviation.kind === "value"
      ? deviation.wanted.value
      : deviation.kind === "missing-item"
        ? withSlot(deviation.path, deviation.item, freeSlotBeside(draft, deviation, profile))
        : null;
  const changes = CHANGES.has(outcome);
  if (changes) writeAt(draft, deviation.path, standard);
  return {
    place: deviation.path.join("/"),
    field: deviation.field,
    ...deviationWords(configuration, deviation),
    outcome,
    why: because + scaleNote(deviation, compiled, settle),
    screen: before,
    standard: outcome === "rounded" || deviation.kind !== "value" ? standard : wish(deviation),
    result: changes ? standard : before,
    ...holdOf(deviation),
    ...(deviation.kind === "value" &&
      deviation.wanted.reach === "beyond" &&
      outcome !== "by-hand" && { nearest: deviation.wanted.value }),
    ...(deviation.reason !== undefined && { reason: deviation.reason }),
  } as ProposedStep;
}

function decided({ leader, ...fate }: Classified, answer: Applying["answer"]): Outcome {
  if (leader === undefined) return decidedAlone(fate, answer);
  const first = decided(leader, answer);
  return CHANGES.has(first.outcome)
    ? decidedAlone({ ...fate, becomes: "taken", why: first.why }, answer)
    : first;
}

function decidedAlone({ deviation, becomes, why }: Classified, answer: Applying["answer"]): Outcome {
  if (becomes === "kept" || becomes === "by-hand") return { outcome: becomes, why };
  const reach = deviation.kind === "value" ? deviation.wanted.reach : "fits";
  if (becomes === "taken" && reach !== "beyond") return takenOn(reach, why);
  const given = answer(deviation.path);
  const note = given?.note === undefined ? "" : ` ${given.note}`;
  if (given?.choose === "screen") return { outcome: "kept-by-decision", why: `By decision.${note}` };
  if (reach !== "beyond")
    return given === undefined ? { outcome: "asks", why } : takenOn(reach, `By decision.${note}`);
  if (given?.choose === "nearest")
    return { outcome: "nearest", why: `The unit cannot do what the standard says. By decision.${note}` };
  return { outcome: "asks", why: `${why} The unit cannot do what the standard says.` };
}

function takenOn(reach: "fits" | "rounded", why: string): Outcome {
  return reach === "fits"
    ? { outcome: "taken", why }
    : { outcome: "rounded", why: `${why} Rounded to the unit's step.` };
}

/** What a mark of the standard's own fader scale means. */
function scaleNote(
  deviation: Deviation,
  { standard: { faderScale } }: CompiledStandard,
  { fader }: Settle,
): string {
  if (deviation.kind !== "value" || !isFaderMark(deviation.path)) return "";
  const { hold } = deviation.rule;
  if (faderScale === undefined || fader === undefined || hold.kind !== "exactly") return "";
  if (typeof hold.value !== "number" || typeof deviation.wanted.value !== "number") return "";
  const levelDb = printDb(houseLevelDb(faderScale, hold.value));
  const mark = printValue(deviation.field, deviation.wanted.value);
  return ` The standard's mark ${hold.value} is ${levelDb}, here ${mark} (${printDb(faderLevelDb(fader, deviation.wanted.value))}).`;
}

/** What the standard itself says, before the unit's steps. */
function wish(deviation: Deviation & { readonly kind: "value" }): Json {
  const { hold } = deviation.rule;
  return hold.kind === "exactly" ? hold.value : deviation.wanted.value;
}

function plain(value: Json | undefined): Json {
  return value === undefined ? null : value;
}

function holdOf({ rule }: Deviation) {
  const { hold } = rule;
  return hold.kind === "within" ? { hold: hold.kind, min: hold.min, max: hold.max } : { hold: hold.kind };
}

/** Where a deviation is and what it is about, in the engineer's words. */
export function deviationWords(
  configuration: Configuration,
  { path, field, kind, ...rest }: Deviation,
): Pick<ProposedStep, "words" | "label" | "unit"> {
  const words = placeAtIds(configuration, path).words;
  if (kind === "value") {
    const leaf = fieldAt(field);
    return { words, label: leaf?.label ?? field, unit: leaf?.unit ?? "" };
  }
  const sort = fieldAt(`${field}[].${keyMember(field)}`)?.label ?? "item";
  const item = (rest as { readonly item?: { readonly label?: string } }).item;
  const name = item?.label ?? path.at(-1)!;
  return { words, label: `${sort} ${name}`, unit: "" };
}
