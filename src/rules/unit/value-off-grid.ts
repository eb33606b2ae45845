import { gridContains, gridNearest, gridNeighbours, gridRange, limitedNumbers } from "../../profile/index.ts";
import { printGridValue } from "../../words/index.ts";
import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const valueOffGrid = screenRule({
  code: "unit/value-off-grid",
  kind: "sound",
  severity: "error",
  title: "Every number is one that the unit can be set to.",
  why: "The unit refuses a value outside its range or between its steps, or rounds it without a word.",
  source: "the unit's profile",
  remedy: "Set the nearest value that the unit takes.",
  needsProfile: true,
  example: {
    breaks: [set("/outputs/center-mf/gainDb", -6.05)],
    mends: [set("/outputs/center-mf/gainDb", -6)],
  },
  *check({ configuration, profile }) {
    for (const { path, value, unit, grid, tolerance } of limitedNumbers(configuration, profile!)) {
      if (gridContains(grid, value, tolerance)) continue;
      // A filter above half the sample rate is told as such.
      if (unit === "Hz" && value >= configuration.unit.sampleRateHz / 2) continue;
      const nearest = gridNearest(grid, value);
      const { min, max } = gridRange(grid);
      const { below, above } = gridNeighbours(grid, value);
      const of = unit === "" || unit === "mark" ? "" : ` ${unit}`;
      const field = String(path.at(-1));
      const words =
        below === undefined || above === undefined
          ? `${label(field)} is ${printGridValue(value)}${of}; the unit takes ${printGridValue(min)} to ${printGridValue(max)}${of}.`
          : `${label(field)} is ${printGridValue(value)}${of}, between the unit's steps ${printGridValue(below)} and ${printGridValue(above)}${of}.`;
      yield {
        path,
        words,
        numbers: { value, nearest, min, max, unit },
        remedy: `Set ${printGridValue(nearest)}${of}, the nearest that the unit takes.`,
      };
    }
  },
});

const LABELS: Readonly<Record<string, string>> = {
  gainDb: "The gain",
  levelDb: "The level",
  delayMs: "The delay",
  frequencyHz: "The frequency",
  q: "The Q",
  slope: "The shelf slope",
  faderMark: "The fader mark",
  thresholdDbfs: "The threshold",
  attackMs: "The attack time",
  releaseMs: "The release time",
};

function label(field: string): string {
  return LABELS[field] ?? "The band's gain";
}
