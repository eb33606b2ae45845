import { planMigration } from "../../../migrate/plan/index.ts";
import type { AutomationItem, Configuration, Trigger, UnitProfile } from "../../../model/index.ts";
import { ableUnit } from "./able-unit.ts";
import { askFit, FITTING, type FitContext, type FitStage, type FitVerdict } from "./ask.ts";
import { NEW_PARTS, newItems, newTriggers, withoutItems } from "./new-parts.ts";
import { fittedItems } from "./plan-items.ts";
import { decisionsOf, inHouse, refusedItems } from "./plan-questions.ts";

/**
 * Plans what the standard adds onto the screen's unit, by the steps of a migration: inputs and terminals are found, filters
 * refitted, what cannot be is asked. Only what is new goes through the plan; everything that the screen has stays out of
 * it, so that no filter, level or cable of the screen can change.
 */
export function onTheUnit(context: FitContext, target: Configuration): FitStage {
  const { screen, profile } = context;
  const isNothingNew = NEW_PARTS.every((list) => newItems(screen, target, list).length === 0);
  if (isNothingNew && newTriggers(screen, target).length === 0) {
    return { configuration: target, items: [], verdicts: [] };
  }
  const able = ableUnit(screen, withOwnLines(screen, target, profile), profile);
  const old = newPart(screen, able.configuration);
  const options = { from: able.profile, to: profile, eqFits: context.eqFits };
  let verdicts: readonly FitVerdict[] = [];
  let plan = planMigration(old, options);
  for (let asked = -1; asked < plan.questions.length; ) {
    asked = plan.questions.length;
    verdicts = plan.questions.map((question) => askFit(context, inHouse(question)));
    const decisions = decisionsOf(profile.id, plan.questions, verdicts);
    if (decisions.answers.length > 0) plan = planMigration(old, { ...options, decisions });
  }
  const refused = refusedItems(verdicts);
  const fitted = joined(screen, { target, old, planned: plan.configuration });
  const unplugged = withoutRoom(context, target, fitted, verdicts);
  return {
    configuration: withoutItems(withoutItems(fitted, "equalizations", refused), "sources", unplugged.gone),
    items: fittedItems(screen, target, plan),
    verdicts: [...verdicts, ...unplugged.verdicts],
  };
}

/** The configuration without what rooms and cables decide, and with the screen's own EQ sets empty. */
function newPart(screen: Configuration, target: Configuration): Configuration {
  const own = new Set(screen.equalizations.map(({ id }) => id));
  const { calibration: _calibration, ...rest } = target;
  const {
    boothMonitor: _monitor,
    hearingImpaired: _hi,
    narration: _narration,
    ...operation
  } = target.operation;
  return {
    ...rest,
    automation: target.automation.filter(({ action }) => !isLost(target, action)),
    equalizations: target.equalizations.map((set) => (own.has(set.id) ? { ...set, channels: [] } : set)),
    loudspeakers: [],
    outputs: [],
    operation: withoutLostUses(target, operation),
  };
}

/** What was lost on the screen already is for 'validate' to find: a plan would ask about it. */
function isLost({ presets, sources }: Configuration, action: AutomationItem["action"]): boolean {
  if (action.kind === "recall-preset") return !presets.some(({ id }) => id === action.presetId);
  return action.kind === "select-source" && !sources.some(({ id }) => id === action.sourceId);
}

function withoutLostUses(
  { presets, sources }: Configuration,
  { nonSync, paging, startPresetId, ...operation }: Configuration["operation"],
): Configuration["operation"] {
  const isThere = (use: { readonly presetId: string; readonly sourceId: string }) =>
    presets.some(({ id }) => id === use.presetId) && sources.some(({ id }) => id === use.sourceId);
  return {
    ...operation,
    ...(presets.some(({ id }) => id === startPresetId) && { startPresetId: startPresetId! }),
    ...(nonSync !== undefined && isThere(nonSync) && { nonSync }),
    ...(paging !== undefined && isThere(paging) && { paging }),
  };
}

/**
 * A network trigger of a new item comes in by the screen's control interface, one over a serial line by the line that the
 * screen's own use, whatever the standard calls them: both carry any number of triggers.
 */
