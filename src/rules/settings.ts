import { compareFindings, type Finding } from "../base/findings/index.ts";
import {
  type Configuration,
  itemPath,
  nearestName,
  type RuleSetting,
  type RuleSettings,
} from "../model/index.ts";
import { RULES } from "./catalogue.ts";
import type { ScreenRule } from "./rule.ts";
import type { AcknowledgedFinding, SettingNote, Validation } from "./validation.ts";

export type { RuleSetting, RuleSettings } from "../model/index.ts";

/** A finding with the keys of its place. */
export interface KeyedFinding {
  readonly finding: Finding;
  readonly keys: readonly string[];
}

/** The limits by which a rule judges a screen: its own, as changed by the settings. Protection rules keep theirs. */
export function limitsFor(
  rule: ScreenRule,
  settings: RuleSettings | undefined,
  configuration: Configuration,
): Readonly<Record<string, number>> {
  const limits = Object.fromEntries(Object.entries(rule.limits).map(([name, limit]) => [name, limit.value]));
  if (rule.kind === "protection") return limits;
  for (const setting of settingsFor(settings, configuration)) {
    if (setting.kind === "limit" && setting.code === rule.code && setting.limit in limits) {
      limits[setting.limit] = setting.value;
    }
  }
  return limits;
}

/** Takes the findings of rules that are switched off away, and tells acknowledged ones apart. */
export function applySettings(
  found: readonly KeyedFinding[],
  settings: RuleSettings | undefined,
  configuration: Configuration,
): Validation {
  const own = settingsFor(settings, configuration);
  const findings: Finding[] = [];
  const acknowledged: AcknowledgedFinding[] = [];
  const counts = new Map<string, number>();
  for (const { finding, keys } of found) {
    const setting = own.findLast((item) => item.kind !== "limit" && fits(item, finding, keys));
    if (setting !== undefined) counts.set(setting.id, (counts.get(setting.id) ?? 0) + 1);
    if (setting?.kind === "acknowledge") {
      const { by, reason } = setting;
      const words = `${finding.words} Acknowledged by ${by}: ${reason}`;
      acknowledged.push({ finding: { ...finding, words }, by, reason });
    } else if (setting?.kind !== "off" || finding.kind === "protection") findings.push(finding);
  }
  return {
    findings: findings.sort(compareFindings),
    acknowledged: acknowledged.sort((a, b) => compareFindings(a.finding, b.finding)),
    notes: own.map((setting) => noteOf(setting, counts.get(setting.id) ?? 0)),
  };
}

function settingsFor(settings: RuleSettings | undefined, { screen }: Configuration): readonly RuleSetting[] {
  return (settings?.settings ?? []).filter(
    ({ siteId, screenId }) =>
      (siteId === undefined || siteId === screen.siteId) &&
      (screenId === undefined || screenId === screen.screenId),
  );
}

function fits(
  setting: Exclude<RuleSetting, { readonly kind: "limit" }>,
  finding: Finding,
  keys: readonly string[],
): boolean {
  if (setting.code !== finding.code) return false;
  const parts = itemPath(setting.place ?? "");
  return parts.every((part, index) => part === keys[index]);
}

function noteOf(setting: RuleSetting, count: number): SettingNote {
  const { id: settingId, code, reason } = setting;
  const note = (kind: SettingNote["kind"], words: string): SettingNote => ({ settingId, code, kind, words });
  const rule = RULES.find((candidate) => candidate.code === code);
  if (rule === undefined) {
    const meant = nearestName(
      code,
      RULES.map((candidate) => candidate.code),
    );
    return note(
      "unknown",
      `There is no rule ${code}.${meant === undefined ? "" : ` Did you mean ${meant}?`} The setting does nothing.`,
    );
  }
  if (rule.kind === "protection" && setting.kind !== "acknowledge") {
    return note(
      "refused",
      `${code} guards people or drivers: it can be acknowledged, but not switched off or limited. The setting does nothing.`,
    );
  }
  switch (setting.kind) {
    case "off":
      return count === 0
        ? note("unused", `${code} is switched off and would find nothing: ${reason}`)
        : note("off", `${code} is switched off (${count} not shown): ${reason}`);
    case "acknowledge":
      return count === 0
        ? note("unused", `${code} is acknowledged and finds nothing: ${reason}`)
        : note("acknowledged", `${code} is acknowledged by ${setting.by} (${count}): ${reason}`);
    case "limit": {
      const limit = rule.scope === "screen" ? rule.limits[setting.limit] : undefined;
      return limit === undefined
        ? note("unknown", `${code} has no limit ${setting.limit}. The setting does nothing.`)
        : note(
            "limit",
            `${code}: ${setting.limit} is ${setting.value} in place of ${limit.value} ${limit.unit}: ${reason}`,
          );
    }
  }
}
