import type {
  Configuration,
  Crossover,
  FaderAbility,
  Fir,
  Limiter,
  Output,
  ProofTolerances,
  SettingProof,
} from "../model/index.ts";
import { faderLevelDb } from "../profile/index.ts";
import { cues, pagingIn } from "./cues.ts";
import { type Comparison, judgeDecided } from "./decided-verdict.ts";
import { differencesOf, NONE } from "./differences.ts";
import type { Decided } from "./given-up.ts";
import type { ScreenNames } from "./screen-names.ts";
import { settingsAsDecided } from "./settings-as-decided.ts";
import { EQUAL } from "./tolerances.ts";

export interface SettingsComparison {
  /** Settings that differ, those of the whole unit last. */
  readonly settings: readonly SettingProof[];
  /** How many were compared. */
  readonly compared: number;
}

export interface SettingsOptions {
  readonly names: ScreenNames;
  readonly tolerances: ProofTolerances;
  readonly decisions: Decided;
  /** Fader scales; without them marks are compared as numbers. */
  readonly faders: { readonly before: FaderAbility; readonly after: FaderAbility } | undefined;
}

/**
 * Compares what is no filter (limiters, mutes, fader settings) and what protects (crossovers, emergency mute). What somebody
 * decided on is compared with what was decided too.
 */
export function compareSettings(
  before: Configuration,
  after: Configuration,
  options: SettingsOptions,
): SettingsComparison {
  const { decisions, names, faders } = options;
  const all = comparisons(before, after, options);
  const asDecided = new Map(
    comparisons(settingsAsDecided(before, { decisions, names }), after, {
      ...options,
      // Decided marks are marks of the new scale.
      faders: faders && { before: faders.after, after: faders.after },
    }).map((comparison) => [placeKey(comparison), comparison]),
  );
  const settings = all.flatMap((comparison): SettingProof[] => {
    const { place } = comparison;
    const decision = decisions.setting(place);
    const { verdict, differences } =
      decision === undefined
        ? comparison
        : judgeDecided(comparison, decision, {
            // What is left out by decision has no partner there.
            asDecided: asDecided.get(placeKey(comparison)) ?? { place, verdict: "equal", differences: [] },
            isMuted: isMutedNow(comparison, all),
          });
    return verdict === "equal" ? [] : [{ ...place, verdict, differences }];
  });
  return { settings, compared: all.length };
}

function comparisons(
  before: Configuration,
  after: Configuration,
  options: Pick<SettingsOptions, "names" | "tolerances" | "faders">,
): readonly Comparison[] {
  return [
    ...outputSettings(before, after, options),
    ...channelMutes(before, after, options.names),
    ...faderSettings(before, after, options),
    ...operationSettings(before, after, options),
    ...cues(before, after, options.names),
  ];
}

function placeKey({ place: { setting, feedId, presetId, channel, automationId } }: Comparison): string {
  return JSON.stringify([setting, feedId, presetId, channel, automationId]);
}

/** Whether the output of a setting is muted now. */
function isMutedNow({ place }: Comparison, all: readonly Comparison[]): boolean {
  const mute = all.find((other) => other.place.setting === "mute" && other.place.feedId === place.feedId);
  return mute?.isOn === true;
}

function outputSettings(
  before: Configuration,
  after: Configuration,
  { names, tolerances }: Pick<SettingsOptions, "names" | "tolerances">,
): Comparison[] {
  const newOutputs = new Map(after.outputs.map((output) => [names.after.feeds.get(output.id)?.id, output]));
  return before.outputs.flatMap((output) => {
    const feedId = names.before.feeds.get(output.id)?.id;
    const partner = newOutputs.get(feedId);
    if (feedId === undefined || partner === undefined) return [];
    return settingsOfOutput(output, partner, tolerances).map(({ setting, ...result }) => ({
      place: { setting, feedId },
      ...result,
    }));
  });
}

type OutputSetting = Omit<Comparison, "place"> & Pick<SettingProof, "setting">;

function settingsOfOutput(old: Output, now: Output, tolerances: ProofTolerances): OutputSetting[] {
  return [
    { setting: "high-pass", ...compareCorner(old.highPass, now.highPass, "high-pass", tolerances) },
    { setting: "low-pass", ...compareCorner(old.lowPass, now.lowPass, "low-pass", tolerances) },
    { setting: "fir", ...compareFir(old.fir, now.fir) },
    { setting: "limiter", ...compareLimiters(old.limiter, now.limiter, tolerances) },
    { setting: "mute", ...compareSwitch("mute", old.mute, now.mute) },
  ];
}

