import { BoothkeepError } from "../../../src/base/errors/index.ts";
import { type EqFits, type Plan, planMigration } from "../../../src/migrate/plan/index.ts";
import type { Configuration, Decisions, Question, UnitProfile } from "../../../src/model/index.ts";
import { gridContains, labelFits, labelLimits, limitedNumbers } from "../../../src/profile/index.ts";

/** Where it does not matter how well an equalizer is fitted, no filter is as good as any. */
export const NO_FITS: EqFits = {
  fit: () => ({ filters: [], method: "refitted", rmsDb: 1, maxDb: 1, maxAtHz: 1000 }),
};

/** What a unit cannot hold in a configuration. */
export function misfits(configuration: Configuration, to: UnitProfile): string[] {
  const found: string[] = [];
  const claim = (fine: boolean, words: string) => {
    if (!fine) found.push(words);
  };
  for (const { path, value, grid, tolerance } of limitedNumbers(configuration, to)) {
    claim(gridContains(grid, value, tolerance), `${path.join("/")} = ${value}`);
  }
  const { sources, channels, equalizations, presets, outputs, automation, network } = configuration;
  claim(sources.length <= to.sources.max, "sources");
  claim(
    sources.every((source) => source.channels.length <= to.sources.channelsMax),
    "source channels",
  );
  claim(
    channels.every(({ label }) => to.channels.labels.includes(label)),
    "channel labels",
  );
  claim(equalizations.length <= to.equalizations.max, "EQ sets");
  claim(presets.length <= to.presets.max, "presets");
  claim(
    presets.every(({ routing }) => routing.length <= to.presets.routingMax),
    "crossings",
  );
  claim(
    presets.every(({ slot }) => slot >= to.presets.slotMin && slot <= to.presets.slotMax),
    "slots",
  );
  claim(new Set(presets.map(({ slot }) => slot)).size === presets.length, "slots twice");
  claim(automation.length <= to.automation.max, "automation");
  claim(network.interfaces.length <= to.operation.networkInterfacesMax, "interfaces");
  claim(
    outputs.every(({ polarity }) => to.outputs.invert || polarity === "normal"),
    "polarity",
  );
  const ids = new Set(to.connectors.map(({ id }) => id));
  const used = [
    ...sources.flatMap((source) => source.channels.map(({ connectorId }) => connectorId)),
    ...outputs.map(({ connectorId }) => connectorId),
  ];
  claim(new Set(used).size === used.length, "a connector twice");
  claim(
    used.every((id) => ids.has(id)),
    "connectors",
  );
  const terminals = automation.flatMap(({ trigger }) =>
    "connectorId" in trigger ? trigger.connectorId : [],
  );
  claim(
    terminals.every((id) => ids.has(id)),
    "terminals",
  );
  claim(
    outputs.every(({ mix }) => mix.length <= to.outputs.mixMax),
    "mix",
  );
  const limits = labelLimits(to.labels);
  for (const { label } of [...sources, ...equalizations, ...presets, ...outputs, ...automation]) {
    claim(labelFits(label, limits), `label ${label}`);
  }
  return found;
}

