import type { Step, StepItem } from "../step.ts";
import { place } from "../words.ts";

/** The measurements go along as a record. They were made through the old unit: the cautions say to measure again. */
export const calibration: Step = {
  name: "calibration",
  run: ({ next }) => {
    const { calibration: record, ...rest } = next;
    if (record === undefined) return { next };
    const at = place("calibration", "Calibration");
    if (!next.equalizations.some(({ id }) => id === record.equalizationId)) {
      const lost: StepItem = {
        outcome: "lost",
        place: at,
        words: "The EQ set that the measurements vouch for is left out, and the record with it.",
        claims: [at.address],
      };
      return { next: rest, items: [lost] };
    }
    const there = new Set(next.channels.map(({ id }) => id));
    const gone = record.channels.filter(({ channelId }) => !there.has(channelId));
    const items: StepItem[] = [
      {
        outcome: "kept",
        place: at,
        words: `The measurements of ${record.date} are kept as a record; they were made through the old unit.`,
        claims: [
          ...["date", "by", "equalizationId", "microphonePositions", "notes"].map(
            (name) => `calibration/${name}`,
          ),
          ...record.channels
            .filter(({ channelId }) => there.has(channelId))
            .map(({ channelId }) => `calibration/channels/${channelId}`),
        ],
      },
      ...gone.map(
        ({ channelId }): StepItem => ({
          outcome: "lost",
          place: place(`calibration/channels/${channelId}`, `Calibration, channel ${channelId}`),
          words: "The channel is left out, and its measurement with it.",
          claims: [`calibration/channels/${channelId}`],
        }),
      ),
    ];
    return {
      next: {
        ...next,
        calibration: { ...record, channels: record.channels.filter(({ channelId }) => there.has(channelId)) },
      },
      items,
    };
  },
};
