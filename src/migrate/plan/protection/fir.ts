import { firResponse, frequencyAxis, frequencyGrid, magnitudeDb } from "../../../acoustics/index.ts";
import { msFromSamples } from "../../../base/units/index.ts";
import type { Fir, Output } from "../../../model/index.ts";
import { printDb, printMs } from "../../../words/index.ts";
import { figure } from "../figure.ts";
import { ask, outcomeOf, type StepContext } from "../step.ts";
import { place } from "../words.ts";
import { type Carried, MUTE } from "./crossover.ts";

/** An FIR block: kept where it fits tap by tap at the same sample rate, else asked about. It is never just dropped. */
export function carryFir(context: StepContext, output: Output): Carried<Fir | undefined> {
  const { fir } = output;
  if (fir === undefined) return { value: undefined, items: [], questions: [], silence: false };
  const { old, next, to } = context;
  const at = place(`outputs/${output.id}/fir`, `${context.words.output(output)}, FIR filter`);
  const sameRate = old.unit.sampleRateHz === next.unit.sampleRateHz;
  if (sameRate && fir.taps.length <= to.outputs.firTapsMax) {
    return {
      value: fir,
      items: [
        {
          outcome: "kept",
          place: at,
          words: `All ${fir.taps.length} taps are kept.`,
          claims: [at.address],
        },
      ],
      questions: [],
      silence: false,
    };
  }
  const figures = figuresOf(fir, old.unit.sampleRateHz);
  const verdict = ask(context, {
    id: at.address,
    place: at,
    words: `The new unit cannot run this FIR filter: ${fir.taps.length} taps at ${old.unit.sampleRateHz} Hz; it takes ${to.outputs.firTapsMax} at ${next.unit.sampleRateHz} Hz. What shall be done?`,
    options: [
      {
        id: "leave-out",
        words: "The FIR filter is left out.",
        consequence: `Its response (${printDb(figures.minDb)} to ${printDb(figures.maxDb)} between 40 Hz and 16 kHz) and its delay of ${printMs(figures.delayMs)} are gone. If it is part of a crossover, the driver is less protected.`,
        numbers: figures,
        ...(fir.enabled === false ? {} : { weakensProtection: true }),
        sets: { fir: null },
      },
      MUTE,
    ],
    unanswered: { optionId: MUTE.id, words: "The output stays muted until it is settled." },
  });
  return {
    value: undefined,
    items: [
      {
        outcome: outcomeOf(verdict, "lost"),
        place: at,
        words: `The FIR filter of ${fir.taps.length} taps does not fit. ${verdict.option.words}`,
        numbers: figures,
        claims: [at.address],
        questionId: verdict.question.id,
      },
    ],
    questions: [verdict.question],
    silence: verdict.option.id === MUTE.id,
  };
}

const EAR_FROM_HZ = 40;
const EAR_TO_HZ = 16_000;
const POINTS_PER_OCTAVE = 6;

function figuresOf(fir: Fir, sampleRateHz: number) {
  const axis = frequencyAxis(
    sampleRateHz,
    frequencyGrid({ fromHz: EAR_FROM_HZ, toHz: EAR_TO_HZ, pointsPerOctave: POINTS_PER_OCTAVE }),
  );
  const levels = magnitudeDb(firResponse({ ...fir, enabled: true }, axis));
  return {
    taps: fir.taps.length,
    minDb: figure(Math.min(...levels), 2),
    maxDb: figure(Math.max(...levels), 2),
    delayMs: figure(msFromSamples(centreOf(fir.taps), sampleRateHz), 3),
  };
}

/** Where the energy of the taps has its centre, in samples: the delay of a linear-phase filter. */
function centreOf(taps: readonly number[]): number {
  const energy = taps.reduce((sum, tap) => sum + tap * tap, 0);
  return energy === 0 ? 0 : taps.reduce((sum, tap, index) => sum + index * tap * tap, 0) / energy;
}