/** References of a configuration that point nowhere. */
export function dangling(configuration: Configuration): string[] {
  const ids = (list: readonly { readonly id: string }[]) => new Set(list.map(({ id }) => id));
  const [sources, channels, sets, presets, outputs] = [
    ids(configuration.sources),
    ids(configuration.channels),
    ids(configuration.equalizations),
    ids(configuration.presets),
    ids(configuration.outputs),
  ];
  const sourceChannels = ids(configuration.sources.flatMap((source) => source.channels));
  const speakers = ids(configuration.loudspeakers);
  const interfaces = ids(configuration.network.interfaces);
  const { operation } = configuration;
  const references: [ReadonlySet<string>, string | undefined][] = [
    ...configuration.presets.flatMap((preset): [ReadonlySet<string>, string][] => [
      [sources, preset.sourceId],
      [sets, preset.equalizationId],
      ...preset.routing.flatMap((route): [ReadonlySet<string>, string][] => [
        [sourceChannels, route.sourceChannelId],
        [channels, route.channelId],
      ]),
    ]),
    ...configuration.equalizations.flatMap((set) =>
      set.channels.map(({ channelId }): [ReadonlySet<string>, string] => [channels, channelId]),
    ),
    ...configuration.outputs.flatMap((output): [ReadonlySet<string>, string | undefined][] => [
      ...output.mix.map(({ channelId }): [ReadonlySet<string>, string] => [channels, channelId]),
      [speakers, output.feeds.kind === "loudspeaker" ? output.feeds.loudspeakerId : undefined],
    ]),
    [presets, operation.startPresetId],
    [presets, operation.nonSync?.presetId],
    [sources, operation.nonSync?.sourceId],
    [presets, operation.paging?.presetId],
    [sources, operation.paging?.sourceId],
    [outputs, operation.boothMonitor?.outputId],
    [outputs, operation.hearingImpaired?.outputId],
    [outputs, operation.narration?.outputId],
    [sets, configuration.calibration?.equalizationId],
    ...(configuration.calibration?.channels ?? []).map(({ channelId }): [ReadonlySet<string>, string] => [
      channels,
      channelId,
    ]),
    ...configuration.automation.flatMap(
      ({ trigger, action }): [ReadonlySet<string>, string | undefined][] => [
        [interfaces, trigger.kind === "network" ? trigger.interfaceId : undefined],
        [presets, action.kind === "recall-preset" ? action.presetId : undefined],
        [sources, action.kind === "select-source" ? action.sourceId : undefined],
      ],
    ),
  ];
  return references.flatMap(([known, id]) => (id === undefined || known.has(id) ? [] : [id]));
}

/** An answer to every question, options picked by a number. */
function decisionsFor(
  questions: readonly Question[],
  pick: number,
  earlier: Decisions | undefined,
): Decisions {
  const added = questions.flatMap((question, index) => {
    const open = question.options.filter(({ rulesOut }) => rulesOut !== true);
    const option = open[(pick + index * 7) % open.length]!;
    if (earlier?.answers.some(({ questionId }) => questionId === question.id)) return [];
    return {
      questionId: question.id,
      optionId: option.id,
      ifAsked: true,
      ...(option.takes === "text" ? { text: question.id === "unit/firmware" ? "1.2.3" : "A1" } : {}),
      ...(option.takes === "ids" ? { ids: (option.candidates ?? []).slice(0, option.idsCount) } : {}),
      ...(option.weakensProtection === true ? { accepts: "weaker-protection" as const } : {}),
    };
  });
  return {
    kind: "boothkeep.decisions",
    schemaVersion: "1.0.0",
    fromProfileId: "old",
    toProfileId: "new",
    answers: [...(earlier?.answers ?? []), ...added],
  };
}

const OUTDATED: ReadonlySet<string> = new Set(["decisions.unfit-answer", "decisions.unknown-option"]);

/** Answers what is asked, and what is asked because of the answers, until nothing is open. */
export function decide(old: Configuration, from: UnitProfile, to: UnitProfile, pick: number): Plan {
  let decisions: Decisions | undefined;
  for (let round = 0; round < 20; round += 1) {
    try {
      const plan = planMigration(old, { from, to, decisions, eqFits: NO_FITS });
      if (plan.decided) return plan;
      decisions = decisionsFor(plan.questions, pick, decisions);
    } catch (error) {
      // An answer may rule out what an earlier one named.
      if (!(error instanceof BoothkeepError) || !OUTDATED.has(error.code)) throw error;
      const answers = decisions?.answers.filter(({ questionId }) => questionId !== error.place.id) ?? [];
      decisions = { ...decisions!, answers };
    }
  }
  throw new Error("questions without end");
}
