import type { Proof, SettingDifference, SettingProof } from "../../../model/index.ts";
import { firstAndOthers, printMs, printProved } from "../../../words/index.ts";
import type { Block, Item } from "../../document.ts";

const SETTING_WORDS: Readonly<Record<SettingProof["setting"], string>> = {
  "high-pass": "High-pass",
  "low-pass": "Low-pass",
  fir: "FIR filter",
  limiter: "Limiter",
  mute: "Mute",
  "when-absent": "Headset feed without HI channel",
  "emergency-mute": "Emergency mute",
  paging: "Paging microphone",
  fader: "Fader",
  slot: "Slot",
  format: "Format",
  "start-preset": "Preset at start-up",
  "non-sync": "Music between shows",
  automation: "Automation",
};

const SETTING_VERDICT_WORDS: Readonly<Record<SettingProof["verdict"], string>> = {
  "within-tolerance": "within tolerance",
  changed: "changed",
  weaker: "protects less",
  lost: "lost",
  missing: "missing",
  new: "new",
  "changed-by-decision": "changed by decision",
  "left-out": "left out by decision",
};

/** How many settings were compared, and what became of them: '134: 103 equal, 31 within tolerance'. */
export function settingCountWords({ settings, settingsCompared }: Proof): string {
  const verdicts = Object.keys(SETTING_VERDICT_WORDS) as SettingProof["verdict"][];
  const counts: readonly (readonly [number, string])[] = [
    [settingsCompared - settings.length, "equal"],
    ...verdicts.map(
      (verdict) =>
        [
          settings.filter((setting) => setting.verdict === verdict).length,
          SETTING_VERDICT_WORDS[verdict],
        ] as const,
    ),
  ];
  return `${settingsCompared}: ${counts
    .filter(([count]) => count > 0)
    .map(([count, words]) => `${count} ${words}`)
    .join(", ")}`;
}

/** Settings that differ; those that differ alike at several places are said once. */
export function settingBlocks(proof: Proof): readonly Block[] {
  if (proof.settings.length === 0) return [];
  const alike = new Map<string, SettingProof[]>();
  for (const setting of proof.settings) {
    const key = JSON.stringify([setting.setting, setting.verdict, setting.differences]);
    alike.set(key, [...(alike.get(key) ?? []), setting]);
  }
  return [
    { kind: "heading", level: 2, text: "Settings that differ" },
    {
      kind: "list",
      marker: "dot",
      items: [...alike.values()].map((settings) => settingItem(settings, proof)),
    },
  ];
}

function settingItem(settings: readonly SettingProof[], proof: Proof): Item {
  const { setting, verdict } = settings[0]!;
  const feedNames = new Map(proof.feeds.map(({ id, label }) => [id, label]));
  const presetNames = new Map(proof.presets.map(({ presetId, label }) => [presetId, label]));
  const places = settings.flatMap(({ feedId, presetId, channel, label, automationId }) => {
    if (automationId !== undefined) return [label === undefined ? automationId : `'${label}'`];
    if (feedId !== undefined) return [feedNames.get(feedId) ?? feedId];
    if (presetId !== undefined) return [`preset ${presetNames.get(presetId) ?? presetId}`];
    return channel === undefined ? [] : [`${channel} channel`];
  });
  const harmless =
    verdict === "within-tolerance" || verdict === "changed-by-decision" || verdict === "left-out";
  return {
    lead: [SETTING_WORDS[setting], firstAndOthers(places, "others")].filter((part) => part !== "").join(", "),
    tags: [SETTING_VERDICT_WORDS[verdict]],
    text: capitalized(settingWords(settings[0]!, presetNames)),
    ...(!harmless && { severity: "error" as const }),
  };
}

function capitalized(words: string): string {
  return words.replace(/^./, (first) => first.toUpperCase());
}

type PresetNames = ReadonlyMap<string, string>;

/** What differs: value by value; an automation item that is there on one side only as a whole. */
function settingWords({ setting, verdict, differences }: SettingProof, presets: PresetNames): string {
  if (setting === "automation" && verdict !== "changed" && differences.every(isOneSided)) {
    const side = differences.some(({ before }) => before !== null) ? "before" : "after";
    const cue = cueWords(new Map(differences.map((value) => [value.name, value[side]])), presets);
    return side === "before" ? `is gone: ${cue}.` : `${cue}.`;
  }
  return `${differences.map((difference) => differenceWords(difference, presets)).join("; ")}.`;
}

function isOneSided({ before, after }: SettingDifference): boolean {
  return before === null || after === null;
}

/** "contact, closing: recall the preset 'Feature'"; "serial, "SHOW 3": mute". */
function cueWords(values: ReadonlyMap<string, SettingDifference["before"]>, presets: PresetNames): string {
  const said = (name: string, words: (value: string) => string) => {
    const value = values.get(name);
    return value === undefined || value === null ? [] : [words(String(value))];
  };
  const trigger = [
    ...said("trigger", (kind) => kind),
    ...said("edge", (edge) => edge),
    ...said("text", (text) => `"${text}"`),
  ].join(", ");
  const action = [
    ...said("action", (kind) => ACTION_WORDS[kind] ?? kind),
    ...said("presetId", (id) => `'${presets.get(id) ?? id}'`),
    ...said("sourceId", (id) => `'${id}'`),
  ].join(" ");
  const waitMs = values.get("waitMs");
  return `${trigger}: ${action}${typeof waitMs === "number" && waitMs > 0 ? `, after ${printMs(waitMs, 0)}` : ""}`;
}

const ACTION_WORDS: Readonly<Record<string, string>> = {
  "recall-preset": "recall the preset",
  "set-fader": "set the fader",
  "select-source": "select the source",
};

function differenceWords({ name, before, after, decided }: SettingDifference, presets: PresetNames): string {
  const words = (value: SettingDifference["before"]) =>
    name === "presetId" && value !== null
      ? `'${presets.get(String(value)) ?? value}'`
      : printProved(value, name);
  const wanted = decided === undefined ? "" : `, decided ${words(decided)}`;
  return `${valueName(name)} ${words(before)}${wanted}, now ${words(after)}`;
}

const VALUE_NAMES: Readonly<Record<string, string>> = {
  frequencyHz: "corner",
  thresholdDbfs: "threshold",
  attackMs: "attack",
  releaseMs: "release",
  enabled: "in use",
  taps: "coefficients",
  activeWhen: "acts when the contact is",
  programDuckDb: "lowering of the program",
  presetId: "preset",
  whenAbsent: "sends",
  faderLevelDb: "level",
  faderMark: "mark",
  interfaceId: "network interface",
  sourceId: "source",
  waitMs: "wait",
};

function valueName(name: string): string {
  return VALUE_NAMES[name] ?? name;
}
