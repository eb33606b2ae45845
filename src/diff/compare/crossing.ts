import type { WayPair } from "../../acoustics/index.ts";
import type { ChangeEffect, CrossingEffect } from "../../model/index.ts";
import { printHz, printNumber } from "../../words/index.ts";
import type { Scene } from "./scene.ts";

/** A crossing counts as changed from this much on: phase in degrees, ripple in dB. */
const TOLD_DEG = 3;
const TOLD_DB = 0.1;

/** How the ways of a loudspeaker meet before and after, where that differs; and how the whole loudspeaker differs. */
export function crossingEffects(scene: Scene, loudspeakerId: string | undefined): readonly ChangeEffect[] {
  if (loudspeakerId === undefined) return [];
  const { before, after } = scene.sound.loudspeaker(loudspeakerId);
  const crossings = (after?.pairs ?? []).flatMap((pair) => {
    const old = before?.pairs.find(
      ({ lowerWayId, upperWayId }) => lowerWayId === pair.lowerWayId && upperWayId === pair.upperWayId,
    );
    const effect = old && crossingEffect(loudspeakerId, old, pair);
    return effect !== undefined && isTold(effect) ? [effect] : [];
  });
  const response = scene.sound.loudspeakerChange(loudspeakerId, "")?.effect;
  return [...crossings, ...(response === undefined ? [] : [response])];
}

function crossingEffect(loudspeakerId: string, old: WayPair, pair: WayPair): CrossingEffect | undefined {
  const [before, after] = [old.crossing, pair.crossing];
  if (before === undefined || after === undefined) return undefined;
  return {
    kind: "crossing",
    loudspeakerId,
    lowerWayId: pair.lowerWayId,
    upperWayId: pair.upperWayId,
    fromHz: before.frequencyHz,
    toHz: after.frequencyHz,
    phaseBeforeDeg: before.phaseDifferenceDeg,
    phaseAfterDeg: after.phaseDifferenceDeg,
    rippleBeforeDb: before.rippleDb,
    rippleAfterDb: after.rippleDb,
  };
}

function isTold(effect: CrossingEffect): boolean {
  const turn = Math.abs(effect.phaseAfterDeg - effect.phaseBeforeDeg);
  return (
    Math.min(turn, 360 - turn) >= TOLD_DEG ||
    Math.abs(effect.rippleAfterDb - effect.rippleBeforeDb) >= TOLD_DB
  );
}

/** "At the crossover of mf and hf, 1.6 kHz, the phase goes from 0° to 90° and the ripple of the sum from 0.0 to 3.0 dB." */
export function crossingWords(effects: readonly ChangeEffect[]): string {
  return effects
    .filter((effect) => effect.kind === "crossing")
    .map(
      (effect) =>
        ` At the crossover of ${effect.lowerWayId} and ${effect.upperWayId}, ${printHz(Number(effect.toHz.toPrecision(3)))}, the phase goes from ` +
        `${printNumber(effect.phaseBeforeDeg, 0)}° to ${printNumber(effect.phaseAfterDeg, 0)}° and the ripple of the sum ` +
        `from ${printNumber(effect.rippleBeforeDb, 1)} to ${printNumber(effect.rippleAfterDb, 1)} dB.`,
    )
    .join("");
}
