import { canonicalHash } from "../../base/canonical/index.ts";
import { BoothkeepError } from "../../base/errors/index.ts";
import {
  type Address,
  type Cable,
  type Configuration,
  type Counts,
  type Decisions,
  type EqFitReport,
  leavesOf,
  type PlanDocument,
  type PlanItem,
  type Staging,
  type UnitProfile,
} from "../../model/index.ts";
import { arranged, arrangedProfile, inOrderOf } from "./arrange.ts";
import { checkAnswersAreAsked, throwFaults } from "./decisions.ts";
import { type EqFits, fitEqualizer, rememberedFits } from "./equalizers/eq-task.ts";
import { rulingOut } from "./not-this-unit.ts";
import { panelIndex } from "./order.ts";
import type { StepContext, StepItem, StepResult } from "./step.ts";
import { STEPS } from "./steps/index.ts";
import { wordsOf } from "./words.ts";

/** How a configuration is expressed for another unit, the new configuration included. */
export type Plan = Omit<PlanDocument, "configuration"> & { readonly configuration: Configuration };

/** The two units and what was decided. */
export interface PlanOptions {
  /** What the configuration was made for. */
  readonly from: UnitProfile;
  /** What it has to run on. */
  readonly to: UnitProfile;
  /** Answers to the plan's questions. @defaultValue none: everything stays open that is not a matter of course */
  readonly decisions?: Decisions | undefined;
  /** Where EQ fits come from. @defaultValue computed here, equal ones once */
  readonly eqFits?: EqFits | undefined;
}

/**
 * Plans how a configuration goes onto another unit. Equal arguments give an equal plan, byte by byte; the order of lists
 * in the configuration changes nothing but the order of the same lists in the new one.
 *
 * The plan accounts for every leaf value of the old configuration in exactly one item. It does not vouch for itself:
 * whether the new configuration sounds the same, `prove` says.
 *
 * @param configuration valid for `from`; nothing in it is changed
 * @throws BoothkeepError migrate.other-profile: the configuration is not of the unit `from`
 * @throws BoothkeepError decisions.*: the decisions do not fit the plan's questions
 * @example
 * const plan = planMigration(left, { from, to });
 * plan.questions.filter(({ answer }) => answer === undefined); // what is still to be decided
 */
export function planMigration(configuration: Configuration, options: PlanOptions): Plan {
  checkProfiles(configuration, options);
  const { decisions } = options;
  const from = arrangedProfile(options.from);
  const to = arrangedProfile(options.to);
  const old = arranged(configuration, from);
  const leaves = [...leavesOf(old).keys()];
  const claimed = new Set<Address>();
  const items: PlanItem[] = [];
  const results: StepResult[] = [];
  let context: StepContext = {
    old,
    next: old,
    from,
    to,
    decisions,
    faults: [],
    leaves,
    claimed,
    words: wordsOf(old),
    eqFits: options.eqFits ?? rememberedFits(fitEqualizer),
  };
  const children = childrenOf(leaves);
  for (const step of STEPS) {
    const result = step.run(context);
    for (const item of result.items ?? []) {
      const claims = claimsOf(item, children, claimed, step.name);
      if (claims.length > 0) items.push(planItem(step.name, item, claims));
    }
    results.push(result);
    context = { ...context, next: result.next };
  }
  const questions = results.flatMap((result) => result.questions ?? []);
  throwFaults(context.faults);
  if (decisions !== undefined) checkAnswersAreAsked(decisions, questions);
  return {
    kind: "boothkeep.plan",
    schemaVersion: "1.0.0",
    screen: { siteId: configuration.screen.siteId, screenId: configuration.screen.screenId },
    from: { profileId: from.id, profileRevision: from.revision },
    to: { profileId: to.id, profileRevision: to.revision },
    configurationSha256: canonicalHash(configuration),
    effort: decisions?.effort ?? "thorough",
    decided: questions.every(({ answer }) => answer !== undefined) && rulingOut(questions).length === 0,
    values: leaves.length,
    counts: countsOf(items),
    items,
    questions,
    joins: results.flatMap((result) => result.joins ?? []),
    folds: results.flatMap((result) => result.folds ?? []),
    cables: inRackOrder(
      results.flatMap((result) => result.cables ?? []),
      from,
    ),
    equalizers: results.flatMap((result): readonly EqFitReport[] => result.equalizers ?? []),
    levels: results.find(({ levels }) => levels !== undefined)?.levels ?? nothingStaged("dB"),
    delays: results.find(({ delays }) => delays !== undefined)?.delays ?? nothingStaged("ms"),
    configuration: inOrderOf(context.next, configuration),
  };
}

