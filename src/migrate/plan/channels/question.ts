import type {
  Configuration,
  ProgramChannel,
  Question,
  QuestionOption,
  UnitProfile,
} from "../../../model/index.ts";
import { printDb, printDbChange, printHz } from "../../../words/index.ts";
import { channelDifferences } from "../equalizers/set-difference.ts";
import { place } from "../words.ts";
import { spreadChannel } from "./spread.ts";
import type { MissingChannels } from "./stand-ins.ts";

/** How ids of options begin that play a channel through two others. */
export const SPREAD = "play-between-";

export interface Asked {
  readonly old: Configuration;
  readonly next: Configuration;
  readonly from: UnitProfile;
}

/**
 * What becomes of program channels that the unit lacks.
 *
 * @param neighbours channels between which it can be played; undefined: there are none
 */
export function channelQuestion(
  { old, next, from }: Asked,
  { channels: group, standIn }: MissingChannels,
  neighbours: readonly ProgramChannel[] | undefined,
): Question {
  const labels = group.map(({ label }) => label).join(" and ");
  const [is, it] = group.length === 1 ? ["is", "it"] : ["are", "them"];
  const ids = new Set(group.map(({ id }) => id));
  const presets = old.presets.filter(({ routing }) => routing.some(({ channelId }) => ids.has(channelId)));
  const outputs = old.outputs.filter(({ mix }) => mix.some(({ channelId }) => ids.has(channelId)));
  const numbers = { presets: presets.length, outputs: outputs.length };
  const concerned =
    presets.length === 0
      ? "No preset uses it."
      : `Presets: ${presets.map(({ label }) => `'${label}'`).join(", ")}.`;
  const options: QuestionOption[] = [];
  if (standIn !== undefined) {
    const equalizer = equalizerWords(next, group, standIn, from);
    options.push({
      id: `play-as-${standIn}`,
      words: `${labels} ${is} played through ${standIn}.`,
      consequence: `Every loudspeaker keeps playing. Where side and rear were apart they no longer are; what then plays from more loudspeakers is lowered by ${printDb(10 * Math.log10(Math.max(2, group.length)), 1)} in each, so that its level at the seats stays. ${equalizer.words} ${concerned}`,
      numbers: { ...numbers, ...equalizer.numbers },
    });
  }
  if (neighbours !== undefined) {
    const [first] = group;
    const between = neighbours.map(({ label }) => label);
    const silent = outputs.filter(({ mix }) => mix.every(({ channelId }) => ids.has(channelId)));
    const louder = spreadChannel(next, first!, neighbours).louder.length;
    options.push({
      id: `${SPREAD}${between.join("-and-")}`,
      words: `${labels} ${is} played through ${between.join(" and ")}, ${printDbChange(-10 * Math.log10(2), 1)} in each.`,
      consequence: [
        `It is heard between the two, as loud at the seats as before, and gets their equalizers.`,
        silent.length === 0
          ? ""
          : `Its own loudspeaker stays silent, ${silent.length} ${silent.length === 1 ? "output is" : "outputs are"} set free.`,
        louder === 0 ? "" : `What a preset sends to both adds up in phase.`,
        concerned,
      ]
        .filter((sentence) => sentence !== "")
        .join(" "),
      numbers: { ...numbers, outputsFreed: silent.length, eachDb: -3.01 },
    });
  }
  options.push({
    id: "leave-out",
    words: `${labels} ${is} left out.`,
    consequence: `${presets.length === 0 ? concerned : `What ${presets.map(({ label }) => `'${label}'`).join(", ")} ${presets.length === 1 ? "sends" : "send"} there is heard no more.`} ${outputs.length} ${outputs.length === 1 ? "output loses" : "outputs lose"} that feed.`,
    numbers,
  });
  const [best] = options;
  const recommended =
    best!.id === "leave-out"
      ? {}
      : {
          recommended: {
            optionId: best!.id,
            reason:
              standIn === undefined ? "nothing of the program is lost." : "every loudspeaker keeps playing.",
          },
        };
  return {
    id: `channels/${group[0]!.id}`,
    place: place(`channels/${group[0]!.id}`, `Program channel ${labels}`),
    words: `The new unit has no program channel${group.length === 1 ? "" : "s"} ${labels}. What becomes of ${it}?`,
    options,
    ...recommended,
    unanswered: {
      optionId: best!.id,
      words: best!.id === "leave-out" ? "What it plays is left out." : `The plan has it so: ${best!.words}`,
    },
  };
}

/** How far the equalizers of the others are from the one that serves all of them from now on. */
function equalizerWords(
  configuration: Configuration,
  group: readonly ProgramChannel[],
  standIn: string,
  from: UnitProfile,
): { readonly words: string; readonly numbers: Readonly<Record<string, number>> } {
  const present = configuration.channels.find(({ label }) => label === standIn);
  const carrier = present ?? group[0]!;
  const others = group.filter(({ id }) => id !== carrier.id);
  if (others.length === 0) return { words: "It keeps its equalizer.", numbers: {} };
  const differences = others.map((other) => ({
    other,
    ...channelDifferences(configuration, from, { goneId: other.id, staysId: carrier.id }),
  }));
  const words = differences.map(({ other, rmsDb, maxDb, maxAtHz }) =>
    rmsDb < 0.005
      ? `${other.label} had the same.`
      : `That of ${other.label} differed by up to ${printDb(rmsDb, 1)} rms, ${printDb(Math.abs(maxDb), 1)} at ${printHz(maxAtHz)}: so much changes what its loudspeakers play.`,
  );
  return {
    words: `The equalizer of ${carrier.label} serves all of them. ${words.join(" ")}`,
    numbers: { equalizerRmsDb: Math.round(Math.max(...differences.map(({ rmsDb }) => rmsDb)) * 100) / 100 },
  };
}
