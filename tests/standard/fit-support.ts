import { expect } from "vitest";
import { changesBetween } from "../../src/changes/index.ts";
import { type ProposedConfiguration, proposeStandard } from "../../src/jobs/index.ts";
import { fitEqualizer, rememberedFits } from "../../src/migrate/index.ts";
import {
  type Configuration,
  fieldAt,
  type Proposal,
  type StandardAnswer,
  type StandardLine,
  type UnitProfile,
} from "../../src/model/index.ts";
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

/** Nothing but what the house owns may differ; parts that come or go as a whole are presets, automation, sources, EQ sets. */
export function expectAlignmentUntouched(before: Configuration, after: Configuration): void {
  for (const change of changesBetween(before, after, { identity: "literal" }).changes) {
    const at = change.path.join("/");
    const field = fieldAt(change.field);
    if (field === undefined) {
      const isWhole = change.path.length === 2 && WHOLE.has(change.path[0]!);
      const isRouting = change.field.startsWith("presets[]");
      const isUse = /^operation\.(nonSync|paging)$/.test(change.field);
      expect(isWhole || isRouting || isUse, at).toBe(true);
      if (change.path[0] === "equalizations") expect(change.kind, at).toBe("added");
    } else expect(field.owner, at).toBe("house");
  }
}

const WHOLE: ReadonlySet<string> = new Set(["presets", "automation", "sources", "equalizations"]);
