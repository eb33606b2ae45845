import type { Proof, SettingDifference, SettingProof } from "../../../model/index.ts";
import { printDb, printHz, printNumber } from "../../../words/index.ts";
import type { Block, Item } from "../../document.ts";
import { named } from "./words.ts";

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
};

const SETTING_VERDICT_WORDS: Readonly<Record<SettingProof["verdict"], string>> = {
  "within-tolerance": "within tolerance",
  changed: "changed",
  weaker: "protects less",
  lost: "lost",
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
  const { setting, verdict, differences } = settings[0]!;
  const feedNames = new Map(proof.feeds.map(({ id, label }) => [id, label]));
  const presetNames = new Map(proof.presets.map(({ presetId, label }) => [presetId, label]));
  const places = settings.flatMap(({ feedId, presetId, channel }) => {
    if (feedId !== undefined) return [feedNames.get(feedId) ?? feedId];
    if (presetId !== undefined) return [`preset ${presetNames.get(presetId) ?? presetId}`];
    return channel === undefined ? [] : [`${channel} channel`];
  });
  const harmless =
    verdict === "within-tolerance" || verdict === "changed-by-decision" || verdict === "left-out";
  return {
    lead: [SETTING_WORDS[setting], named(places, "others")].filter((part) => part !== "").join(", "),
    tags: [SETTING_VERDICT_WORDS[verdict]],
    text: `${differences.map(differenceWords).join("; ")}.`.replace(/^./, (first) => first.toUpperCase()),
    ...(!harmless && { severity: "error" as const }),
  };
}

function differenceWords({ name, before, after, decided }: SettingDifference): string {
  const wanted = decided === undefined ? "" : `, decided ${valueWords(decided, name)}`;
  return `${valueName(name)} ${valueWords(before, name)}${wanted}, now ${valueWords(after, name)}`;
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
};

function valueName(name: string): string {
  return VALUE_NAMES[name] ?? name;
}

function valueWords(value: SettingDifference["before"], name: string): string {
  if (value === null) return "none";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "string") return value;
  if (name.endsWith("Hz")) return printHz(value);
  if (name.endsWith("Dbfs")) return `${printNumber(value, 1)} dBFS`;
  if (name.endsWith("Db")) return printDb(value, 1);
  if (name.endsWith("Ms")) return `${printNumber(value, 1)} ms`;
  return String(value);
}
