import type { CrossoverAbility, UnitProfile } from "../../../src/model/index.ts";
import { connectorGroup, outputGroups } from "./connectors.ts";
import { list, octaveFractions, steps } from "./grids.ts";
import { skarn30 } from "./skarn-30.ts";

const fineDb = (min: number, max: number) => steps(min, max, 0.05);
const delay = { unit: "ms", grid: steps(0, 1000, 0.005) } as const;
const crossovers: CrossoverAbility = {
  families: [
    { family: "butterworth", orders: [1, 2, 3, 4, 6, 8] },
    { family: "bessel", orders: [2, 3, 4, 6, 8], normalization: "phase" },
    { family: "linkwitz-riley", orders: [2, 4, 6, 8] },
  ],
  frequencyHz: steps(10, 24000, 0.5),
};

const inputs = skarn30.connectors.filter(({ direction, kind }) => direction === "input" && kind !== "aes67");
const controls = skarn30.connectors.filter(({ direction }) => direction === "control");

/** The larger sister of the Skarn 30: 48 or 96 kHz, 36 outputs, graphic and full parametric EQ, finer steps. */
export const skarn36: UnitProfile = {
  ...skarn30,
  id: "skarn-36",
  label: "Skarn 36",
  firmwareRange: ">=3.0.0 <4.0.0",
  sampleRatesHz: [48000, 96000],
  latency: { samples: 96, ms: 0.4 },
  connectors: [
    ...inputs,
    ...connectorGroup({
      group: "AUDIO NETWORK",
      rack: 3,
      count: 48,
      id: "net-in",
      label: "NET",
      direction: "input",
      kind: "aes67",
      style: "rj45",
    }),
    ...outputGroups({ total: 36, perGroup: 6, firstRack: 8, style: "db25", wiring: "aes59-analog" }),
    ...controls.map((connector) => ({ ...connector, rack: connector.rack + 1 })),
  ],
  labels: { maxLength: 32, characters: [" -~"] },
  sources: { max: 16, channelsMax: 16, gainDb: fineDb(-18, 18) },
  channels: { ...skarn30.channels, levelDb: fineDb(-60, 15), delay },
  equalizations: {
    max: 8,
    graphic: { layout: "third-octave-27", gainDb: steps(-15, 15, 0.1) },
    parametric: {
      bands: 16,
      kinds: ["peaking", "low-shelf", "high-shelf", "notch", "high-pass", "low-pass", "all-pass"],
      frequencyHz: steps(10, 22000, 0.5),
      gainDb: steps(-18, 18, 0.1),
      q: steps(0.1, 30, 0.01),
      shelfBy: "q",
    },
  },
  presets: {
    slotMin: 1,
    slotMax: 64,
    max: 64,
    levelDb: fineDb(-40, 15),
    delay,
    routingGainDb: fineDb(-80, 12),
    routingMax: 256,
  },
  outputs: {
    mixGainDb: fineDb(-80, 12),
    mixMax: 15,
    gainDb: fineDb(-80, 12),
    delay,
    highPass: crossovers,
    lowPass: crossovers,
    filters: {
      bands: 10,
      kinds: ["peaking", "low-shelf", "high-shelf", "notch", "high-pass", "low-pass", "all-pass"],
      frequencyHz: octaveFractions(10, 22000, 96),
      gainDb: steps(-18, 18, 0.1),
      q: steps(0.1, 30, 0.01),
      shelfBy: "q",
    },
    limiter: {
      thresholdDbfs: steps(-60, 0, 0.1),
      attackMs: list(0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100),
      releaseMs: list(10, 20, 50, 100, 200, 500, 1000, 2000, 5000),
    },
    firTapsMax: 512,
    invert: true,
  },
  automation: { ...skarn30.automation, max: 128, textMax: 80 },
  notes: "Invented model, sister of the Skarn 30. Each DB-25 carries circuits 1 to 6 only.",
};
