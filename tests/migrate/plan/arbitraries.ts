import fc from "fast-check";
import type {
  ChannelLabel,
  Configuration,
  Connector,
  Crossover,
  EqBand,
  FilterAbility,
  NumberGrid,
  Output,
  UnitProfile,
} from "../../../src/model/index.ts";

/** Small units and configurations of every sort: the plan has to account for whatever it is given. */

const LABELS: readonly ChannelLabel[] = [
  "L",
  "C",
  "R",
  "LFE",
  "Lss",
  "Rss",
  "Lrs",
  "Rrs",
  "HI",
  "VIN",
  "Ls",
  "Rs",
];

const decimal = (min: number, max: number, step: number) =>
  fc
    .integer({ min: Math.round(min / step), max: Math.round(max / step) })
    .map((k) => Number((k * step).toFixed(6)));

const stepGrid = (min: number, max: number, ...steps: number[]): fc.Arbitrary<NumberGrid> =>
  fc.constantFrom(...steps).map((step) => ({ kind: "step", min, max, step }));

const levelGrid = fc.oneof(
  stepGrid(-60, 12, 0.1, 0.25, 0.5, 1),
  stepGrid(-20, 6, 0.1, 0.5, 3),
  fc.constant<NumberGrid>({ kind: "list", values: [-40, -20, -10, -6, -3, -1, 0, 1, 3] }),
);

const frequencyGrid = fc.oneof(
  stepGrid(20, 20000, 1, 10),
  fc.constant<NumberGrid>({ kind: "log", min: 20, max: 20000, referenceHz: 1000, perOctave: 24 }),
  fc.constant<NumberGrid>({ kind: "list", values: [40, 80, 120, 500, 1000, 2000, 8000] }),
);

const delayAbility = fc.record({
  unit: fc.constantFrom("ms" as const, "samples" as const),
  grid: fc.oneof(stepGrid(0, 500, 0.01, 0.1, 1), stepGrid(0, 50, 1, 5)),
});

const crossoverAbility = fc.record({
  families: fc.subarray(
    [
      { family: "butterworth" as const, orders: [1, 2, 3, 4] },
      { family: "bessel" as const, orders: [2, 4], normalization: "phase" as const },
      { family: "linkwitz-riley" as const, orders: [2, 4] },
    ],
    { minLength: 1 },
  ),
  frequencyHz: frequencyGrid,
});

const filterAbility: fc.Arbitrary<FilterAbility> = fc
  .record({
    bands: fc.integer({ min: 0, max: 4 }),
    kinds: fc.subarray(
      [
        "peaking" as const,
        "low-shelf" as const,
        "high-shelf" as const,
        "notch" as const,
        "all-pass" as const,
      ],
      {
        minLength: 1,
      },
    ),
    frequencyHz: frequencyGrid,
    gainDb: levelGrid,
    q: stepGrid(0.3, 16, 0.1, 0.5),
    shelfBy: fc.constantFrom("q" as const, "slope" as const),
  })
  .map((ability) =>
    ability.shelfBy === "q"
      ? ability
      : { ...ability, slope: { kind: "list", values: [0.5, 1] } as NumberGrid },
  );

function connectorGroup(
  group: string,
  rack: number,
  count: number,
  shape: Pick<Connector, "direction" | "kind" | "style">,
): Connector[] {
  return Array.from({ length: count }, (_, index) => ({
    id: `${group.toLowerCase()}-${index + 1}`,
    label: `${group} ${index + 1}`,
    group,
    position: index + 1,
    rack,
    ...shape,
    ...(shape.kind === "aes3" || shape.kind === "spdif"
      ? { line: `${group} line ${Math.floor(index / 2)}`, lineChannel: (index % 2) + 1 }
      : {}),
  }));
}

interface Size {
  readonly outputs: number;
  readonly split: number;
  readonly aes: number;
  readonly analog: number;
  readonly spdif: number;
  readonly microphones: number;
  readonly contacts: number;
  readonly serial: number;
  readonly names: readonly [string, string];
}