function checkProfiles(configuration: Configuration, { from, to, decisions }: PlanOptions): void {
  if (configuration.unit.profileId !== from.id) {
    throw new BoothkeepError(
      "migrate.other-profile",
      `The configuration was made for '${configuration.unit.profileId}', not for '${from.id}'.`,
      { place: { pointer: "/unit/profileId" }, next: `Give the profile '${configuration.unit.profileId}'.` },
    );
  }
  const there = new Set(from.connectors.map(({ id }) => id));
  const used = [...leavesOf(configuration)].filter(([address]) => address.endsWith("/connectorId"));
  const unknown = used.find(([, id]) => !there.has(String(id)));
  if (unknown !== undefined) {
    throw new BoothkeepError(
      "migrate.other-profile",
      `The configuration uses the connector '${unknown[1]}', which '${from.id}' does not have.`,
      {
        place: { id: unknown[0] },
        next: "Run 'boothkeep validate' on the configuration and correct what it finds.",
      },
    );
  }
  const other = decisions?.toProfileId !== undefined && decisions.toProfileId !== to.id;
  const otherFrom = decisions?.fromProfileId !== undefined && decisions.fromProfileId !== from.id;
  if (other || otherFrom) {
    throw new BoothkeepError(
      "decisions.other-units",
      `The decisions were made for going from '${decisions.fromProfileId}' to '${decisions.toProfileId}'.`,
      { next: `Use a decisions file for '${from.id}' to '${to.id}'.` },
    );
  }
}

/** The leaves below every place, so that a claim on a place is found without a search. */
function childrenOf(leaves: readonly Address[]): ReadonlyMap<Address, readonly Address[]> {
  const children = new Map<Address, Address[]>();
  for (const leaf of leaves) {
    for (let end = leaf.length; end > 0; end = leaf.lastIndexOf("/", end - 1)) {
      const place = leaf.slice(0, end);
      const list = children.get(place);
      if (list === undefined) children.set(place, [leaf]);
      else list.push(leaf);
    }
  }
  return children;
}

/** The leaves that an item accounts for; marks them as claimed. Two items on one leaf are a defect of a step. */
function claimsOf(
  item: StepItem,
  children: ReadonlyMap<Address, readonly Address[]>,
  claimed: Set<Address>,
  step: string,
): readonly Address[] {
  const exact = (item.claims ?? []).flatMap((place) => children.get(place) ?? []);
  for (const leaf of exact) {
    if (claimed.has(leaf)) throw new RangeError(`step ${step} claims ${leaf} a second time`);
    claimed.add(leaf);
  }
  const rest = (item.claimsRest ?? []).flatMap((place) => children.get(place) ?? []);
  const free = rest.filter((leaf) => !claimed.has(leaf));
  for (const leaf of free) claimed.add(leaf);
  return [...exact, ...free];
}

function planItem(step: PlanItem["step"], item: StepItem, claims: readonly Address[]): PlanItem {
  return {
    id: `${step}:${item.place.address}:${item.outcome}`,
    step,
    outcome: item.outcome,
    place: item.place,
    words: item.words,
    numbers: item.numbers ?? {},
    claims: [...claims].sort(),
    ...(item.questionId === undefined ? {} : { questionId: item.questionId }),
  };
}

function countsOf(items: readonly PlanItem[]): Counts {
  const counts = { kept: 0, rounded: 0, refitted: 0, moved: 0, restaged: 0, asks: 0, lost: 0 };
  for (const { outcome, claims } of items) counts[outcome] += claims.length;
  return counts;
}

const DIRECTIONS = ["input", "output", "control"] as const;

function inRackOrder(cables: readonly Cable[], from: UnitProfile): readonly Cable[] {
  const index = panelIndex(from);
  const first = ({ from: plugs }: Cable) => index.get(plugs[0]?.connectorId ?? "") ?? 0;
  return [...cables].sort(
    (a, b) => DIRECTIONS.indexOf(a.direction) - DIRECTIONS.indexOf(b.direction) || first(a) - first(b),
  );
}

function nothingStaged(unit: Staging["unit"]): Staging {
  return { unit, betweenWays: 0, betweenChannels: 0, betweenPresets: 0, common: 0, largest: 0 };
}
