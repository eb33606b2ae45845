import type { DocumentPath } from "../../model/index.ts";
import type { RuleContext } from "../context.ts";
import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

interface Count {
  readonly path: DocumentPath;
  readonly what: string;
  readonly count: number;
  readonly max: number;
}

export const tooMany = screenRule({
  code: "unit/too-many",
  kind: "operation",
  severity: "error",
  title: "There are no more sources, EQ sets, presets, filters or crossings than the unit holds.",
  why: "What does not fit is left out when the configuration is loaded, and which part that is, is the unit's choice.",
  source: "the unit's profile",
  remedy: "Take out what is not needed, or share EQ sets between presets.",
  needsProfile: true,
  example: {
    breaks: [
      ...["b3", "b4", "b5", "b6", "b7", "b8", "b9"].map((id) =>
        set(`/equalizations/eq-feature/channels/LFE/parametric/${id}`, {
          id,
          kind: "peaking",
          frequencyHz: 100,
          gainDb: 0,
          q: 1,
        }),
      ),
    ],
    mends: [
      set("/equalizations/eq-feature/channels/LFE/parametric", [
        { id: "b1", kind: "peaking", frequencyHz: 47, gainDb: -4.5, q: 4 },
      ]),
    ],
  },
  *check(context) {
    for (const { path, what, count, max } of counts(context)) {
      if (count <= max) continue;
      yield { path, words: `There are ${count} ${what}; the unit holds ${max}.`, numbers: { count, max } };
    }
  },
});

function* counts({ configuration, profile }: RuleContext): Iterable<Count> {
  const { sources, equalizations, presets, outputs, automation, network } = configuration;
  const unit = profile!;
  yield { path: ["sources"], what: "sources", count: sources.length, max: unit.sources.max };
  for (const [i, source] of sources.entries()) {
    const count = source.channels.length;
    yield { path: ["sources", i], what: "channels in a source", count, max: unit.sources.channelsMax };
  }
  yield {
    path: ["equalizations"],
    what: "EQ sets",
    count: equalizations.length,
    max: unit.equalizations.max,
  };
  for (const [i, { channels }] of equalizations.entries()) {
    for (const [j, { parametric = [] }] of channels.entries()) {
      const path = ["equalizations", i, "channels", j];
      const max = unit.equalizations.parametric?.bands ?? 0;
      yield { path, what: "parametric filters", count: parametric.length, max };
    }
  }
  yield { path: ["presets"], what: "presets", count: presets.length, max: unit.presets.max };
  for (const [i, { routing }] of presets.entries()) {
    yield {
      path: ["presets", i],
      what: "crossings in a preset",
      count: routing.length,
      max: unit.presets.routingMax,
    };
  }
  for (const [i, { mix, filters }] of outputs.entries()) {
    const path = ["outputs", i];
    yield { path, what: "program channels in an output", count: mix.length, max: unit.outputs.mixMax };
    yield { path, what: "driver EQ filters", count: filters.length, max: unit.outputs.filters?.bands ?? 0 };
  }
  yield {
    path: ["automation"],
    what: "automation items",
    count: automation.length,
    max: unit.automation.max,
  };
  yield {
    path: ["network"],
    what: "network interfaces",
    count: network.interfaces.length,
    max: unit.operation.networkInterfacesMax,
  };
}
