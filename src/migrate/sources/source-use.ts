import type { Configuration, Source } from "../../model/index.ts";

/** How much a source is needed, and by what. */
export interface SourceUse {
  readonly weight: number;
  /** "3 presets use it and go with it; paging uses it." */
  readonly words: string;
}

/** Weights of what uses a source: an order of preference, common practice, no source. */
const WEIGHT = { paging: 1000, start: 500, nonSync: 100, preset: 10, automation: 1 } as const;

export function sourceUse(
  { presets, operation, automation }: Configuration,
  { id }: Pick<Source, "id">,
): SourceUse {
  const own = presets.filter(({ sourceId }) => sourceId === id);
  const starts = own.some((preset) => preset.id === operation.startPresetId);
  const selects = automation.filter(
    ({ action }) => action.kind === "select-source" && action.sourceId === id,
  ).length;
  const paging = operation.paging?.sourceId === id;
  const nonSync = operation.nonSync?.sourceId === id;
  const words = [
    own.length === 0
      ? "no preset uses it"
      : `${own.length === 1 ? "1 preset uses it and goes" : `${own.length} presets use it and go`} with it`,
    ...(paging ? ["paging uses it"] : []),
    ...(starts ? ["the unit starts with it"] : []),
    ...(nonSync ? ["music between shows uses it"] : []),
    ...(selects > 0 ? [`automation selects it ${selects === 1 ? "once" : `${selects} times`}`] : []),
  ];
  return {
    weight:
      own.length * WEIGHT.preset +
      selects * WEIGHT.automation +
      (paging ? WEIGHT.paging : 0) +
      (starts ? WEIGHT.start : 0) +
      (nonSync ? WEIGHT.nonSync : 0),
    words: `${words.join("; ")}.`,
  };
}
