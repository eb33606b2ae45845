import { expect } from "vitest";
import { changesBetween } from "../../../src/diff/changes/index.ts";
import { acceptanceOf } from "../../../src/fleet/drift/index.ts";
import { deviationsFrom, unitSteps } from "../../../src/fleet/standard/index.ts";
import { type ProposedConfiguration, proposeStandard } from "../../../src/jobs/index.ts";
import { fitEqualizer, rememberedFits } from "../../../src/migrate/plan/index.ts";
import {
  type Configuration,
  fieldAt,
  type Proposal,
  type StandardAnswer,
  type StandardLine,
  type UnitProfile,
} from "../../../src/model/index.ts";
import { compiledOf, largeProfile, mediumProfile, smallProfile } from "./support.ts";

const eqFits = rememberedFits(fitEqualizer);

/** Proposes for a screen on its own unit, with answers. */
export function proposed(
  screen: Configuration,
  lines: readonly StandardLine[],
  {
    answers = [],
    followed,
    profile = profileOf(screen),
  }: {
    readonly answers?: readonly StandardAnswer[];
    readonly followed?: readonly StandardLine[];
    readonly profile?: UnitProfile;
  } = {},
): ProposedConfiguration {
  return proposeStandard(screen, {
    standard: compiledOf(lines, "2.0.0"),
    ...(followed !== undefined && { followed: compiledOf(followed) }),
    profile,
    eqFits,
    decisions: {
      kind: "boothkeep.standard-decisions",
      schemaVersion: "1.0.0",
      standardId: "house",
      toVersion: "2.0.0",
      answers,
    },
  });
}

export function profileOf({ unit }: Configuration): UnitProfile {
  return [largeProfile, mediumProfile, smallProfile].find(({ id }) => id === unit.profileId)!;
}

/** The keys of what is still asked. */
export function open({ steps, questions }: Proposal): readonly string[] {
  return [
    ...steps.filter(({ outcome }) => outcome === "asks"),
    ...questions.filter(({ chosen }) => chosen === null),
  ].map(({ place }) => place);
}

/** The option ids of a question. */
export function optionsOf({ questions }: Proposal, place: string): readonly string[] {
  return questions.find((question) => question.place === place)!.options.map(({ id }) => id);
}

/**
 * Nothing but what the house owns may differ; parts that come or go as a whole are presets, automation, sources and their
 * channels, EQ sets. A trigger that becomes one of another kind comes in elsewhere.
 */
export function expectAlignmentUntouched(before: Configuration, after: Configuration): void {
  const kinds = new Map(before.automation.map(({ id, trigger }) => [id, trigger.kind]));
  const rewired = new Set(
    after.automation.filter(({ id, trigger }) => kinds.get(id) !== trigger.kind).map(({ id }) => id),
  );
  for (const change of changesBetween(before, after, { identity: "literal" }).changes) {
    const at = change.path.join("/");
    const field = fieldAt(change.field);
    if (field === undefined) {
      const isWhole = change.path.length === 2 && WHOLE.has(change.path[0]!);
      const isRouting = change.field.startsWith("presets[]");
      const isUse = /^operation\.(nonSync|paging)$/.test(change.field);
      const isInput = /^sources\/[^/]+\/channels\/[^/]+$/.test(at);
      expect(isWhole || isRouting || isUse || isInput, at).toBe(true);
      if (change.path[0] === "equalizations") expect(change.kind, at).toBe("added");
    } else if (change.field.startsWith("automation[].trigger") && rewired.has(change.path[1]!)) continue;
    else expect(field.owner, at).toBe("house");
  }
}

const WHOLE: ReadonlySet<string> = new Set(["presets", "automation", "sources", "equalizations"]);

/** Answers to whatever is asked, by a number that picks the option; ids are taken from the start of the candidates. */
export function settled(screen: Configuration, lines: readonly StandardLine[], picks: readonly number[]) {
  const answers: StandardAnswer[] = [];
  for (let round = 0; round < 12; round += 1) {
    const result = proposed(screen, lines, { answers });
    const { steps, questions } = result.proposal;
    const asked = [
      ...steps
        .filter(({ outcome }) => outcome === "asks")
        .map(({ place, nearest, screen: own }) => ({
          place,
          choices: [
            nearest === undefined ? "standard" : "nearest",
            ...(own === null && nearest !== undefined ? [] : ["screen"]),
          ],
          question: undefined,
        })),
      ...questions
        .filter(({ chosen }) => chosen === null)
        .map((question) => ({
          place: question.place,
          choices: question.options.map(({ id }) => id),
          question,
        })),
    ];
    if (asked.length === 0) return { ...result, answers };
    for (const { place, choices, question } of asked) {
      const choose = choices[picks[answers.length % picks.length]! % choices.length]!;
      const option = question?.options.find(({ id }) => id === choose);
      answers.push({
        place,
        choose,
        ...(option?.idsCount !== undefined && { ids: option.candidates!.slice(0, option.idsCount) }),
        ...(option?.weakensProtection === true && { accepts: "weaker-protection" as const }),
      });
    }
  }
  throw new Error("it asks without end");
}

/**
 * What a screen does not follow after its proposal was loaded was decided, or is for a person: so drift tells nothing that
 * nobody knows of.
 */
export function expectDeviationsKnown(
  { proposal, configuration }: { readonly proposal: Proposal; readonly configuration: Configuration },
  lines: readonly StandardLine[],
): void {
  const standard = compiledOf(lines, proposal.standard.version);
  const settle = unitSteps(configuration, profileOf(configuration));
  const applied = {
    entryId: "entry",
    number: 2,
    recordedAt: "2026-11-02T10:00:00Z",
    recordedBy: "Service team",
    proposal,
    configuration: () => configuration,
  };
  const byHand = new Set(
    proposal.steps.filter(({ outcome }) => outcome === "by-hand").map(({ place }) => place),
  );
  const unknown = deviationsFrom(configuration, standard, settle)
    .filter((deviation) => acceptanceOf(deviation, [applied], standard.standard) === undefined)
    .map(({ path }) => path.join("/"))
    .filter((place) => !byHand.has(place));
  expect(unknown).toEqual([]);
}