type Result = Omit<Comparison, "place">;

/** A high-pass that is lower or less steep protects a driver less. A low-pass divides; it is judged by equality alone. */
function compareCorner(
  old: Crossover | undefined,
  now: Crossover | undefined,
  side: "high-pass" | "low-pass",
  { cornerOctaves }: ProofTolerances,
): Result {
  const differences = differencesOf(old ?? NONE, now ?? NONE, [
    "family",
    "order",
    "frequencyHz",
    "normalization",
  ]);
  if (old === undefined) return { verdict: now === undefined ? "equal" : "new", differences };
  if (now === undefined) return { verdict: "lost", differences };
  const octaves = Math.log2(now.frequencyHz / old.frequencyHz);
  const sameKind =
    old.family === now.family && old.order === now.order && old.normalization === now.normalization;
  if (sameKind && Math.abs(octaves) <= EQUAL.octaves) return { verdict: "equal", differences };
  if (sameKind && Math.abs(octaves) <= cornerOctaves) return { verdict: "within-tolerance", differences };
  const weaker = side === "high-pass" && (now.order < old.order || octaves < -cornerOctaves);
  return { verdict: weaker ? "weaker" : "changed", differences };
}

function compareFir(old: Fir | undefined, now: Fir | undefined): Result {
  const oldTaps = old === undefined || old.enabled === false ? undefined : old.taps;
  const newTaps = now === undefined || now.enabled === false ? undefined : now.taps;
  const differences = [{ name: "taps", before: oldTaps?.length ?? null, after: newTaps?.length ?? null }];
  if (oldTaps === undefined) return { verdict: newTaps === undefined ? "equal" : "new", differences };
  if (newTaps === undefined) return { verdict: "lost", differences };
  const equal = oldTaps.length === newTaps.length && oldTaps.every((tap, index) => tap === newTaps[index]);
  return { verdict: equal ? "equal" : "changed", differences };
}

/** A limiter that acts at a higher level or more slowly protects less. */
function compareLimiters(
  old: Limiter | undefined,
  now: Limiter | undefined,
  { limiterDb, limiterTimeRatio }: ProofTolerances,
): Result {
  const oldActs = old?.enabled === true;
  const newActs = now?.enabled === true;
  const differences = differencesOf(old ?? NONE, now ?? NONE, [
    "enabled",
    "thresholdDbfs",
    "attackMs",
    "releaseMs",
  ]);
  if (!oldActs) return { verdict: newActs ? "new" : "equal", differences };
  if (!newActs) return { verdict: "lost", differences };
  const thresholdDb = now.thresholdDbfs - old.thresholdDbfs;
  const attack = timeRatio(old.attackMs, now.attackMs);
  const release = timeRatio(old.releaseMs, now.releaseMs);
  const timing = Math.max(attack, release);
  if (Math.abs(thresholdDb) <= EQUAL.db && timing <= EQUAL.ratio) return { verdict: "equal", differences };
  if (thresholdDb > limiterDb || (attack > limiterTimeRatio && now.attackMs > old.attackMs)) {
    return { verdict: "weaker", differences };
  }
  const within = thresholdDb >= -limiterDb && timing <= limiterTimeRatio;
  return { verdict: within ? "within-tolerance" : "changed", differences };
}

/** How much longer the longer of two times is, as a ratio minus 1. */
function timeRatio(aMs: number, bMs: number): number {
  if (aMs === bMs) return 0;
  return Math.max(aMs, bMs) / Math.min(aMs, bMs) - 1;
}

function channelMutes(before: Configuration, after: Configuration, names: ScreenNames): Comparison[] {
  const mutes = new Map(after.channels.map(({ id, mute }) => [names.after.channels.get(id), mute]));
  return before.channels.flatMap(({ id, mute }) => {
    const channel = names.before.channels.get(id)!;
    const now = mutes.get(channel);
    if (now === undefined) return [];
    return [{ place: { setting: "mute" as const, channel }, ...compareSwitch("mute", mute, now) }];
  });
}

function compareSwitch(name: string, before: boolean, after: boolean): Result {
  if (before === after) return { verdict: "equal", differences: [], isOn: after };
  return { verdict: "changed", differences: [{ name, before, after }], isOn: after };
}

