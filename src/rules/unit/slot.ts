import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const slot = screenRule({
  code: "unit/slot",
  kind: "operation",
  severity: "error",
  title: "Every preset stands in a slot that the unit has, alone.",
  why: "The automation of a show calls a preset by its number: in a slot that is not there, or taken, it calls nothing or another.",
  source: "the unit's profile",
  remedy: "Move the preset to a free slot and correct the cues that call it.",
  needsProfile: true,
  example: {
    breaks: [set("/presets/music/slot", 1)],
    mends: [set("/presets/music/slot", 5)],
  },
  *check({ configuration, profile }) {
    const { slotMin, slotMax } = profile!.presets;
    const taken = new Map<number, string>();
    for (const [i, preset] of configuration.presets.entries()) {
      const path = ["presets", i, "slot"];
      const numbers = { slot: preset.slot, slotMin, slotMax };
      const other = taken.get(preset.slot);
      if (preset.slot < slotMin || preset.slot > slotMax) {
        yield {
          path,
          words: `Slot ${preset.slot} is not there; the unit has ${slotMin} to ${slotMax}.`,
          numbers,
        };
      } else if (other !== undefined) {
        yield { path, words: `Slot ${preset.slot} holds ${other} already.`, numbers };
      }
      taken.set(preset.slot, preset.label);
    }
  },
});
