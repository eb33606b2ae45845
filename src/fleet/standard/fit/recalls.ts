import type {
  AutomationItem,
  Configuration,
  FittedItem,
  FittingOption,
  FittingQuestion,
  Preset,
} from "../../../model/index.ts";
import { askFit, FITTING, type FitContext, type FitStage, type FitVerdict } from "./ask.ts";

/**
 * What names a preset that is not there (any more): automation, the start of the unit, music between shows, paging. For
 * each such preset one question; presets of the same source and format are offered in its place.
 */
export function withRecalls(context: FitContext, target: Configuration): FitStage {
  let configuration = target;
  const items: FittedItem[] = [];
  const verdicts: FitVerdict[] = [];
  for (const presetId of missingPresets(target)) {
    const users = usersOf(configuration, presetId);
    // What was missing already is for 'validate' to find, and nothing that the standard brought.
    const before = new Set(usersOf(context.screen, presetId).map(({ place }) => place));
    const wasThere = context.screen.presets.some(({ id }) => id === presetId);
    if (!wasThere && users.every(({ place }) => before.has(place))) continue;
    const gone = knownPreset(context, presetId);
    const verdict = askFit(context, questionOf(context, { presetId, gone, users, configuration }));
    verdicts.push(verdict);
    const { option, isOpen } = verdict;
    const insteadId = option.id.startsWith("use-") ? option.id.slice("use-".length) : undefined;
    const asBefore = option.id === "stay";
    configuration = redirected(context, configuration, presetId, { insteadId, asBefore });
    items.push(
      ...users.map(
        ({ place, words }): FittedItem => ({
          place,
          words,
          outcome: isOpen ? "asks" : insteadId === undefined && !asBefore ? "left-out" : "moved",
          text: `The preset '${gone?.label ?? presetId}' is not there. ${isOpen ? "Waits." : option.words}`,
          numbers: {},
        }),
      ),
    );
  }
  return { configuration, items, verdicts };
}

interface User {
  readonly place: string;
  readonly words: string;
}

function missingPresets(configuration: Configuration): readonly string[] {
  const there = new Set(configuration.presets.map(({ id }) => id));
  const { startPresetId, nonSync, paging } = configuration.operation;
  const named = [
    startPresetId,
    nonSync?.presetId,
    paging?.presetId,
    ...configuration.automation.map(recalled),
  ].filter((id) => id !== undefined);
  return [...new Set(named)].filter((id) => !there.has(id));
}

function recalled({ action }: AutomationItem): string | undefined {
  return action.kind === "recall-preset" ? action.presetId : undefined;
}

function usersOf({ operation, automation }: Configuration, presetId: string): readonly User[] {
  return [
    ...(operation.startPresetId === presetId
      ? [{ place: "operation/startPresetId", words: "Preset at start-up" }]
      : []),
    ...(operation.nonSync?.presetId === presetId
      ? [{ place: "operation/nonSync", words: "Music between shows" }]
      : []),
    ...(operation.paging?.presetId === presetId
      ? [{ place: "operation/paging", words: "Paging microphone" }]
      : []),
    ...automation
      .filter((item) => recalled(item) === presetId)
      .map(({ id, label }) => ({ place: `automation/${id}`, words: `Automation '${label}'` })),
  ];
}

/** What is known of a preset that is not there: as the screen had it, else as the standard brings it. */
function knownPreset({ screen, standard }: FitContext, presetId: string): Partial<Preset> | undefined {
  const rule = standard.lists.get("presets")?.[0];
  const items = rule === undefined || rule.hold.kind === "left-to-screen" ? undefined : rule.hold.items;
  return (
    screen.presets.find(({ id }) => id === presetId) ?? (items?.get(presetId) as Partial<Preset> | undefined)
  );
}

function questionOf(
  { screen }: FitContext,
  {
    presetId,
    gone,
    users,
    configuration,
  }: {
    readonly presetId: string;
    readonly gone: Partial<Preset> | undefined;
    readonly users: readonly User[];
    readonly configuration: Configuration;
  },
): Omit<FittingQuestion, "chosen"> {
  const like = configuration.presets.filter(
    ({ format, sourceId }) => format === gone?.format && sourceId === gone.sourceId,
  );
  const paging = users.some(({ place }) => place === "operation/paging");
  const start = users.some(({ place }) => place === "operation/startPresetId");
  const before = screen.operation.startPresetId;
  const canStay =
    start &&
    users.length === 1 &&
    before !== undefined &&
    configuration.presets.some(({ id }) => id === before);
  const options: readonly FittingOption[] = [
    ...like.slice(0, 6).map(({ id, label }) => ({
      id: `use-${id}`,
      words: `'${label}' is recalled in its place.`,
      consequence: "It plays the same format from the same source.",
    })),
    ...(canStay
      ? [
          {
            id: "stay",
            words: "It stays as the screen has it.",
            consequence: "The screen is off the standard in that.",
          },
        ]
      : []),
    {
      id: "leave-out",
      words: "It is left out.",
      consequence: paging
        ? "Announcements need other equipment; if they are part of the evacuation, local codes decide."
        : "What recalled the preset does nothing any more.",
      ...(paging && { weakensProtection: true }),
    },
  ];
  const names = users.map(({ words }) => words);
  const shown = names.slice(0, 5).join(", ") + (names.length > 5 ? ` and ${names.length - 5} more` : "");
  return {
    place: `${FITTING}/presets/${presetId}/recalls`,
    words: shown,
    question: `${shown}: the preset '${gone?.label ?? presetId}' is not on this screen. What becomes of it?`,
    options,
    ...(like.length > 0 && { recommended: options[0]!.id }),
  };
}

function redirected(
  { screen }: FitContext,
  configuration: Configuration,
  presetId: string,
  { insteadId, asBefore }: { readonly insteadId: string | undefined; readonly asBefore: boolean },
): Configuration {
  const { operation } = configuration;
  const { startPresetId, nonSync, paging, ...rest } = operation;
  const use = <Use extends { readonly presetId: string }>(key: string, value: Use | undefined) => {
    if (value === undefined || value.presetId !== presetId)
      return value === undefined ? {} : { [key]: value };
    return insteadId === undefined ? {} : { [key]: { ...value, presetId: insteadId } };
  };
  const startId =
    startPresetId !== presetId ? startPresetId : asBefore ? screen.operation.startPresetId : insteadId;
  return {
    ...configuration,
    operation: {
      ...rest,
      ...(startId !== undefined && { startPresetId: startId }),
      ...use("nonSync", nonSync),
      ...use("paging", paging),
    },
    automation: configuration.automation.flatMap((item) => {
      if (recalled(item) !== presetId) return [item];
      if (insteadId === undefined) return [];
      return [{ ...item, action: { kind: "recall-preset" as const, presetId: insteadId } }];
    }),
  };
}
