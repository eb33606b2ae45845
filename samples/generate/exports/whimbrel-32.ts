import type { Configuration, Crossover, EqBand } from "../../../src/model/index.ts";

type Cell = string | number | undefined;

/** Writes the invented tables of the Whimbrel 32, by hand and without any field map. */
export function whimbrel32Export(c: Configuration): string {
  const rows: string[] = [];
  const table = (name: string, columns: string, items: readonly (readonly Cell[])[]) => {
    rows.push([`#${name}`, ...columns.split(" ")].join(";"));
    for (const item of items) rows.push([name, ...item].map(cell).join(";"));
  };
  const { unit: u, screen: s, operation: o, calibration: m } = c;
  const samples = (ms: number) => Math.round((ms * u.sampleRateHz) / 1000);
  table("UNIT", "profileId profileRevision serial firmware sampleRateHz label hostname remark", [
    [
      u.profileId,
      u.profileRevision,
      u.serial,
      u.firmware,
      u.sampleRateHz,
      u.label,
      c.network.hostname,
      c.notes,
    ],
  ]);
  table(
    "ROOM",
    "siteId siteName screenId screenName format seats temperatureC videoLatencyMs lengthM widthM heightM remark",
    [
      [
        s.siteId,
        s.siteName,
        s.screenId,
        s.screenName,
        s.format,
        s.seats,
        s.temperatureC,
        s.videoLatencyMs,
      ].concat([s.geometry!.lengthM, s.geometry!.widthM, s.geometry!.heightM, s.notes ?? ""]),
    ],
  );
  table("LAMP", "brightness greeting", [[60, "Grüß Gott; please wait"]]);
  table(
    "SRC",
    "id label kind assignment latencyMs",
    c.sources.map((x) => [x.id, x.label, x.kind, x.assignment, x.latencyMs]),
  );
  table(
    "IN",
    "of id position jack carries trim",
    c.sources.flatMap((source) =>
      source.channels.map((x) => [source.id, x.id, x.position, x.connectorId, x.carries, x.gainDb]),
    ),
  );
  table(
    "CH",
    "id label level samples mute",
    c.channels.map((x) => [x.id, x.label, x.levelDb, samples(x.delayMs), yes(x.mute)]),
  );
  table(
    "SET",
    "id label",
    c.equalizations.map((x) => [x.id, x.label]),
  );
  table(
    "STRIP",
    "of strip",
    c.equalizations.flatMap((set) => set.channels.map((x) => [set.id, x.channelId])),
  );
  table(
    "BELL",
    "set strip id kind hz gain octaves slope order state",
    c.equalizations.flatMap((set) =>
      set.channels.flatMap((strip) =>
        (strip.parametric ?? []).map((x) => [set.id, strip.channelId, ...filter(x)]),
      ),
    ),
  );
  table(
    "PRE",
    "id slot label source format set level samples fader reason",
    c.presets.map((x) => [
      x.id,
      x.slot,
      x.label,
      x.sourceId,
      x.format,
      x.equalizationId,
      x.levelDb,
      samples(x.delayMs),
      x.faderMark,
      x.reason,
    ]),
  );
  table(
    "X",
    "of from to id share",
    c.presets.flatMap((preset) =>
      preset.routing.map((x) => [preset.id, x.sourceChannelId, x.channelId, x.id, percent(x.gainDb)]),
    ),
  );
  table(
    "SPK",
    "id label placement drive boxes metres",
    c.loudspeakers.map((x) => [x.id, x.label, x.placement, x.drive, x.boxes, x.distanceM]),
  );
  table(
    "WAY",
    "of id band safeHighPassHz safeHighPassOrder ratedPowerW impedanceOhm sensitivityDb",
    c.loudspeakers.flatMap((speaker) =>
      speaker.ways.map((x) => [
        speaker.id,
        x.id,
        x.band,
        x.safeHighPassHz,
        x.safeHighPassOrder,
        x.ratedPowerW,
        x.impedanceOhm,
        x.sensitivityDb,
      ]),
    ),
  );
  table(
    "OUT",
    "id label jack feeds speaker way gain samples polarity mute hp-family hp-order hp-hz hp-norm lp-family lp-order lp-hz lp-norm lim-on lim-dbfs lim-attack lim-release",
    c.outputs.map((x) => {
      const feeds = x.feeds.kind === "loudspeaker" ? x.feeds : undefined;
      const l = x.limiter;
      return [
        x.id,
        x.label,
        x.connectorId,
        x.feeds.kind,
        feeds?.loudspeakerId,
        feeds?.wayId,
        x.gainDb,
        samples(x.delayMs),
      ].concat(
        [x.polarity === "normal" ? "POS" : "NEG", yes(x.mute), ...corner(x.highPass), ...corner(x.lowPass)],
        l === undefined ? ["", "", "", ""] : [yes(l.enabled), l.thresholdDbfs, l.attackMs, l.releaseMs],
      );
    }),
  );
  table(
    "MIX",
    "of channel share",
    c.outputs.flatMap((out) => out.mix.map((x) => [out.id, x.channelId, percent(x.gainDb)])),
  );
  table(
    "DRV",
    "of id kind hz gain octaves slope order state",
    c.outputs.flatMap((out) => out.filters.map((x) => [out.id, ...filter(x)])),
  );
  const { emergencyMute: a, nonSync, paging, boothMonitor, hearingImpaired, narration } = o;
  table(
    "BOOTH",
    "fader start interval-source interval-preset paging-source paging-preset paging-duck monitor-output monitor-level hearing-output hearing-level hearing-else narration-output narration-level",
    [
      [
        o.faderMark,
        o.startPresetId,
        nonSync!.sourceId,
        nonSync!.presetId,
        paging!.sourceId,
        paging!.presetId,
      ].concat(
        [paging!.programDuckDb, boothMonitor!.outputId, boothMonitor!.levelDb, hearingImpaired!.outputId],
        [hearingImpaired!.levelDb, hearingImpaired!.whenAbsent, narration!.outputId, narration!.levelDb],
      ),
    ],
  );
  table("ALARM", "on jack activeWhen release", [
    [yes(a!.enabled), a!.connectorId, a!.activeWhen, a!.release],
  ]);
  table(
    "CUE",
    "id label on jack edge text port do preset fader source wait",
    c.automation.map(({ id, label, trigger: t, action, waitMs }) => {
      const jack = "connectorId" in t ? t.connectorId : "";
      const what = { presetId: "", faderMark: "", sourceId: "", ...action };
      return [
        id,
        label,
        t.kind,
        jack,
        "edge" in t ? t.edge : "",
        "text" in t ? t.text : "",
        "interfaceId" in t ? t.interfaceId : "",
      ].concat([what.kind, what.presetId, String(what.faderMark), what.sourceId, String(waitMs ?? "")]);
    }),
  );
  table(
    "PORT",
    "id label purpose mode address prefixLength gateway",
    c.network.interfaces.map((x) => [x.id, x.label, x.purpose, x.mode, x.address, x.prefixLength, x.gateway]),
  );
  table("MEAS", "date by set remark", [[m!.date, m!.by, m!.equalizationId, m!.notes]]);
  table(
    "MIC",
    "id xM yM zM",
    m!.microphonePositions.map((x) => [x.id, x.xM, x.yM, x.zM]),
  );
  table(
    "TONE",
    "channel dbc in-band thirds",
    m!.channels.map((x) => [
      x.channelId,
      x.levelDbC,
      x.inBandGainDb,
      (x.thirdOctavesDb ?? []).map(comma).join(" "),
    ]),
  );
  return `${rows.join("\r\n")}\r\n`;
}