/** The fader at start-up and the settings that presets and automation bring, as levels where both scales are known. */
function faderSettings(
  before: Configuration,
  after: Configuration,
  options: Pick<SettingsOptions, "faders" | "tolerances">,
): Comparison[] {
  const compare = (old: number | undefined, now: number | undefined): Result =>
    compareMarks(old, now, options);
  const newPresets = new Map(after.presets.map((preset) => [preset.id, preset]));
  return [
    { place: { setting: "fader" }, ...compare(before.operation.faderMark, after.operation.faderMark) },
    ...before.presets.flatMap(({ id, faderMark }) => {
      const now = newPresets.get(id);
      if (now === undefined) return [];
      return [{ place: { setting: "fader" as const, presetId: id }, ...compare(faderMark, now.faderMark) }];
    }),
    ...before.automation.flatMap(({ id, label, action: old }) => {
      const now = after.automation.find((item) => item.id === id)?.action;
      if (old.kind !== "set-fader" || now?.kind !== "set-fader") return [];
      const place = { setting: "fader" as const, automationId: id, label };
      return [{ place, ...compare(old.faderMark, now.faderMark) }];
    }),
  ];
}

function compareMarks(
  old: number | undefined,
  now: number | undefined,
  { faders, tolerances }: Pick<SettingsOptions, "faders" | "tolerances">,
): Result {
  if (old === undefined || now === undefined) {
    const differences = [{ name: "faderMark", before: old ?? null, after: now ?? null }];
    return { verdict: old === now ? "equal" : "changed", differences };
  }
  const [name, was, is] =
    faders === undefined
      ? ["faderMark", old, now]
      : ["faderLevelDb", faderLevelDb(faders.before, old), faderLevelDb(faders.after, now)];
  const differences = [{ name, before: was, after: is }];
  const change = Math.abs(is - was);
  if (change <= EQUAL.db) return { verdict: "equal", differences };
  const within = faders !== undefined && change <= tolerances.faderDb;
  return { verdict: within ? "within-tolerance" : "changed", differences };
}

function operationSettings(
  before: Configuration,
  after: Configuration,
  { names, tolerances }: Pick<SettingsOptions, "names" | "tolerances">,
): Comparison[] {
  const [old, now] = [before.operation, after.operation];
  const paging = [pagingIn(before, names.before), pagingIn(after, names.after)] as const;
  return [
    { place: { setting: "emergency-mute" }, ...compareEmergencyMute(old, now) },
    { place: { setting: "paging" }, ...comparePaging(...paging, tolerances) },
    { place: { setting: "when-absent" }, ...compareWhenAbsent(old, now) },
  ];
}

type Operation = Configuration["operation"];

/** The connector may be another one; what opens or closes it, and how sound returns, may not change. */
function compareEmergencyMute({ emergencyMute: old }: Operation, { emergencyMute: now }: Operation): Result {
  const differences = differencesOf(old ?? NONE, now ?? NONE, ["enabled", "activeWhen", "release"]);
  const acted = old?.enabled === true;
  const acts = now?.enabled === true;
  if (!acted) return { verdict: acts ? "new" : "equal", differences };
  if (!acts) return { verdict: "lost", differences };
  return { verdict: differences.length === 0 ? "equal" : "changed", differences };
}

function comparePaging(
  old: Operation["paging"],
  now: Operation["paging"],
  { levelDb }: ProofTolerances,
): Result {
  const differences = differencesOf(old ?? NONE, now ?? NONE, ["sourceId", "presetId", "programDuckDb"]);
  if (old === undefined) return { verdict: now === undefined ? "equal" : "new", differences };
  if (now === undefined) return { verdict: "lost", differences };
  if (differences.length === 0) return { verdict: "equal", differences };
  const within =
    old.sourceId === now.sourceId &&
    old.presetId === now.presetId &&
    Math.abs(now.programDuckDb - old.programDuckDb) <= levelDb;
  return { verdict: within ? "within-tolerance" : "changed", differences };
}

function compareWhenAbsent({ hearingImpaired: old }: Operation, { hearingImpaired: now }: Operation): Result {
  // A feed that is gone altogether shows in its paths.
  if (old === undefined || now === undefined) return { verdict: "equal", differences: [] };
  const differences = differencesOf(old, now, ["whenAbsent"]);
  return { verdict: differences.length === 0 ? "equal" : "changed", differences };
}