const size = (least: number): fc.Arbitrary<Size> =>
  fc.record({
    outputs: fc.integer({ min: least, max: 14 }),
    split: fc.integer({ min: 0, max: 14 }),
    aes: fc.constantFrom(0, 2, 4, 8, 8).map((count) => Math.max(count, least > 0 ? 8 : 0)),
    analog: fc.integer({ min: least > 0 ? 2 : 0, max: 4 }),
    spdif: fc.constantFrom(...(least > 0 ? [2] : [0, 2])),
    microphones: fc.integer({ min: least > 0 ? 1 : 0, max: 1 }),
    contacts: fc.integer({ min: least > 0 ? 4 : 0, max: 5 }),
    serial: fc.integer({ min: least > 0 ? 1 : 0, max: 1 }),
    names: fc.constantFrom(["Out", "More"] as const, ["Line", "Aux"] as const),
  });

function connectorsOf(size: Size): Connector[] {
  const first = Math.min(size.outputs, size.split);
  const output = { direction: "output", kind: "analog", style: "db25" } as const;
  return [
    ...connectorGroup("Aes", 1, size.aes, { direction: "input", kind: "aes3", style: "db25" }),
    ...connectorGroup("Ana", 2, size.analog, { direction: "input", kind: "analog", style: "xlr" }),
    ...connectorGroup("Spd", 3, size.spdif, { direction: "input", kind: "spdif", style: "coaxial" }),
    ...connectorGroup("Mic", 4, size.microphones, { direction: "input", kind: "microphone", style: "xlr" }),
    ...connectorGroup(size.names[0], 5, first, output),
    ...connectorGroup(size.names[1], 6, size.outputs - first, output),
    ...connectorGroup("Contact", 7, size.contacts, {
      direction: "control",
      kind: "contact",
      style: "terminal-block",
    }),
    ...connectorGroup("Serial", 8, size.serial, { direction: "control", kind: "serial", style: "de9" }),
  ];
}

/** A unit of any ability. `able` makes one that can hold every configuration of {@link configurations}. */
export function profiles(id: string, able = false): fc.Arbitrary<UnitProfile> {
  const many = (max: number) => (able ? fc.constant(max) : fc.integer({ min: 1, max }));
  const yes = able ? fc.constant(true) : fc.boolean();
  return fc
    .record({
      size: size(able ? 14 : 0),
      rates: fc.subarray([44100, 48000, 96000], { minLength: 1 }),
      latencyMs: decimal(0, 5, 0.1),
      labelLength: fc.integer({ min: 3, max: 24 }),
      characters: fc.constantFrom([" -~"], ["A-Z", "0-9", " ", ".", "/", "-"]),
      sources: many(4),
      sourceChannels: many(8),
      labels: able ? fc.constant([...LABELS]) : fc.subarray([...LABELS], { minLength: 1 }),
      levels: fc.array(levelGrid, { minLength: 6, maxLength: 6 }),
      delays: fc.array(delayAbility, { minLength: 3, maxLength: 3 }),
      sets: many(3),
      graphic: fc.option(levelGrid, { nil: undefined }),
      layout: fc.constantFrom("octave-10" as const, "third-octave-27" as const),
      parametric: fc.option(filterAbility, { nil: undefined }),
      filters: fc.option(filterAbility, { nil: undefined }),
      presets: many(5),
      slotMin: fc.integer({ min: 0, max: 3 }),
      routingMax: many(16),
      mixMax: many(8),
      highPass: crossoverAbility,
      lowPass: crossoverAbility,
      limiter: fc.option(
        fc.record({
          thresholdDbfs: stepGrid(-30, 0, 0.5, 1),
          attackMs: stepGrid(0.5, 50, 0.5, 5),
          releaseMs: stepGrid(10, 2000, 10, 100),
        }),
        { nil: undefined },
      ),
      taps: fc.constantFrom(0, 4),
      invert: yes,
      faderTop: fc.constantFrom(10, 80, 100),
      automation: many(8),
      triggers: fc.subarray(["contact" as const, "serial" as const, "network" as const]),
      actions: fc.subarray([
        "recall-preset" as const,
        "mute" as const,
        "unmute" as const,
        "set-fader" as const,
        "select-source" as const,
      ]),
      textMax: fc.integer({ min: 2, max: 20 }),
      operation: fc.record({
        emergencyMute: yes,
        boothMonitor: yes,
        hearingImpaired: yes,
        narration: yes,
        paging: yes,
        networkInterfacesMax: fc.integer({ min: 0, max: 2 }),
      }),
    })
    .map(
      (part): UnitProfile => ({
        kind: "boothkeep.unit-profile",
        schemaVersion: "2.0.0",
        id,
        revision: "1.0.0",
        label: id,
        firmwareRange: ">=1.0.0 <2.0.0",
        sampleRatesHz: part.rates,
        latency: { samples: 32, ms: part.latencyMs },
        connectors: connectorsOf(part.size),
        labels: { maxLength: part.labelLength, characters: part.characters },
        sources: { max: part.sources, channelsMax: part.sourceChannels, gainDb: part.levels[0]! },
        channels: { labels: part.labels, levelDb: part.levels[1]!, delay: part.delays[0]! },
        equalizations: {
          max: part.sets,
          ...(part.graphic === undefined ? {} : { graphic: { layout: part.layout, gainDb: part.graphic } }),
          ...(part.parametric === undefined ? {} : { parametric: part.parametric }),
        },
        presets: {
          slotMin: part.slotMin,
          slotMax: part.slotMin + 5,
          max: part.presets,
          levelDb: part.levels[2]!,
          delay: part.delays[1]!,
          routingGainDb: part.levels[3]!,
          routingMax: part.routingMax,
        },
        outputs: {
          mixGainDb: part.levels[4]!,
          mixMax: part.mixMax,
          gainDb: part.levels[5]!,
          delay: part.delays[2]!,
          highPass: part.highPass,
          lowPass: part.lowPass,
          ...(part.filters === undefined ? {} : { filters: part.filters }),
          ...(part.limiter === undefined ? {} : { limiter: part.limiter }),
          firTapsMax: part.taps,
          invert: part.invert,
        },
        fader: {
          marks: [
            { mark: 0, levelDb: -90 },
            { mark: part.faderTop, levelDb: 10 },
          ],
          step: 0.5,
        },
        automation: {
          max: part.automation,
          triggers: part.triggers,
          actions: part.actions,
          textMax: part.textMax,
        },
        operation: part.operation,
      }),
    );
}

