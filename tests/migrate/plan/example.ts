import type {
  Configuration,
  Connector,
  Decisions,
  NumberGrid,
  UnitProfile,
} from "../../../src/model/index.ts";

/** A small auditorium and two invented units, for tests that look at one thing at a time. */

const steps = (min: number, max: number, step: number): NumberGrid => ({ kind: "step", min, max, step });

function connectors(
  group: string,
  rack: number,
  count: number,
  shape: Pick<Connector, "direction" | "kind" | "style"> & Partial<Connector>,
  from = 1,
): Connector[] {
  return Array.from({ length: count }, (_, index) => ({
    id: `${group.toLowerCase().replaceAll(" ", "-")}-${from + index}`,
    label: `${group} ${from + index}`,
    group,
    position: index + 1,
    rack,
    ...shape,
  }));
}

const level = steps(-60, 12, 0.1);
const families = [
  { family: "butterworth" as const, orders: [1, 2, 3, 4] },
  { family: "linkwitz-riley" as const, orders: [2, 4] },
];

/** The unit that failed. */
export const OLD_UNIT: UnitProfile = {
  kind: "boothkeep.unit-profile",
  schemaVersion: "2.0.0",
  id: "old-8",
  revision: "1.0.0",
  label: "Old 8",
  firmwareRange: ">=1.0.0 <2.0.0",
  sampleRatesHz: [48000],
  latency: { samples: 48, ms: 0 },
  connectors: [
    ...connectors("Digital", 1, 2, {
      direction: "input",
      kind: "aes3",
      style: "db25",
      wiring: "aes59-digital",
      line: "Digital 1/2",
    }).map((item, index) => ({ ...item, lineChannel: index + 1 })),
    ...connectors("Mic", 2, 1, { direction: "input", kind: "microphone", style: "xlr" }),
    ...connectors("Out", 3, 8, {
      direction: "output",
      kind: "analog",
      style: "db25",
      wiring: "aes59-analog",
    }),
    ...connectors("Contact", 4, 4, { direction: "control", kind: "contact", style: "terminal-block" }),
  ],
  labels: { maxLength: 20, characters: [" -~"] },
  sources: { max: 4, channelsMax: 8, gainDb: level },
  channels: {
    labels: ["L", "R", "C", "LFE", "Ls", "Rs"],
    levelDb: level,
    delay: { unit: "ms", grid: steps(0, 200, 0.01) },
  },
  equalizations: {
    max: 4,
    parametric: {
      bands: 6,
      kinds: ["peaking", "low-shelf", "high-shelf", "notch"],
      frequencyHz: steps(20, 20000, 1),
      gainDb: steps(-15, 15, 0.5),
      q: steps(0.3, 16, 0.1),
      shelfBy: "q",
    },
  },
  presets: {
    slotMin: 1,
    slotMax: 16,
    max: 16,
    levelDb: level,
    delay: { unit: "ms", grid: steps(0, 200, 0.01) },
    routingGainDb: level,
    routingMax: 64,
  },
  outputs: {
    mixGainDb: level,
    mixMax: 8,
    gainDb: level,
    delay: { unit: "ms", grid: steps(0, 200, 0.01) },
    highPass: { families, frequencyHz: steps(20, 20000, 1) },
    lowPass: { families, frequencyHz: steps(20, 20000, 1) },
    filters: {
      bands: 4,
      kinds: ["peaking", "low-shelf", "high-shelf"],
      frequencyHz: steps(20, 20000, 1),
      gainDb: steps(-15, 15, 0.5),
      q: steps(0.3, 16, 0.1),
      shelfBy: "q",
    },
    limiter: {
      thresholdDbfs: steps(-40, 0, 0.5),
      attackMs: steps(0.5, 50, 0.5),
      releaseMs: steps(10, 1000, 10),
    },
    firTapsMax: 64,
    invert: true,
  },
  fader: {
    marks: [
      { mark: 0, levelDb: -90 },
      { mark: 80, levelDb: 0 },
      { mark: 100, levelDb: 10 },
    ],
    step: 1,
  },
  automation: {
    max: 16,
    triggers: ["contact", "network"],
    actions: ["recall-preset", "mute", "unmute", "set-fader"],
    textMax: 40,
  },
  operation: {
    emergencyMute: true,
    boothMonitor: true,
    hearingImpaired: true,
    narration: true,
    paging: true,
    networkInterfacesMax: 2,
  },
};

