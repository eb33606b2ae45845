import { acousticResponses, frequencyGrid, loudspeakerSums } from "../../acoustics/index.ts";
import type { Configuration, Polarity } from "../../model/index.ts";

/** Grid on which the sums are computed, points an octave. */
const POINTS_PER_OCTAVE = 24;

/**
 * The polarity of every output that makes the sums of neighbouring ways flattest, with ideal drivers; the lowest way of
 * a loudspeaker stays normal. Where both polarities sum alike, as set is kept.
 *
 * @param configuration all outputs of polarity normal
 * @returns polarity by output id, of outputs that feed loudspeakers
 */
export function polarities(configuration: Configuration): ReadonlyMap<string, Polarity> {
  const frequenciesHz = frequencyGrid({
    pointsPerOctave: POINTS_PER_OCTAVE,
    belowHz: configuration.unit.sampleRateHz / 2,
  });
  const found = new Map<string, Polarity>();
  for (const { ways, pairs } of loudspeakerSums(acousticResponses(configuration, { frequenciesHz }), {
    of: "crossovers",
  })) {
    let polarity: Polarity = "normal";
    ways.forEach(({ outputIds }, index) => {
      // Flatness depends on the two ways' polarities against each other alone, so each pair adds its own turn.
      if (pairs[index - 1]?.crossing?.flatter === "inverted") polarity = turned(polarity);
      for (const id of outputIds) found.set(id, polarity);
    });
  }
  return found;
}

function turned(polarity: Polarity): Polarity {
  return polarity === "normal" ? "inverted" : "normal";
}