const label = fc.constantFrom(
  "Feature 5.1",
  "Trailers 7.1DS",
  "Alternative content",
  "Émission 2",
  "Left side surround",
  "A very long name of something",
  "x",
);
const frequency = decimal(30, 12000, 0.5);

const band = (id: string): fc.Arbitrary<EqBand> =>
  fc.oneof(
    fc
      .record({ frequencyHz: frequency, gainDb: decimal(-9, 6, 0.1), q: decimal(0.3, 9, 0.05) })
      .map((part) => ({ id, kind: "peaking" as const, ...part })),
    fc
      .record({
        kind: fc.constantFrom("low-shelf" as const, "high-shelf" as const),
        frequencyHz: frequency,
        gainDb: decimal(-6, 6, 0.1),
        enabled: fc.boolean(),
      })
      .map((part) => ({ id, slope: 1, ...part })),
    frequency.map((frequencyHz) => ({ id, kind: "notch" as const, frequencyHz, q: 4 })),
    frequency.map((frequencyHz) => ({ id, kind: "all-pass" as const, frequencyHz, order: 1 })),
  );
const bands = fc
  .integer({ min: 0, max: 5 })
  .chain((count) => fc.tuple(...Array.from({ length: count }, (_, index) => band(`b${index + 1}`))));

const crossover: fc.Arbitrary<Crossover> = fc
  .record({
    family: fc.constantFrom("butterworth" as const, "bessel" as const, "linkwitz-riley" as const),
    order: fc.constantFrom(2, 4),
    frequencyHz: frequency,
  })
  .map((part) => (part.family === "bessel" ? { ...part, normalization: "phase" as const } : part));

const PLACEMENTS = [
  "screen-left",
  "screen-center",
  "screen-right",
  "subwoofer",
  "surround-left-side",
  "surround-right-side",
  "surround-left-rear",
  "surround-right-rear",
] as const;

