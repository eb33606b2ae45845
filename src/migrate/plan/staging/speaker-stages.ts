import type { Configuration, Output } from "../../../model/index.ts";
import type { SpeakerStage } from "./solve-stages.ts";

/** Loudspeakers with their ways, and every other feed by itself, in the order of their first output. */
export function speakerStages(
  configuration: Configuration,
  outputs: readonly Output[],
  stageOf: (output: Output) => SpeakerStage["outputs"][number],
): readonly SpeakerStage[] {
  const groups = new Map<string, Output[]>();
  for (const output of outputs) {
    const key = output.feeds.kind === "loudspeaker" ? `l/${output.feeds.loudspeakerId}` : `o/${output.id}`;
    groups.set(key, [...(groups.get(key) ?? []), output]);
  }
  return [...groups].map(([key, members]) => ({
    id: key,
    outputs: members.map(stageOf),
    inRoom: key.startsWith("l/") && configuration.loudspeakers.length > 0,
  }));
}
