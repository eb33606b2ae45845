import type { Configuration, Crossover, EqBand } from "../../../src/model/index.ts";

type Keys = Readonly<Record<string, string | number | undefined>>;

/** Writes the invented sections of the Dunlin 16, by hand and without any field map. */
export function dunlin16Sections(c: Configuration): string {
  const lines: string[] = ["; Invented data. Never load into a real unit."];
  const section = (name: string, keys: Keys) => {
    lines.push("", `[${name}]`);
    for (const [key, value] of Object.entries(keys)) {
      if (value !== undefined) lines.push(`${key} = ${typeof value === "number" ? comma(value) : value}`);
    }
  };
  const { unit: u, screen: s, operation: o, calibration: m } = c;
  section("unit", {
    ...{ model: u.profileId, edition: u.profileRevision, serial: u.serial, firmware: u.firmware },
    ...{ rate: u.sampleRateHz, title: u.label, host: c.network.hostname, remark: quoted(c.notes), lamp: 3 },
  });
  const { lengthM, widthM, heightM } = s.geometry!;
  section("room", {
    ...{ site: s.siteId, "site-title": s.siteName, room: s.screenId, "room-title": s.screenName },
    ...{ format: s.format, seats: s.seats, air: s.temperatureC, picture: s.videoLatencyMs },
    ...{ "length-cm": cm(lengthM), "width-cm": cm(widthM), "height-cm": cm(heightM) },
  });
  for (const x of c.sources) {
    section(`source.${x.id}`, {
      title: x.label,
      kind: x.kind,
      positions: x.assignment,
      latency: x.latencyMs,
    });
    for (const y of x.channels) {
      section(`source.${x.id}.input.${y.id}`, {
        ...{ position: y.position - 1, jack: y.connectorId, carries: y.carries, trim: hundredths(y.gainDb) },
      });
    }
  }
  for (const x of c.channels) {
    section(`channel.${x.id}`, {
      ...{ title: x.label, level: hundredths(x.levelDb), delay: seconds(x.delayMs), off: x.mute ? "y" : "n" },
    });
  }
  for (const x of c.equalizations) {
    section(`eq.${x.id}`, { title: x.label });
    for (const y of x.channels) {
      const { graphic, parametric = [] } = y;
      section(`eq.${x.id}.strip.${y.channelId}`, {
        ...{ graphic: graphic?.layout, "graphic-on": on(graphic?.enabled) },
        gains: graphic?.gainsDb.map((gain) => hundredths(gain)).join(" "),
      });
      for (const z of parametric) section(`eq.${x.id}.strip.${y.channelId}.band.${z.id}`, band(z));
    }
  }
  for (const x of c.presets) {
    section(`preset.${x.slot}`, {
      ...{ id: x.id, title: x.label, plays: x.sourceId, format: x.format, eq: x.equalizationId },
      ...{ level: hundredths(x.levelDb), delay: seconds(x.delayMs), fader: faderDb(x.faderMark) },
      reason: quoted(x.reason),
    });
    for (const y of x.routing) {
      section(`preset.${x.slot}.route.${y.id}`, {
        ...{ from: y.sourceChannelId, to: y.channelId, gain: hundredths(y.gainDb) },
      });
    }
  }
  for (const x of c.loudspeakers) {
    const at = { distance: x.distanceM === undefined ? undefined : cm(x.distanceM) };
    section(`speaker.${x.id}`, { title: x.label, at: x.placement, drive: x.drive, boxes: x.boxes, ...at });
    for (const y of x.ways) {
      section(`speaker.${x.id}.way.${y.id}`, {
        ...{ band: y.band, "safe-hz": y.safeHighPassHz, "safe-order": y.safeHighPassOrder },
        ...{ power: y.ratedPowerW, impedance: y.impedanceOhm, sensitivity: y.sensitivityDb },
      });
    }
  }
  for (const x of c.outputs) {
    const feeds = x.feeds.kind === "loudspeaker" ? x.feeds : undefined;
    section(`out.${x.id}`, {
      ...{ title: x.label, jack: Number(x.connectorId.replace("out-", "")), feeds: x.feeds.kind },
      ...{ speaker: feeds?.loudspeakerId, way: feeds?.wayId, gain: hundredths(x.gainDb) },
      ...{ delay: seconds(x.delayMs), phase: x.polarity === "normal" ? "+" : "-", off: x.mute ? "y" : "n" },
      ...{ ...corner("above", x.highPass), ...corner("below", x.lowPass) },
      ...{ limit: on(x.limiter?.enabled), "limit-at": x.limiter && hundredths(x.limiter.thresholdDbfs) },
      ...{ "limit-attack": x.limiter?.attackMs, "limit-release": x.limiter?.releaseMs },
    });
    for (const y of x.mix) section(`out.${x.id}.mix.${y.channelId}`, { gain: hundredths(y.gainDb) });
    for (const y of x.filters) section(`out.${x.id}.band.${y.id}`, band(y));
  }
  const { emergencyMute: a, nonSync, paging, boothMonitor, hearingImpaired, narration } = o;
  section("booth", { fader: faderDb(o.faderMark), start: o.startPresetId });
  section("booth.alarm", {
    on: on(a!.enabled),
    jack: a!.connectorId,
    when: a!.activeWhen,
    release: a!.release,
  });
  section("booth.interval", { source: nonSync!.sourceId, preset: nonSync!.presetId });
  section("booth.paging", {
    ...{ source: paging!.sourceId, preset: paging!.presetId, duck: hundredths(paging!.programDuckDb) },
  });
  section("booth.monitor", { out: boothMonitor!.outputId, level: hundredths(boothMonitor!.levelDb) });
  const { outputId, levelDb, whenAbsent } = hearingImpaired!;
  section("booth.hearing", { out: outputId, level: hundredths(levelDb), else: whenAbsent });
  section("booth.narration", { out: narration!.outputId, level: hundredths(narration!.levelDb) });
  for (const { id, label, trigger, action, waitMs } of c.automation) {
    const { kind: when, ...trigger_ } = trigger;
    const { kind: what, ...action_ } = action;
    section(`cue.${id}`, {
      title: label,
      when,
      what,
      wait: waitMs,
      ...(trigger_ as Keys),
      ...(action_ as Keys),
    });
  }
  for (const x of c.network.interfaces) {
    section(`port.${x.id}`, {
      ...{ title: x.label, purpose: x.purpose, mode: x.mode, address: x.address },
      ...{ bits: x.prefixLength, gateway: x.gateway },
    });
  }
  section("measured", { date: m!.date, by: m!.by, eq: m!.equalizationId });
  for (const x of m!.microphonePositions) {
    section(`measured.place.${x.id}`, { x: cm(x.xM), y: cm(x.yM), z: cm(x.zM) });
  }
  for (const x of m!.channels) {
    section(`measured.channel.${x.channelId}`, {
      ...{ level: x.levelDbC, "in-band": x.inBandGainDb, thirds: x.thirdOctavesDb?.map(comma).join(" ") },
    });
  }
  return `\ufeff${lines.join("\r\n")}\r\n`;
}

