import type { AutomationItem, Configuration, Preset } from "../model/index.ts";
import type { SettingPlace } from "./decided-setting.ts";
import type { Comparison } from "./decided-verdict.ts";
import { differencesOf, NONE } from "./differences.ts";
import type { DocumentNames, ScreenNames } from "./screen-names.ts";

type Result = Omit<Comparison, "place">;

/**
 * Compares what plays when: the slot by which a preset is recalled and the format that it counts as, the presets at
 * start-up and between shows, and what each automation item waits for and does. Items pair by their keys. The contact or
 * line on which a trigger comes in is compared with the connectors, its fader level with the other fader settings.
 */
export function cues(before: Configuration, after: Configuration, names: ScreenNames): readonly Comparison[] {
  const presets = new Map(after.presets.map((preset) => [preset.id, preset]));
  const resolve = { before: refersIn(before, names.before), after: refersIn(after, names.after) };
  return [
    ...before.presets.flatMap((preset) => {
      const now = presets.get(preset.id);
      return now === undefined ? [] : presetCues(preset, now);
    }),
    ...operationCues(before, after, resolve),
    ...automationCues(before, after, resolve),
  ];
}

function presetCues(old: Preset, now: Preset): readonly Comparison[] {
  return (["slot", "format"] as const).map((setting) => ({
    place: { setting, presetId: old.id },
    ...changedOnly(old, now, [setting]),
  }));
}

/** What may be recalled or selected: nothing comes of a preset or a source that is not there. */
interface Refers {
  readonly presetId?: string;
  readonly sourceId?: string;
}

type Resolve = <Use extends Refers>(use: Use) => Use;

interface Resolvers {
  readonly before: Resolve;
  readonly after: Resolve;
}

/** Names presets and sources of a document as the screen does, and leaves out those that the document lacks. */
function refersIn({ presets, sources }: Configuration, { source }: DocumentNames): Resolve {
  const presetIds = new Set(presets.map(({ id }) => id));
  const sourceIds = new Set(sources.map(({ id }) => id));
  return (use) => {
    const { presetId, sourceId, ...rest } = use;
    return {
      ...rest,
      ...(presetId !== undefined && presetIds.has(presetId) && { presetId }),
      ...(sourceId !== undefined && sourceIds.has(sourceId) && { sourceId: source(sourceId) }),
    } as typeof use;
  };
}

function operationCues(
  { operation: old }: Configuration,
  { operation: now }: Configuration,
  resolve: Resolvers,
): readonly Comparison[] {
  const start = ({ startPresetId }: Configuration["operation"]) =>
    startPresetId === undefined ? undefined : { presetId: startPresetId };
  const both = <Use extends Refers>(was: Use | undefined, is: Use | undefined) =>
    [was && resolve.before(was), is && resolve.after(is)] as const;
  return [
    { place: { setting: "start-preset" }, ...compareOptional(...both(start(old), start(now)), ["presetId"]) },
    {
      place: { setting: "non-sync" },
      ...compareOptional(...both(old.nonSync, now.nonSync), ["sourceId", "presetId"]),
    },
  ];
}

/** Paging with its source by name; a preset that is not there counts as none. */
export function pagingIn(
  configuration: Configuration,
  names: DocumentNames,
): Configuration["operation"]["paging"] {
  const { paging } = configuration.operation;
  return paging && refersIn(configuration, names)(paging);
}

function automationCues(
  before: Configuration,
  after: Configuration,
  resolve: Resolvers,
): readonly Comparison[] {
  const old = new Map(before.automation.map((item) => [item.id, item]));
  const now = new Map(after.automation.map((item) => [item.id, item]));
  const labelOf = (id: string) => (old.get(id) ?? now.get(id))!.label;
  return [...new Set([...old.keys(), ...now.keys()])].map((automationId) => {
    const place: SettingPlace = { setting: "automation", automationId, label: labelOf(automationId) };
    const [was, is] = [old.get(automationId), now.get(automationId)];
    return {
      place,
      ...compareOptional(was && resolve.before(cueOf(was)), is && resolve.after(cueOf(is)), CUE_VALUES),
    };
  });
}

/** What an automation item waits for and does, on one level. */
interface Cue {
  readonly trigger: string;
  readonly edge?: string;
  readonly text?: string;
  readonly interfaceId?: string;
  readonly waitMs: number;
  readonly action: string;
  readonly presetId?: string;
  readonly sourceId?: string;
}

const CUE_VALUES = [
  "trigger",
  "edge",
  "text",
  "interfaceId",
  "waitMs",
  "action",
  "presetId",
  "sourceId",
] as const;

function cueOf({ trigger, action, waitMs = 0 }: AutomationItem): Cue {
  return {
    trigger: trigger.kind,
    ...("edge" in trigger && { edge: trigger.edge }),
    ...("text" in trigger && { text: trigger.text }),
    ...("interfaceId" in trigger && { interfaceId: trigger.interfaceId }),
    waitMs,
    action: action.kind,
    ...("presetId" in action && { presetId: action.presetId }),
    ...("sourceId" in action && { sourceId: action.sourceId }),
  };
}

function compareOptional<Setting extends object>(
  old: Setting | undefined,
  now: Setting | undefined,
  names: readonly (keyof Setting & string)[],
): Result {
  if (old !== undefined && now !== undefined) return changedOnly(old, now, names);
  const differences = differencesOf<Setting>(old ?? NONE, now ?? NONE, names);
  if (old === now) return { verdict: "equal", differences };
  return { verdict: now === undefined ? "missing" : "new", differences };
}

function changedOnly<Setting extends object>(
  old: Setting,
  now: Setting,
  names: readonly (keyof Setting & string)[],
): Result {
  const differences = differencesOf(old, now, names);
  return { verdict: differences.length === 0 ? "equal" : "changed", differences };
}