/** The unit that takes its place: coarser steps, delays in samples, another order of outputs, shorter names. */
export const NEW_UNIT: UnitProfile = {
  ...OLD_UNIT,
  id: "new-8",
  label: "New 8",
  firmwareRange: ">=3.0.0 <4.0.0",
  latency: { samples: 96, ms: 0.5 },
  connectors: [
    ...connectors("Line", 1, 4, { direction: "output", kind: "analog", style: "terminal-block" }),
    ...connectors("Line", 2, 4, { direction: "output", kind: "analog", style: "terminal-block" }, 5).map(
      (item) => ({ ...item, group: "Line B" }),
    ),
    ...connectors("AES", 3, 2, { direction: "input", kind: "aes3", style: "xlr", line: "AES 1" }).map(
      (item, index) => ({ ...item, lineChannel: index + 1 }),
    ),
    ...connectors("Talk", 4, 1, { direction: "input", kind: "microphone", style: "xlr" }),
    ...connectors("Control", 5, 6, { direction: "control", kind: "contact", style: "terminal-block" }),
  ],
  labels: { maxLength: 10, characters: [" -~"] },
  channels: {
    ...OLD_UNIT.channels,
    levelDb: steps(-60, 12, 0.5),
    delay: { unit: "samples", grid: steps(0, 20000, 1) },
  },
  presets: {
    ...OLD_UNIT.presets,
    levelDb: steps(-60, 12, 0.5),
    delay: { unit: "samples", grid: steps(0, 20000, 1) },
    routingGainDb: steps(-60, 12, 0.5),
  },
  outputs: {
    ...OLD_UNIT.outputs,
    mixGainDb: steps(-60, 12, 0.5),
    gainDb: steps(-60, 12, 0.5),
    delay: { unit: "samples", grid: steps(0, 20000, 1) },
    highPass: { families, frequencyHz: steps(20, 20000, 5) },
    lowPass: { families, frequencyHz: steps(20, 20000, 5) },
    firTapsMax: 0,
  },
  fader: {
    marks: [
      { mark: -90, levelDb: -90 },
      { mark: 10, levelDb: 10 },
    ],
    step: 0.5,
  },
};

