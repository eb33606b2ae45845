import type { Configuration, Question, Source, SourceKind } from "../../../model/index.ts";
import { socketsOf } from "../cables/socket.ts";
import type { StepContext, Verdict } from "../step.ts";
import { place } from "../words.ts";
import { channelAddress, inputCables } from "./input-cables.ts";
import { lossWords, presetLosses } from "./source-use.ts";

/** Channels without which a preset is not worth playing. Common practice, no source. */
const SCREEN_CHANNELS: ReadonlySet<string> = new Set(["L", "C", "R"]);

/** Kinds that a format converter turns into one another: two channels on one line both. */
const CONVERTIBLE: Readonly<Partial<Record<SourceKind, SourceKind>>> = { spdif: "aes3", aes3: "spdif" };

export function roomQuestion(context: StepContext, source: Source, homeless: ReadonlySet<string>): Question {
  const { next, to } = context;
  const without = source.channels.filter((channel) => homeless.has(channelAddress(source, channel)));
  const presets = next.presets.filter(({ sourceId }) => sourceId === source.id);
  const target = CONVERTIBLE[source.kind];
  const free =
    target === undefined
      ? 0
      : socketsOf(to).filter(({ kind, direction }) => kind === target && direction === "input").length -
        inputCables(next, context).filter(({ socket }) => socket.kind === target).length;
  const canConvert = target !== undefined && free * 2 >= source.channels.length;
  const whole = without.length === source.channels.length;
  const losses = presetLosses(next, new Set(without.map(({ id }) => id)));
  const headless =
    presets.length > 0 &&
    presets.every(({ label }) =>
      losses.some((loss) => loss.label === label && loss.channels.some((name) => SCREEN_CHANNELS.has(name))),
    );
  const unanswered = canConvert
    ? `convert-to-${target}`
    : whole || headless
      ? "leave-out"
      : "without-channels";
  return {
    id: `sources/${source.id}/room`,
    place: place(`sources/${source.id}`, `Source '${source.label}'`),
    words: `The new unit has no input of its kind (${source.kind}) left for ${
      whole ? "the source" : `${without.length} of ${source.channels.length} channels of the source`
    } '${source.label}'. What shall be done?`,
    options: [
      ...(canConvert
        ? [
            {
              id: `convert-to-${target}`,
              words: `It comes in as ${target} through a format converter.`,
              consequence:
                "A converter is needed in the rack; its latency is not in the plan until it is entered.",
              numbers: { freeLines: free },
            },
          ]
        : []),
      ...(whole
        ? []
        : [
            {
              id: "without-channels",
              words:
                without.length === 1
                  ? `Position ${without[0]!.position} stays unplugged.`
                  : `Positions ${without.map(({ position }) => position).join(", ")} stay unplugged.`,
              consequence: lossWords(losses),
              numbers: { channels: without.length },
            },
          ]),
      {
        id: "leave-out",
        words: "The source is left out.",
        consequence:
          presets.length === 0
            ? "No preset uses it."
            : `These presets go with it: ${presets.map(({ label }) => `'${label}'`).join(", ")}.`,
        numbers: { presets: presets.length },
      },
    ],
    recommended: {
      optionId: unanswered,
      reason: canConvert
        ? "everything keeps playing."
        : !whole && headless
          ? "without its screen channels no preset of it can run a show."
          : "it loses least.",
    },
    unanswered: { optionId: unanswered, words: "The plan takes the proposed way." },
  };
}

/** The configuration as a verdict on a source without room wants it. */
export function afterRoomVerdict(
  configuration: Configuration,
  source: Source,
  { option }: Verdict,
): Configuration {
  if (option.id === "leave-out") {
    return { ...configuration, sources: configuration.sources.filter(({ id }) => id !== source.id) };
  }
  if (!option.id.startsWith("convert-to-")) return configuration;
  const kind = option.id.slice("convert-to-".length) as SourceKind;
  return {
    ...configuration,
    sources: configuration.sources.map((item) => (item.id === source.id ? { ...item, kind } : item)),
  };
}
