import type { OldDocument, Upgrade } from "./upgrade.ts";

/** Configuration 0.9 to 1.0: the last version before the first published one. */
export const configuration09To10: Upgrade = {
  kind: "boothkeep.configuration",
  from: "0.9",
  to: "1.0",
  changes: [
    "A crossover's slopeDbPerOctave became its order (6 dB per octave each).",
    "A Bessel filter says its normalization; 0.9 meant the phase normalization.",
    "An output's delaySamples became delayMs, at the unit's sample rate.",
    "An output's inverted (true, false) became polarity (normal, inverted).",
    "The list crossings of a preset became routing, with an id and a gain of 0 dB where none stood.",
    "operation.fireMute became operation.emergencyMute; 0.9 knew a loop that mutes when open, released by hand.",
    "A source says how positions map to labels; 0.9 always labelled its channels.",
  ],
  apply: (document) => ({
    ...document,
    ...onList(document, "sources", (source) => ({ assignment: "as-labelled", ...source })),
    ...onList(document, "presets", withRouting),
    ...onList(document, "outputs", (output) => withOutputFields(output, sampleRateOf(document))),
    ...withEmergencyMute(document),
  }),
};

function sampleRateOf(document: OldDocument): unknown {
  return isObject(document.unit) ? document.unit.sampleRateHz : undefined;
}

function withRouting(preset: OldDocument): OldDocument {
  if (!Array.isArray(preset.crossings)) return preset;
  const { crossings, ...rest } = preset;
  const routing = crossings.map((crossing: unknown) => {
    if (!isObject(crossing)) return crossing;
    const { from, to, gainDb = 0, ...more } = crossing;
    return { id: `${String(from)}-to-${String(to)}`, sourceChannelId: from, channelId: to, gainDb, ...more };
  });
  return { ...rest, routing };
}

function withOutputFields(output: OldDocument, sampleRateHz: unknown): OldDocument {
  const { delaySamples, inverted, ...rest } = output;
  const delay =
    typeof delaySamples === "number" && typeof sampleRateHz === "number" && sampleRateHz > 0
      ? { delayMs: Number(((delaySamples * 1000) / sampleRateHz).toPrecision(12)) }
      : delaySamples === undefined
        ? {}
        : { delaySamples };
  const polarity =
    typeof inverted === "boolean"
      ? { polarity: inverted ? "inverted" : "normal" }
      : inverted === undefined
        ? {}
        : { inverted };
  return {
    ...rest,
    ...delay,
    ...polarity,
    ...("highPass" in rest ? { highPass: withOrder(rest.highPass) } : {}),
    ...("lowPass" in rest ? { lowPass: withOrder(rest.lowPass) } : {}),
  };
}

function withOrder(crossover: unknown): unknown {
  if (!isObject(crossover) || typeof crossover.slopeDbPerOctave !== "number") return crossover;
  const { slopeDbPerOctave, ...rest } = crossover;
  return {
    ...(rest.family === "bessel" ? { normalization: "phase" } : {}),
    ...rest,
    order: slopeDbPerOctave / 6,
  };
}

function withEmergencyMute(document: OldDocument): OldDocument {
  if (!isObject(document.operation) || !isObject(document.operation.fireMute)) return {};
  const { fireMute, ...rest } = document.operation;
  const emergencyMute = {
    enabled: true,
    activeWhen: "open",
    release: "by-hand",
    ...(fireMute as OldDocument),
  };
  return { operation: { ...rest, emergencyMute } };
}

function onList(
  document: OldDocument,
  name: string,
  change: (item: OldDocument) => OldDocument,
): OldDocument {
  const list = document[name];
  return Array.isArray(list) ? { [name]: list.map((item) => (isObject(item) ? change(item) : item)) } : {};
}

function isObject(value: unknown): value is OldDocument {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
