import type { Configuration } from "../../../src/model/index.ts";
import { type Edit, edited } from "../builders/edit.ts";
import { lanternMill1 } from "../screens/lantern-mill-1.ts";

const centerBands = ["equalizations", "feature", "channels", "C", "graphic", "gainsDb"] as const;

/** What somebody did between the alignment and the visit, without a word to anyone. */
export const AUTUMN_EDITS: readonly Edit[] = [
  {
    what: "High-pass of the left hf way lowered: the driver is no longer protected",
    at: ["outputs", "left-hf", "highPass", "frequencyHz"],
    from: 1600,
    to: 1000,
  },
  {
    what: "Left rear surround turned down",
    at: ["channels", "Lrs", "levelDb"],
    from: -0.2,
    to: -2.7,
  },
  { what: "Center brightened at 2 kHz", at: [...centerBands, 17], from: -1.5, to: 0.5 },
  { what: "Center brightened at 2.5 kHz", at: [...centerBands, 18], from: -0.5, to: 2 },
  { what: "Center brightened at 3.15 kHz", at: [...centerBands, 19], from: 0, to: 1.5 },
  {
    what: "Event preset renamed",
    at: ["presets", "event-51", "label"],
    from: "Event 5.1",
    to: "Live event 5.1",
  },
  { what: "Event preset delayed", at: ["presets", "event-51", "delayMs"], from: 0, to: 38.5 },
];

/** Lantern Mill, screen 1, as found half a year after its alignment. */
export function lanternMill1Autumn(): Configuration {
  return edited(lanternMill1(), AUTUMN_EDITS);
}