function band({ id: _id, kind, frequencyHz, enabled, ...rest }: EqBand): Keys {
  const { gainDb, q, slope, order } = {
    gainDb: undefined,
    q: undefined,
    slope: undefined,
    order: undefined,
    ...rest,
  };
  const gain = gainDb === undefined ? undefined : hundredths(gainDb);
  return { kind, hz: frequencyHz, gain, width: octaves(q), slope, order, on: on(enabled) };
}

function corner(name: string, crossover: Crossover | undefined): Keys {
  return {
    ...{
      [name]: crossover?.family,
      [`${name}-order`]: crossover?.order,
      [`${name}-hz`]: crossover?.frequencyHz,
    },
    [`${name}-norm`]: crossover?.normalization,
  };
}

/** Width between the points 3 dB down: solves f2 / f1 = x with Q = sqrt(x) / (x - 1). Another form than the map's. */
function octaves(q: number | undefined): string | undefined {
  if (q === undefined) return undefined;
  const ratio = 1 + 1 / (2 * q * q) + Math.sqrt((1 + 1 / (2 * q * q)) ** 2 - 1);
  return Math.log2(ratio).toFixed(5).replace(".", ",");
}

/** Level of a mark by the unit's scale: 0 is -80 dB, 15 is -30 dB, 45 is 0 dB, 60 is +10 dB. */
function faderDb(mark: number | undefined): string | undefined {
  if (mark === undefined) return undefined;
  const db = mark < 15 ? -80 + (mark * 50) / 15 : mark < 45 ? mark - 45 : ((mark - 45) * 10) / 15;
  return db.toFixed(2).replace(".", ",");
}

const comma = (value: number): string => String(value).replace(".", ",");
const hundredths = (db: number): number => Math.round(db * 100);
const cm = (metres: number): number => Math.round(metres * 100);
const seconds = (ms: number): number => Number((ms / 1000).toFixed(8));
const on = (value: boolean | undefined): string | undefined =>
  value === undefined ? undefined : value ? "y" : "n";
const quoted = (text: string | undefined): string | undefined =>
  text === undefined ? undefined : `"${text}"`;
