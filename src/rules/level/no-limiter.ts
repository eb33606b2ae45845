import { remove, restore } from "../edits.ts";
import { isLimited } from "../limiters.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";
import { twinOutputs } from "../twins.ts";

export const noLimiter = screenRule({
  code: "level/no-limiter",
  kind: "protection",
  severity: "warning",
  title: "Every way of an active loudspeaker has a limiter, where the unit has them.",
  why: "A driver behind its own amplifier has nothing between it and a loud mistake.",
  source: COMMON_PRACTICE,
  remedy:
    "Set a limiter from the driver's rated power and the amplifier's gain, or say where else it is limited.",
  needsProfile: true,
  example: {
    breaks: [remove("/outputs/center-mf/limiter")],
    mends: [restore("/outputs/center-mf/limiter")],
  },
  *check(context) {
    if (context.profile!.outputs.limiter === undefined) return;
    const toldByTwin = new Set(
      twinOutputs(context)
        .filter(({ left, right }) => isLimited(left.item) !== isLimited(right.item))
        .flatMap(({ left, right }) => [left.item.id, right.item.id]),
    );
    for (const { item: output, index, way, loudspeaker } of context.fedWays) {
      if (loudspeaker.drive === "passive" || isLimited(output) || toldByTwin.has(output.id)) continue;
      yield {
        path: ["outputs", index],
        words: `The ${way.band} way has no limiter${output.limiter === undefined ? "" : " in use"}.`,
        numbers: { band: way.band },
      };
    }
  },
});
