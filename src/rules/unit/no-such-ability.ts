import type { DocumentPath } from "../../model/index.ts";
import type { RuleContext } from "../context.ts";
import { remove, set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const noSuchAbility = screenRule({
  code: "unit/no-such-ability",
  kind: "operation",
  severity: "error",
  title: "Nothing is set that the unit does not have.",
  why: "A limiter, a polarity or a feed that the unit lacks is not there, whatever the file says.",
  source: "the unit's profile",
  remedy: "Take it out, and solve it outside the unit (amplifier, wiring).",
  needsProfile: true,
  example: {
    breaks: [set("/outputs/left-side/fir", { taps: [1, 0, 0] })],
    mends: [remove("/outputs/left-side/fir")],
  },
  *check(context) {
    for (const [path, what] of [...lackingOutputs(context), ...lackingOperation(context)]) {
      yield { path, words: `The unit has no ${what}.`, numbers: { lacking: what } };
    }
  },
});

type Lack = readonly [DocumentPath, string];

function* lackingOutputs({ configuration, profile }: RuleContext): Iterable<Lack> {
  const { limiter, firTapsMax, invert } = profile!.outputs;
  for (const [i, output] of configuration.outputs.entries()) {
    if (output.limiter !== undefined && limiter === undefined) yield [["outputs", i, "limiter"], "limiters"];
    if (output.polarity === "inverted" && !invert) yield [["outputs", i, "polarity"], "polarity switch"];
    const taps = output.fir?.taps.length ?? 0;
    if (taps > firTapsMax) {
      const what = firTapsMax === 0 ? "FIR filters" : `FIR filter of ${taps} taps (at most ${firTapsMax})`;
      yield [["outputs", i, "fir"], what];
    }
  }
}

function* lackingOperation({ configuration, profile }: RuleContext): Iterable<Lack> {
  const { operation } = configuration;
  const unit = profile!.operation;
  if (operation.emergencyMute && !unit.emergencyMute) {
    yield [["operation", "emergencyMute"], "emergency mute contact"];
  }
  if (operation.boothMonitor && !unit.boothMonitor) yield [["operation", "boothMonitor"], "booth monitor"];
  if (operation.hearingImpaired && !unit.hearingImpaired) {
    yield [["operation", "hearingImpaired"], "hearing-impaired feed"];
  }
  if (operation.narration && !unit.narration) yield [["operation", "narration"], "narration feed"];
  if (operation.paging && !unit.paging) yield [["operation", "paging"], "paging input"];
}
