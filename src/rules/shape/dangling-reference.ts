import type { DocumentPath } from "../../model/index.ts";
import type { RuleContext } from "../context.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

/** A reference that points nowhere: its place, and what should be there. */
interface Dangling {
  readonly path: DocumentPath;
  readonly id: string;
  readonly what: string;
}

/** References of presets and of what plays are told here; those of operation have rules of their own. */
export const danglingReference = screenRule({
  code: "shape/dangling-reference",
  kind: "routing",
  severity: "error",
  title: "Every id that is referred to exists.",
  why: "A preset, an output or an EQ set that refers to nothing is silent or unchanged where it should not be.",
  source: COMMON_PRACTICE,
  remedy: "Correct the id, or add what it should name.",
  example: {
    breaks: [set("/presets/music/equalizationId", "eq-music")],
    mends: [set("/presets/music/equalizationId", "eq-feature")],
  },
  *check(context) {
    for (const { path, id, what } of [...presetReferences(context), ...outputReferences(context)]) {
      yield { path, words: `There is no ${what} with the id '${id}'.`, numbers: { id } };
    }
  },
});

function* presetReferences({
  configuration,
  channels,
  sources,
  sourceChannels,
}: RuleContext): Iterable<Dangling> {
  const sets = new Set(configuration.equalizations.map((item) => item.id));
  for (const [i, preset] of configuration.presets.entries()) {
    const { sourceId, equalizationId, routing } = preset;
    if (!sources.has(sourceId)) yield { path: ["presets", i, "sourceId"], id: sourceId, what: "source" };
    if (!sets.has(equalizationId)) {
      yield { path: ["presets", i, "equalizationId"], id: equalizationId, what: "EQ set" };
    }
    for (const [j, route] of routing.entries()) {
      const at = ["presets", i, "routing", j] as const;
      if (!channels.has(route.channelId)) {
        yield { path: [...at, "channelId"], id: route.channelId, what: "program channel" };
      }
      if (!sourceChannels.has(route.sourceChannelId)) {
        yield { path: [...at, "sourceChannelId"], id: route.sourceChannelId, what: "source channel" };
      }
    }
  }
}

function* outputReferences({ configuration, channels, loudspeakers }: RuleContext): Iterable<Dangling> {
  for (const [i, { feeds, mix }] of configuration.outputs.entries()) {
    if (feeds.kind === "loudspeaker") {
      const loudspeaker = loudspeakers.get(feeds.loudspeakerId)?.item;
      const path = ["outputs", i, "feeds"] as const;
      if (loudspeaker === undefined) {
        yield { path: [...path, "loudspeakerId"], id: feeds.loudspeakerId, what: "loudspeaker" };
      } else if (!loudspeaker.ways.some((way) => way.id === feeds.wayId)) {
        yield { path: [...path, "wayId"], id: feeds.wayId, what: `way of ${loudspeaker.label}` };
      }
    }
    for (const [j, { channelId }] of mix.entries()) {
      if (!channels.has(channelId)) {
        yield { path: ["outputs", i, "mix", j, "channelId"], id: channelId, what: "program channel" };
      }
    }
  }
  for (const [i, set] of configuration.equalizations.entries()) {
    for (const [j, { channelId }] of set.channels.entries()) {
      if (!channels.has(channelId)) {
        yield {
          path: ["equalizations", i, "channels", j, "channelId"],
          id: channelId,
          what: "program channel",
        };
      }
    }
  }
}