/** A configuration for a unit of `profiles("old", true)`: its connectors exist there, its numbers are any. */
export const configurations: fc.Arbitrary<Configuration> = fc
  .record({
    channelCount: fc.integer({ min: 1, max: LABELS.length }),
    speakers: fc.array(
      fc.record({ placement: fc.constantFrom(...PLACEMENTS), ways: fc.integer({ min: 1, max: 3 }) }),
      {
        minLength: 1,
        maxLength: 4,
      },
    ),
    extra: fc.subarray([
      "hearing-impaired" as const,
      "narration" as const,
      "booth-monitor" as const,
      "spare" as const,
    ]),
    outputs: fc.array(
      fc.record({
        label,
        highPass: fc.option(crossover, { nil: undefined }),
        lowPass: fc.option(crossover, { nil: undefined }),
        filters: bands,
        fir: fc.option(fc.constant({ taps: [0.25, 0.5, 0.25] }), { nil: undefined }),
        limiter: fc.option(
          fc.record({
            enabled: fc.boolean(),
            thresholdDbfs: decimal(-20, 0, 0.1),
            attackMs: decimal(0.1, 20, 0.1),
            releaseMs: decimal(10, 1000, 5),
          }),
          { nil: undefined },
        ),
        gainDb: decimal(-50, 6, 0.1),
        delayMs: decimal(0, 60, 0.01),
        inverted: fc.boolean(),
        mute: fc.boolean(),
        channels: fc.uniqueArray(fc.integer({ min: 0, max: LABELS.length - 1 }), {
          minLength: 0,
          maxLength: 3,
        }),
        mixDb: decimal(-30, 3, 0.1),
      }),
      { minLength: 16, maxLength: 16 },
    ),
    levels: fc.array(decimal(-10, 6, 0.1), { minLength: 12, maxLength: 12 }),
    delays: fc.array(decimal(0, 80, 0.01), { minLength: 12, maxLength: 12 }),
    sets: fc.array(
      fc.record({
        label,
        graphic: fc.option(
          fc.record({
            gainsDb: fc.array(decimal(-6, 6, 0.5), { minLength: 10, maxLength: 10 }),
            enabled: fc.boolean(),
          }),
          { nil: undefined },
        ),
        parametric: fc.option(bands, { nil: undefined }),
        channels: fc.integer({ min: 0, max: 3 }),
      }),
      { minLength: 1, maxLength: 3 },
    ),
    kinds: fc.subarray(["aes3" as const, "analog-stereo" as const, "spdif" as const, "microphone" as const], {
      minLength: 1,
    }),
    presets: fc.array(
      fc.record({
        label,
        slot: fc.integer({ min: 1, max: 90 }),
        source: fc.nat(3),
        set: fc.nat(2),
        levelDb: decimal(-25, 10, 0.1),
        delayMs: decimal(0, 100, 0.01),
        faderMark: fc.option(decimal(0, 100, 0.5), { nil: undefined }),
        routes: fc.array(fc.record({ from: fc.nat(7), to: fc.nat(9), gainDb: decimal(-50, 6, 0.1) }), {
          maxLength: 8,
        }),
      }),
      { minLength: 1, maxLength: 5 },
    ),
    automation: fc.array(
      fc.record({
        label,
        trigger: fc.constantFrom("contact" as const, "serial" as const, "network" as const),
        action: fc.constantFrom("recall" as const, "mute" as const, "fader" as const, "source" as const),
        target: fc.nat(4),
        text: fc.constantFrom("A", "PRESET 1", "RECALL FEATURE ONE"),
      }),
      { maxLength: 5 },
    ),
    has: fc.record({
      alarm: fc.boolean(),
      paging: fc.boolean(),
      nonSync: fc.boolean(),
      start: fc.boolean(),
      calibration: fc.boolean(),
      notes: fc.boolean(),
    }),
  })
  .map((part): Configuration => {
    const channels = LABELS.slice(0, part.channelCount);
    const channelId = (index: number) => channels[index % channels.length]!;
    const sources = part.kinds.map((kind) => {
      const shape = {
        aes3: ["aes", 8],
        "analog-stereo": ["ana", 2],
        spdif: ["spd", 2],
        microphone: ["mic", 1],
      } as const;
      const [connector, count] = shape[kind];
      return {
        id: `s-${kind}`,
        label: kind,
        kind,
        assignment: "as-labelled" as const,
        latencyMs: 0,
        channels: Array.from({ length: count }, (_, index) => ({
          id: `${kind}-${index + 1}`,
          position: index + 1,
          connectorId: `${connector}-${index + 1}`,
          carries: "mono" as const,
          gainDb: part.levels[index]!,
        })),
      };
    });
    const loudspeakers = part.speakers.map(({ placement, ways }, index) => ({
      id: `ls-${index + 1}`,
      label: `Loudspeaker ${index + 1}`,
      placement,
      drive: (["passive", "active-2", "active-3"] as const)[ways - 1]!,
      boxes: 1,
      ways: (["lf", "mf", "hf"] as const)
        .slice(0, ways)
        .map((bandName) => ({ id: bandName, band: bandName })),
    }));
    const feeds: Output["feeds"][] = [
      ...loudspeakers.flatMap(({ id, ways }) =>
        ways.map((way) => ({ kind: "loudspeaker" as const, loudspeakerId: id, wayId: way.id })),
      ),
      ...part.extra.map((kind) => ({ kind })),
    ].slice(0, 14);
    const outputs: Output[] = feeds.map((feed, index) => {
      const {
        highPass,
        lowPass,
        fir,
        limiter,
        inverted,
        channels: mixed,
        mixDb,
        ...rest
      } = part.outputs[index]!;
      return {
        id: `o-${index + 1}`,
        connectorId: OLD_OUTPUTS[index]!,
        feeds: feed,
        mix: [...new Set(mixed.map(channelId))].map((id) => ({ channelId: id, gainDb: mixDb })),
        polarity: inverted ? ("inverted" as const) : ("normal" as const),
        ...rest,
        ...(highPass === undefined ? {} : { highPass }),
        ...(lowPass === undefined ? {} : { lowPass }),
        ...(fir === undefined ? {} : { fir }),
        ...(limiter === undefined ? {} : { limiter }),
      };
    });
    const equalizations = part.sets.map((set, index) => ({
      id: `eq-${index + 1}`,
      label: `${set.label} ${index + 1}`,
      channels: channels.slice(0, set.channels).map((id) => ({
        channelId: id,
        ...(set.graphic === undefined ? {} : { graphic: { layout: "octave-10" as const, ...set.graphic } }),
        ...(set.parametric === undefined ? {} : { parametric: set.parametric }),
      })),
    }));
    const slots = new Set<number>();
    const presets = part.presets.map((preset, index) => {
      let slot = preset.slot;
      while (slots.has(slot)) slot += 1;
      slots.add(slot);
      const source = sources[preset.source % sources.length]!;
      return {
        id: `p-${index + 1}`,
        slot,
        label: preset.label,
        sourceId: source.id,
        format: "5.1" as const,
        equalizationId: equalizations[preset.set % equalizations.length]!.id,
        levelDb: preset.levelDb,
        delayMs: preset.delayMs,
        ...(preset.faderMark === undefined ? {} : { faderMark: preset.faderMark }),
        routing: distinctRoutes(preset.routes, source.channels.length, channels.length).map((route, at) => ({
          id: `r-${at + 1}`,
          sourceChannelId: source.channels[route.from % source.channels.length]!.id,
          channelId: channelId(route.to),
          gainDb: route.gainDb,
        })),
      };
    });
    const outputOf = (kind: Output["feeds"]["kind"]) =>
      outputs.find(({ feeds: feed }) => feed.kind === kind)?.id;
    const uses = { sourceId: presets[0]!.sourceId, presetId: presets[0]!.id };
    const [monitor, hearing, narration] = [
      outputOf("booth-monitor"),
      outputOf("hearing-impaired"),
      outputOf("narration"),
    ];
    return {
      kind: "boothkeep.configuration",
      schemaVersion: "1.0.0",
      screen: {
        siteId: "site",
        siteName: "Invented site",
        screenId: "screen-1",
        screenName: "Screen 1",
        format: "5.1",
        seats: 100,
        temperatureC: 20,
        videoLatencyMs: 0,
      },
      unit: {
        profileId: "old",
        profileRevision: "1.0.0",
        serial: "1",
        firmware: "1.0.0",
        sampleRateHz: 48000,
        label: "Unit",
      },
      sources,
      channels: channels.map((id, index) => ({
        id,
        label: id,
        levelDb: part.levels[index]!,
        delayMs: part.delays[index]!,
        mute: false,
      })),
      equalizations,
      presets,
      loudspeakers,
      outputs,
      operation: {
        faderMark: 50,
        ...(part.has.start ? { startPresetId: presets[0]!.id } : {}),
        ...(part.has.alarm
          ? {
              emergencyMute: {
                enabled: true,
                connectorId: "contact-1",
                activeWhen: "open" as const,
                release: "automatic" as const,
              },
            }
          : {}),
        ...(part.has.nonSync ? { nonSync: uses } : {}),
        ...(part.has.paging ? { paging: { ...uses, programDuckDb: 12 } } : {}),
        ...(monitor === undefined ? {} : { boothMonitor: { outputId: monitor, levelDb: 0 } }),
        ...(hearing === undefined
          ? {}
          : { hearingImpaired: { outputId: hearing, levelDb: 0, whenAbsent: "silence" as const } }),
        ...(narration === undefined ? {} : { narration: { outputId: narration, levelDb: 0 } }),
      },
      automation: part.automation.map((item, index) => ({
        id: `a-${index + 1}`,
        label: `${item.label} ${index + 1}`,
        trigger:
          item.trigger === "contact"
            ? {
                kind: "contact" as const,
                connectorId: `contact-${2 + (index % 3)}`,
                edge: "closing" as const,
              }
            : item.trigger === "serial"
              ? { kind: "serial" as const, connectorId: "serial-1", text: item.text }
              : { kind: "network" as const, interfaceId: "lan", text: item.text },
        action:
          item.action === "recall"
            ? { kind: "recall-preset" as const, presetId: presets[item.target % presets.length]!.id }
            : item.action === "fader"
              ? { kind: "set-fader" as const, faderMark: 42.5 }
              : item.action === "source"
                ? { kind: "select-source" as const, sourceId: sources[item.target % sources.length]!.id }
                : { kind: "mute" as const },
      })),
      network: {
        hostname: "unit",
        interfaces: [
          { id: "lan", label: "Control", purpose: "control", mode: "automatic" },
          {
            id: "audio",
            label: "Audio",
            purpose: "audio",
            mode: "fixed",
            address: "10.0.0.9",
            prefixLength: 24,
          },
        ],
      },
      ...(part.has.calibration
        ? {
            calibration: {
              date: "2026-05-04",
              by: "Service",
              equalizationId: equalizations[0]!.id,
              microphonePositions: [{ id: "m1", xM: 0, yM: 8, zM: 1.2 }],
              channels: channels.map((id) => ({ channelId: id, levelDbC: 85 })),
            },
          }
        : {}),
      ...(part.has.notes ? { notes: "Invented." } : {}),
    };
  });