export const SCREEN: Configuration = {
  kind: "boothkeep.configuration",
  schemaVersion: "1.0.0",
  screen: {
    siteId: "quarry",
    siteName: "Quarry Lane",
    screenId: "screen-2",
    screenName: "Screen 2",
    format: "stereo",
    seats: 84,
    temperatureC: 20,
    videoLatencyMs: 40,
  },
  unit: {
    profileId: "old-8",
    profileRevision: "1.0.0",
    serial: "O8-1042",
    firmware: "1.3.0",
    sampleRateHz: 48000,
    label: "Quarry 2",
  },
  sources: [
    {
      id: "server",
      label: "Server",
      kind: "aes3",
      assignment: "as-labelled",
      latencyMs: 0,
      channels: [
        { id: "server-1", position: 1, connectorId: "digital-1", carries: "L", gainDb: 0 },
        { id: "server-2", position: 2, connectorId: "digital-2", carries: "R", gainDb: 0 },
      ],
    },
    {
      id: "mic",
      label: "Microphone",
      kind: "microphone",
      assignment: "as-labelled",
      latencyMs: 0,
      channels: [{ id: "mic-1", position: 1, connectorId: "mic-1", carries: "mono", gainDb: 6.3 }],
    },
  ],
  channels: [
    { id: "L", label: "L", levelDb: -1.3, delayMs: 0, mute: false },
    { id: "R", label: "R", levelDb: -1.1, delayMs: 0, mute: false },
  ],
  equalizations: [
    {
      id: "film",
      label: "Film",
      channels: [
        {
          channelId: "L",
          parametric: [
            { id: "b1", kind: "peaking", frequencyHz: 63, gainDb: -3, q: 2 },
            { id: "b2", kind: "high-shelf", frequencyHz: 8000, gainDb: 1.5, q: 0.7 },
            { id: "b3", kind: "peaking", frequencyHz: 1000, gainDb: 2, q: 1, enabled: false },
          ],
        },
        {
          channelId: "R",
          parametric: [{ id: "b1", kind: "peaking", frequencyHz: 63, gainDb: -2.5, q: 2 }],
        },
      ],
    },
  ],
  presets: [
    {
      id: "feature",
      slot: 1,
      label: "Feature stereo",
      sourceId: "server",
      format: "stereo",
      equalizationId: "film",
      levelDb: 0,
      delayMs: 20,
      faderMark: 80,
      routing: [
        { id: "r1", sourceChannelId: "server-1", channelId: "L", gainDb: 0 },
        { id: "r2", sourceChannelId: "server-2", channelId: "R", gainDb: 0 },
      ],
    },
    {
      id: "talk",
      slot: 2,
      label: "Talk",
      sourceId: "mic",
      format: "mono",
      equalizationId: "film",
      levelDb: -3.2,
      delayMs: 0,
      routing: [
        { id: "r1", sourceChannelId: "mic-1", channelId: "L", gainDb: -3 },
        { id: "r2", sourceChannelId: "mic-1", channelId: "R", gainDb: -3 },
      ],
    },
  ],
  loudspeakers: [
    {
      id: "left",
      label: "Screen left",
      placement: "screen-left",
      drive: "active-2",
      boxes: 1,
      ways: [
        { id: "lf", band: "lf" },
        { id: "hf", band: "hf", safeHighPassHz: 800, safeHighPassOrder: 4 },
      ],
    },
    {
      id: "right",
      label: "Screen right",
      placement: "screen-right",
      drive: "active-2",
      boxes: 1,
      ways: [
        { id: "lf", band: "lf" },
        { id: "hf", band: "hf", safeHighPassHz: 800, safeHighPassOrder: 4 },
      ],
    },
  ],
  outputs: [
    output("left", "lf", 1, "L", { gainDb: 0, delayMs: 0.31 }),
    output("left", "hf", 2, "L", { gainDb: -7.3, delayMs: 0 }),
    output("right", "lf", 3, "R", { gainDb: 0, delayMs: 0.31 }),
    output("right", "hf", 4, "R", { gainDb: -7.3, delayMs: 0 }),
  ],
  operation: {
    faderMark: 80,
    startPresetId: "feature",
    emergencyMute: { enabled: true, connectorId: "contact-1", activeWhen: "open", release: "by-hand" },
    paging: { sourceId: "mic", presetId: "talk", programDuckDb: 20 },
  },
  automation: [
    {
      id: "start",
      label: "Show start",
      trigger: { kind: "contact", connectorId: "contact-2", edge: "closing" },
      action: { kind: "recall-preset", presetId: "feature" },
    },
  ],
  network: {
    hostname: "quarry-2",
    interfaces: [{ id: "lan", label: "Control", purpose: "control", mode: "automatic" }],
  },
};

function output(
  loudspeakerId: string,
  wayId: "lf" | "hf",
  connector: number,
  channelId: string,
  numbers: { readonly gainDb: number; readonly delayMs: number },
): Configuration["outputs"][number] {
  const corner = { family: "linkwitz-riley" as const, order: 4, frequencyHz: 852 };
  return {
    id: `${loudspeakerId}-${wayId}`,
    label: `${loudspeakerId} ${wayId}`,
    connectorId: `out-${connector}`,
    feeds: { kind: "loudspeaker", loudspeakerId, wayId },
    mix: [{ channelId, gainDb: 0 }],
    ...(wayId === "hf"
      ? { highPass: corner }
      : { highPass: { family: "butterworth" as const, order: 2, frequencyHz: 40 }, lowPass: corner }),
    filters: [],
    ...numbers,
    polarity: "normal",
    limiter: { enabled: true, thresholdDbfs: -6, attackMs: 2, releaseMs: 100 },
    mute: false,
  };
}

/** Decisions for the example, with whatever answers a test needs. */
export function decisionsWith(answers: Decisions["answers"], rest: Partial<Decisions> = {}): Decisions {
  return {
    kind: "boothkeep.decisions",
    schemaVersion: "1.0.0",
    fromProfileId: "old-8",
    toProfileId: "new-8",
    answers,
    ...rest,
  };
}

/** The answers that the plain example needs. */
export const ANSWERS: Decisions["answers"] = [
  { questionId: "unit/serial", optionId: "as-on-plate", text: "N8-7" },
  { questionId: "unit/firmware", optionId: "as-shown", text: "3.1.0" },
  { questionId: "labels/*", optionId: "as-proposed" },
];
