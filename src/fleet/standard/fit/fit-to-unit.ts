import type { Finding } from "../../../base/findings/index.ts";
import { fitEqualizer, rememberedFits } from "../../../migrate/plan/index.ts";
import { type Configuration, type FittedItem, type FittingQuestion, valueAt } from "../../../model/index.ts";
import type { FitContext, FitStage, FitVerdict } from "./ask.ts";
import { withinCount } from "./counts.ts";
import { withoutFaults } from "./faults.ts";
import { onTheUnit } from "./on-the-unit.ts";
import { withRecalls } from "./recalls.ts";
import { withEqualizations, withFeeds } from "./references.ts";
import { withOwnChannelsOnly } from "./set-channels.ts";
import { withinSlots } from "./slots.ts";
import { withSourceChannels } from "./source-channels.ts";
import { withOneTriggerEach } from "./triggers.ts";

export type FitOptions = Omit<FitContext, "screen" | "eqFits"> & Partial<Pick<FitContext, "eqFits">>;

export interface Fitted {
  readonly configuration: Configuration;
  /** What became of places on this unit. */
  readonly items: readonly FittedItem[];
  /** Everything that had to be decided, answered or not. */
  readonly questions: readonly FittingQuestion[];
  /** What the rule book newly finds in the configuration; nothing while something else is open. */
  readonly findings: readonly Finding[];
  /** Positions of the answers that were used. */
  readonly answersUsed: readonly number[];
}

type Stage = (context: FitContext, target: Configuration) => FitStage;

/**
 * Counts come before what needs the items, what a plan may leave out before what names it; presets get their slots when it
 * is clear which there are. Terminals are found by the plan, so that only then it is clear which triggers are the same.
 */
const STAGES: readonly Stage[] = [
  withOwnChannelsOnly,
  (context, target) => withinCount(context, target, "sources"),
  withSourceChannels,
  withFeeds,
  (context, target) => withinCount(context, target, "equalizations"),
  (context, target) => withinCount(context, target, "presets"),
  withinSlots,
  withEqualizations,
  withRecalls,
  withOneTriggerEach,
  (context, target) => withinCount(context, target, "automation"),
  onTheUnit,
  withFeeds,
  withEqualizations,
  withRecalls,
  withOneTriggerEach,
];

/**
 * Brings what a standard wants of a screen onto its unit: presets into slots that it has, sources into its inputs, EQ sets
 * by its filters. What cannot be is asked, with what this unit and this screen could do instead. Nothing that the screen
 * aligned changes.
 *
 * @param screen the screen as it is
 * @param target the screen as the standard wants it (`applyStandard`)
 */
export function fitToUnit(screen: Configuration, target: Configuration, options: FitOptions): Fitted {
  const context: FitContext = {
    ...options,
    screen,
    eqFits: options.eqFits ?? rememberedFits(fitEqualizer),
  };
  let configuration = target;
  const items: FittedItem[] = [];
  const verdicts = new Map<string, FitVerdict>();
  const take = (result: FitStage) => {
    configuration = result.configuration;
    items.push(...result.items);
    for (const verdict of result.verdicts) verdicts.set(verdict.question.place, verdict);
  };
  for (const stage of STAGES) take(stage(context, configuration));
  let findings: readonly Finding[] = [];
  // What an open question leads to is not known yet, so nothing is said against it.
  if (![...verdicts.values()].some(({ isOpen }) => isOpen)) {
    const checked = withoutFaults(context, configuration);
    take(checked);
    findings = checked.findings;
  }
  return {
    configuration,
    items: items.filter((item) => !isOfLostItem(item, configuration)),
    questions: [...verdicts.values()].map(({ question }) => question),
    findings,
    answersUsed: [...verdicts.values()].flatMap(({ answerIndex }) => answerIndex ?? []),
  };
}

/** Of a part that is not there any more, only that is told. */
function isOfLostItem({ place, outcome }: FittedItem, configuration: Configuration): boolean {
  if (outcome === "left-out" || outcome === "asks") return false;
  return valueAt(configuration, place.split("/").slice(0, 2)) === undefined;
}
