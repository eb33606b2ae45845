import type { DocumentPath, EqBand, FilterAbility } from "../../model/index.ts";
import { filterObstacle } from "../../profile/index.ts";
import type { RuleContext } from "../context.ts";
import { remove, set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const filterNotOffered = screenRule({
  code: "unit/filter-not-offered",
  kind: "sound",
  severity: "error",
  title: "Every filter is of a kind that the unit offers at its place.",
  why: "A filter that the unit does not have cannot be set; the nearest other one sounds different.",
  source: "the unit's profile",
  remedy: "Express the filter by kinds that the unit has, and compare the responses.",
  needsProfile: true,
  example: {
    breaks: [set("/outputs/center-mf/filters/n1", { id: "n1", kind: "band-pass", frequencyHz: 1000, q: 1 })],
    mends: [remove("/outputs/center-mf/filters/n1")],
  },
  *check(context) {
    const { configuration, profile } = context;
    for (const [path, bands, ability] of filterLists(context)) {
      if (ability === undefined) continue;
      for (const [i, band] of bands.entries()) {
        const obstacle = filterObstacle(ability, band);
        if (obstacle === undefined) continue;
        const words =
          obstacle === "kind"
            ? `The unit has no ${band.kind} filter here; it has ${ability.kinds.join(", ")}.`
            : `The unit sets shelves by ${obstacle === "shelf-by-q" ? "slope, not by Q" : "Q, not by slope"}.`;
        yield { path: [...path, i, "kind"], words, numbers: { kind: band.kind } };
      }
    }
    const layout = profile!.equalizations.graphic?.layout;
    for (const [i, { channels }] of configuration.equalizations.entries()) {
      for (const [j, { graphic }] of channels.entries()) {
        if (graphic === undefined || graphic.layout === layout) continue;
        yield {
          path: ["equalizations", i, "channels", j, "graphic", "layout"],
          words: `The unit has ${layout === undefined ? "no graphic equalizer" : `a ${layout} graphic equalizer`}, not ${graphic.layout}.`,
          numbers: { layout: graphic.layout },
        };
      }
    }
  },
});

function* filterLists({
  configuration,
  profile,
}: RuleContext): Iterable<readonly [DocumentPath, readonly EqBand[], FilterAbility | undefined]> {
  for (const [i, { channels }] of configuration.equalizations.entries()) {
    for (const [j, { parametric = [] }] of channels.entries()) {
      yield [
        ["equalizations", i, "channels", j, "parametric"],
        parametric,
        profile!.equalizations.parametric,
      ];
    }
  }
  for (const [i, { filters }] of configuration.outputs.entries()) {
    yield [["outputs", i, "filters"], filters, profile!.outputs.filters];
  }
}
