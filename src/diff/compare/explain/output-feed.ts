import type { Configuration, Output } from "../../../model/index.ts";
import { channelName, listed, outputName } from "../../../words/index.ts";
import type { Change } from "../../changes/index.ts";
import type { Draft } from "../draft.ts";
import type { Explainer } from "../explainer.ts";
import { type ReachChange, reachChange, reachOf } from "../reach.ts";
import { outputIn, type Scene, subjectAt } from "../scene.ts";
import { at, byItem, within } from "../select.ts";
import { reachWords } from "./routing.ts";

/** Outputs that came, went, feed something else, or play other program channels. */
export const explainOutputFeed: Explainer = (scene, open) => {
  const changes = [
    ...at(open, "outputs[]", "outputs[].mix[]", "outputs[].mix[].channelId"),
    ...within(open, "outputs[].feeds"),
  ];
  return { drafts: byItem(changes, 2).map((causes) => draftOf(scene, causes)) };
};

function draftOf(scene: Scene, causes: readonly Change[]): Draft {
  const id = causes[0]!.path[1]!;
  const { before, after } = outputIn(scene, id);
  const reach = reachOverPresets(scene);
  const spare = [before, after].every((output) => output === undefined || output.feeds.kind === "spare");
  return {
    code:
      before === undefined ? "output/added" : after === undefined ? "output/removed" : "output/feeds-other",
    kind: "routing",
    severity: spare ? "advice" : "warning",
    subject: subjectAt(scene, ["outputs", id]),
    words: [mainWords(scene, before, after), touches(scene, before, after, reach)]
      .filter((words) => words !== "")
      .join(" "),
    before: settingOf(scene.before, before),
    after: settingOf(scene.after, after),
    effects: [{ kind: "reach", ...reach }],
    ...(spare
      ? {}
      : { remedy: "Check with the amplifiers muted what the output feeds, then each way alone." }),
    causes,
  };
}

function mainWords(scene: Scene, before: Output | undefined, after: Output | undefined): string {
  if (before === undefined) return "The output is new.";
  if (after === undefined) return "The output is gone.";
  const [was, is] = [outputName(scene.before, before), outputName(scene.after, after)];
  const fed = was === is ? "" : `Feeds ${is} instead of ${was}. `;
  const mixed =
    mixOf(scene.before, before) === mixOf(scene.after, after) ? "" : "Plays other program channels.";
  return (fed + mixed).trim() || "The output is set otherwise.";
}

function mixOf(configuration: Configuration, { mix }: Output): string {
  return listed(mix.map(({ channelId }) => channelName(configuration, channelId))) || "nothing";
}

function settingOf(configuration: Configuration, output: Output | undefined): string {
  return output === undefined
    ? "none"
    : `${outputName(configuration, output)}, plays ${mixOf(configuration, output)}`;
}

/** What plays where over all presets: something falls silent only when no preset reaches it any more. */
function reachOverPresets({ before, after }: Scene): ReachChange {
  const all = (configuration: Configuration): ReadonlyMap<string, ReadonlySet<string>> => {
    const total = new Map<string, Set<string>>();
    for (const preset of configuration.presets) {
      for (const [name, signals] of reachOf(configuration, preset)) {
        total.set(name, new Set([...(total.get(name) ?? []), ...signals]));
      }
    }
    return total;
  };
  return reachChange(all(before), all(after));
}

/** Only what this output itself feeds or fed. */
function touches(
  scene: Scene,
  before: Output | undefined,
  after: Output | undefined,
  reach: ReachChange,
): string {
  const names = [before && outputName(scene.before, before), after && outputName(scene.after, after)];
  const own = (name: string): boolean => names.some((full) => full === name || full?.startsWith(`${name}, `));
  return reachWords({
    silent: reach.silent.filter(own),
    added: reach.added.filter(own),
    doubled: reach.doubled.filter(own),
  });
}
