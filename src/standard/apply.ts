import type { Json } from "../changes/index.ts";
import { pointerTo, valueAt } from "../changes/index.ts";
import { pointerParts } from "../findings/index.ts";
import {
  type Configuration,
  fieldAt,
  type ProposedStep,
  placeOf,
  type StandardDecisions,
  type UnitProfile,
} from "../model/index.ts";
import { answerAt, type GivenAnswer } from "./answers.ts";
import { type Classified, classified, isInside } from "./classify.ts";
import type { CompiledStandard } from "./compile.ts";
import { type Deviation, deviationsFrom } from "./deviations.ts";
import { keyMember } from "./field-path.ts";
import { type Settle, unitSteps } from "./unit-steps.ts";
import { writeAt } from "./write-at.ts";

export interface ApplyOptions {
  readonly standard: CompiledStandard;
  /** The version that the screen last followed. @defaultValue none: whatever differs is asked about */
  readonly followed?: CompiledStandard | undefined;
  /** The screen's unit: values settle on its steps. */
  readonly profile?: UnitProfile | undefined;
  readonly decisions?: StandardDecisions | undefined;
}

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
    followed,
    settle,
  });
  const draft = structuredClone(configuration);
  const steps = fates
    .filter(({ deviation }) => !isInRemovedItem(deviation, fates))
    .map((fate) => stepOf(fate, { configuration, answer, settle, draft }));
  return {
    configuration: steps.some(({ outcome }) => CHANGES.has(outcome))
      ? withNewItemsSettled(draft, steps, standard, profile)
      : configuration,
    steps,
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

interface Applying {
  readonly configuration: Configuration;
  readonly answer: (path: readonly string[]) => GivenAnswer | undefined;
  readonly settle: Settle;
  readonly draft: Configuration;
}

type Outcome = Pick<ProposedStep, "outcome" | "why">;

function stepOf(
  { deviation, becomes, why }: Classified,
  { configuration, answer, draft }: Applying,
): ProposedStep {
  const { outcome, why: because } = decided({ deviation, becomes, why }, answer);
  const before =
    deviation.kind === "missing-item"
      ? null
      : plain(deviation.kind === "value" ? deviation.actual : deviation.item);
  const standard =
    deviation.kind === "value"
      ? deviation.wanted.value
      : deviation.kind === "missing-item"
        ? deviation.item
        : null;
  const changes = CHANGES.has(outcome);
  if (changes) writeAt(draft, deviation.path, standard);
  return {
    place: deviation.path.join("/"),
    field: deviation.field,
    ...wordsOf(configuration, deviation),
    outcome,
    why: because,
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

function decided({ deviation, becomes, why }: Classified, answer: Applying["answer"]): Outcome {
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
export function wordsOf(
  configuration: Configuration,
  { path, field, kind, ...rest }: Deviation,
): Pick<ProposedStep, "words" | "label" | "unit"> {
  const at = pointerParts(pointerTo(configuration, path)).map((part) =>
    /^(0|[1-9][0-9]*)$/.test(part) ? Number(part) : part,
  );
  const words = placeOf(configuration, at).words;
  if (kind === "value") {
    const leaf = fieldAt(field);
    return { words, label: leaf?.label ?? field, unit: leaf?.unit ?? "" };
  }
  const sort = fieldAt(`${field}[].${keyMember(field)}`)?.label ?? "item";
  const item = (rest as { readonly item?: { readonly label?: string } }).item;
  const name = item?.label ?? path.at(-1)!;
  return { words, label: `${sort} ${name}`, unit: "" };
}

/** Items that were added take on what other lines of the standard say of places inside them. */
function withNewItemsSettled(
  draft: Configuration,
  steps: readonly ProposedStep[],
  standard: CompiledStandard,
  profile: UnitProfile | undefined,
): Configuration {
  const added = steps.filter(
    ({ outcome, screen, result }) => outcome === "taken" && screen === null && result !== null,
  );
  const inside = (path: readonly string[]) => added.some(({ place }) => isInside(path, place.split("/")));
  const settle = unitSteps(draft, profile);
  for (const { place, result } of added) settleItem(draft, place.split("/"), result as Json, settle);
  for (const deviation of deviationsFrom(draft, standard, settle)) {
    if (deviation.kind === "value" && inside(deviation.path))
      writeAt(draft, deviation.path, deviation.wanted.value);
  }
  return draft;
}

/** Puts the numbers of a part on the unit's steps. */
function settleItem(draft: Configuration, path: readonly string[], value: Json, settle: Settle): void {
  if (typeof value !== "object" || value === null) {
    const { value: settled, reach } = settle(path, value);
    if (reach === "rounded") writeAt(draft, path, settled);
    return;
  }
  const there = valueAt(draft, path);
  const entries = Array.isArray(there)
    ? (there as readonly { readonly id?: string; readonly channelId?: string }[]).map(
        (item, index) => [item.id ?? item.channelId ?? String(index), item as Json] as const,
      )
    : Object.entries(there ?? {});
  for (const [name, child] of entries) settleItem(draft, [...path, name], child as Json, settle);
}