/** A crossing is there once. */
function distinctRoutes<T extends { readonly from: number; readonly to: number }>(
  routes: readonly T[],
  sourceChannels: number,
  programChannels: number,
): readonly T[] {
  const crossings = new Map(
    routes.map((route) => [(route.from % sourceChannels) * 100 + (route.to % programChannels), route]),
  );
  return [...crossings.values()];
}

/** The output connectors of the old unit, whose outputs are all in one group or in two. */
const OLD_OUTPUTS = Array.from({ length: 14 }, (_, index) => `out-${index + 1}`);

/** A unit on which every configuration of {@link configurations} runs. */
export const oldProfiles: fc.Arbitrary<UnitProfile> = profiles("old", true).map((profile) => ({
  ...profile,
  sampleRatesHz: [48000],
  connectors: [
    ...profile.connectors.filter(
      ({ direction, kind }) => direction !== "output" && kind !== "contact" && kind !== "serial",
    ),
    ...connectorGroup("Out", 5, 14, { direction: "output", kind: "analog", style: "db25" }),
    ...connectorGroup("Contact", 7, 5, { direction: "control", kind: "contact", style: "terminal-block" }),
    ...connectorGroup("Serial", 8, 1, { direction: "control", kind: "serial", style: "de9" }),
  ],
}));
