import type { LoudspeakerData, ScreenDescription, UnitProfile } from "../../../model/index.ts";
import type { Asking } from "./ask.ts";
import { askDistances } from "./distance-questions.ts";
import { askLoudspeakers } from "./loudspeaker-questions.ts";
import { askFormats, askOperation } from "./operation-questions.ts";
import { askScreen, askUnit } from "./unit-questions.ts";

/** What the questions are asked with. */
export interface Known {
  /** Units to choose from; at least one. */
  readonly profiles: readonly UnitProfile[];
  readonly loudspeakers: LoudspeakerData;
}

/**
 * The questions from which a screen's description follows. Each question offers only what the answers before it leave
 * possible, so that whatever is answered makes a description that fits its unit.
 */
export function* roomQuestions(known: Known): Asking<ScreenDescription> {
  const screen = yield* askScreen();
  const unit = yield* askUnit(known.profiles, screen);
  const standing = yield* askLoudspeakers(known.loudspeakers, unit);
  const distances = yield* askDistances(standing, unit, screen.temperatureC);
  const formats = yield* askFormats(standing, unit);
  const operation = yield* askOperation(standing, unit, screen);
  const { profile, serial, firmware, sampleRateHz, label, source, videoLatencyMs } = unit;
  return {
    kind: "boothkeep.screen-description",
    schemaVersion: "1.0.0",
    screen: { ...screen, videoLatencyMs },
    unit: { profileId: profile.id, serial, firmware, sampleRateHz, label },
    formats,
    source,
    ...distances,
    ...operation,
  };
}