function filter(band: EqBand): readonly Cell[] {
  const { id, kind, frequencyHz, enabled, ...rest } = band;
  const { gainDb, q, slope, order } = {
    gainDb: undefined,
    q: undefined,
    slope: undefined,
    order: undefined,
    ...rest,
  };
  return [id, kind, frequencyHz, gainDb, octaves(q), slope, order, enabled === false ? "BYP" : ""];
}

function corner(crossover: Crossover | undefined): Cell[] {
  return [crossover?.family, crossover?.order, crossover?.frequencyHz, crossover?.normalization];
}

/** Bandwidth of a Q by solving Q = 2^(N/2) / (2^N - 1) for 2^(N/2): another form than the one that the maps use. */
function octaves(q: number | undefined): Cell {
  if (q === undefined) return undefined;
  const root = (1 + Math.sqrt(1 + 4 * q * q)) / (2 * q);
  return (2 * Math.log2(root)).toFixed(6).replace(".", ",");
}

const percent = (db: number): string => (100 * 10 ** (db / 20)).toFixed(4).replace(".", ",");
const comma = (value: number): string => String(value).replace(".", ",");
const yes = (value: boolean): string => (value ? "JA" : "NO");

function cell(value: Cell): string {
  const text = typeof value === "number" ? comma(value) : (value ?? "");
  return /[";\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