function withOwnLines(screen: Configuration, target: Configuration, profile: UnitProfile): Configuration {
  const interfaces = new Set(target.network.interfaces.map(({ id }) => id));
  const lines = profile.connectors.filter(({ kind }) => kind === "serial").map(({ id }) => id);
  const control = target.network.interfaces.find(({ purpose }) => purpose === "control")?.id;
  const used = screen.automation.flatMap(({ trigger }) =>
    trigger.kind === "serial" ? [trigger.connectorId] : [],
  );
  const line = used.find((id) => lines.includes(id)) ?? lines[0];
  const added = new Set(newTriggers(screen, target).map(({ id }) => id));
  const onOwnLine = (trigger: Trigger): Trigger => {
    if (trigger.kind === "network" && control !== undefined && !interfaces.has(trigger.interfaceId))
      return { ...trigger, interfaceId: control };
    if (trigger.kind === "serial" && line !== undefined && !lines.includes(trigger.connectorId))
      return { ...trigger, connectorId: line };
    return trigger;
  };
  return {
    ...target,
    automation: target.automation.map((item) =>
      added.has(item.id) ? { ...item, trigger: onOwnLine(item.trigger) } : item,
    ),
  };
}

/** A plan does not ask about inputs that no preset uses; but what the standard brings is never left out without a word. */
function withoutRoom(
  context: FitContext,
  target: Configuration,
  fitted: Configuration,
  verdicts: readonly FitVerdict[],
): { readonly gone: ReadonlySet<string>; readonly verdicts: readonly FitVerdict[] } {
  const asked = newItems(context.screen, target, "sources").flatMap((source) => {
    const place = `${FITTING}/sources/${source.id}/room`;
    const plugged = fitted.sources.find(({ id }) => id === source.id)?.channels.length ?? 0;
    const isKnown = verdicts.some(({ question }) =>
      question.place.startsWith(`${FITTING}/sources/${source.id}/`),
    );
    if (plugged === source.channels.length || isKnown) return [];
    const verdict = askFit(context, {
      place,
      words: `Source '${source.label}'`,
      question: `The unit has inputs of its kind (${source.kind}) for ${plugged} of ${source.channels.length} channels of '${source.label}'. What shall be done?`,
      options: [
        ...(plugged === 0
          ? []
          : [
              {
                id: "without-channels",
                words: "The others stay unplugged.",
                consequence: "No preset uses them.",
              },
            ]),
        { id: "leave-out", words: "The source is left out.", consequence: "No preset uses it." },
      ],
    });
    return [{ id: source.id, verdict }];
  });
  return {
    gone: new Set(asked.filter(({ verdict }) => verdict.option.id === "leave-out").map(({ id }) => id)),
    verdicts: asked.map(({ verdict }) => verdict),
  };
}

/** The target with what the plan made of its new items; what the screen had stays, but for what recalls a lost preset. */
function joined(
  screen: Configuration,
  {
    target,
    old,
    planned,
  }: { readonly target: Configuration; readonly old: Configuration; readonly planned: Configuration },
): Configuration {
  // What was kept out of the plan stays.
  const lost = target.automation.filter(({ id }) => !old.automation.some((item) => item.id === id));

  const part = <Item extends { readonly id: string }>(
    before: readonly Item[],
    wanted: readonly Item[],
    now: readonly Item[],
  ) => {
    const own = new Set(before.map(({ id }) => id));
    const found = new Map(now.map((item) => [item.id, item]));
    return wanted.flatMap((item) => {
      if (own.has(item.id)) return found.has(item.id) ? [item] : [];
      const made = found.get(item.id);
      return made === undefined ? [] : [made];
    });
  };
  const wired = new Set(newTriggers(screen, target).map(({ id }) => id));
  const asBefore = screen.automation.filter(({ id }) => !wired.has(id));
  return {
    ...target,
    sources: part(screen.sources, target.sources, planned.sources),
    equalizations: part(screen.equalizations, target.equalizations, planned.equalizations),
    presets: part(screen.presets, target.presets, planned.presets),
    automation: part(asBefore, target.automation, [...planned.automation, ...lost]),
  };
}
