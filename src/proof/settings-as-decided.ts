import type { AutomationItem, Configuration, Crossover, Limiter, Output } from "../model/index.ts";
import type { DecidedSetting, SettingPlace } from "./decided-setting.ts";
import type { Decided } from "./given-up.ts";
import type { ScreenNames } from "./screen-names.ts";

/** The old configuration with the settings that were decided in the place of its own. */
export function settingsAsDecided(
  before: Configuration,
  { decisions, names }: { readonly decisions: Pick<Decided, "setting">; readonly names: ScreenNames },
): Configuration {
  const decidedAt = (place: SettingPlace) => decisions.setting(place);
  const { emergencyMute, paging, nonSync, startPresetId, ...operation } = before.operation;
  const start = decidedAt({ setting: "fader" });
  return {
    ...before,
    outputs: before.outputs.map((output) => {
      const feedId = names.before.feeds.get(output.id)?.id;
      return feedId === undefined
        ? output
        : outputAsDecided(output, (setting) => decidedAt({ setting, feedId }));
    }),
    presets: before.presets.map((preset) => {
      const mark = decidedAt({ setting: "fader", presetId: preset.id });
      const slot = decidedAt({ setting: "slot", presetId: preset.id });
      return {
        ...preset,
        ...(mark?.setting === "fader" && { faderMark: mark.decided }),
        ...(slot?.setting === "slot" && { slot: slot.decided }),
      };
    }),
    operation: {
      ...operation,
      ...(start?.setting === "fader" && { faderMark: start.decided }),
      ...(decidedAt({ setting: "emergency-mute" }) === undefined && emergencyMute && { emergencyMute }),
      ...(decidedAt({ setting: "paging" }) === undefined && paging && { paging }),
      ...(decidedAt({ setting: "non-sync" }) === undefined && nonSync && { nonSync }),
      ...startAsDecided(startPresetId, decidedAt({ setting: "start-preset" })),
    },
    automation: before.automation.flatMap((item) => itemAsDecided(item, decidedAt)),
  };
}

function startAsDecided(
  startPresetId: string | undefined,
  decision: DecidedSetting | undefined,
): Pick<Configuration["operation"], "startPresetId"> {
  const now = decision?.setting === "start-preset" ? (decision.decided ?? undefined) : startPresetId;
  return now === undefined ? {} : { startPresetId: now };
}

function itemAsDecided(
  item: AutomationItem,
  decidedAt: (place: SettingPlace) => DecidedSetting | undefined,
): readonly AutomationItem[] {
  const { id: automationId, action } = item;
  const decision = decidedAt({ setting: "automation", automationId });
  if (decision?.setting === "automation") {
    return decision.decided === null ? [] : [{ ...item, action: decision.decided }];
  }
  const mark = decidedAt({ setting: "fader", automationId });
  return mark?.setting === "fader" && action.kind === "set-fader"
    ? [{ ...item, action: { ...action, faderMark: mark.decided } }]
    : [item];
}

function outputAsDecided(
  output: Output,
  decidedAt: (setting: DecidedSetting["setting"]) => DecidedSetting | undefined,
): Output {
  const { highPass, lowPass, limiter, fir, ...rest } = output;
  const of = <Value>(name: "high-pass" | "low-pass" | "limiter" | "fir", old: Value | undefined) => {
    const found = decidedAt(name)?.decided;
    return found === undefined || found === "muted" ? old : ((found as Value | null) ?? undefined);
  };
  const now = {
    highPass: of<Crossover>("high-pass", highPass),
    lowPass: of<Crossover>("low-pass", lowPass),
    limiter: of<Limiter>("limiter", limiter),
    fir: of("fir", fir),
  };
  return {
    ...rest,
    ...(now.highPass && { highPass: now.highPass }),
    ...(now.lowPass && { lowPass: now.lowPass }),
    ...(now.limiter && { limiter: now.limiter }),
    ...(now.fir && { fir: now.fir }),
    mute: output.mute || decidedAt("mute") !== undefined,
  };
}
