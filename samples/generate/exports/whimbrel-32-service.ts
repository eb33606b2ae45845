import type { Configuration, Crossover, EqBand } from "../../../src/model/index.ts";

/** Writes the invented service file of the Whimbrel 32, by hand and without any field map. */
export function whimbrel32ServiceFile(c: Configuration): string {
  const { unit: u, screen: s, operation: o, calibration: m } = c;
  const file = {
    whimbrel: {
      ...{ type: u.profileId, issue: u.profileRevision, no: u.serial, software: u.firmware },
      ...{ clock: u.sampleRateHz / 1000, name: u.label, host: c.network.hostname, remark: c.notes },
      ...{ uptime: 8_211_406, lamp: { brightness: 60, color: "amber" } },
    },
    hall: {
      ...{ site: s.siteId, siteName: s.siteName, hall: s.screenId, hallName: s.screenName },
      ...{
        format: s.format,
        seats: s.seats,
        airF: s.temperatureC * 1.8 + 32,
        pictureFrames: frames(s.videoLatencyMs),
      },
      ...{ size: [s.geometry!.lengthM, s.geometry!.widthM, s.geometry!.heightM], remark: s.notes },
    },
    sources: byName(c.sources, (x) => ({
      ...{ called: x.label, kind: x.kind, rule: x.assignment, lateMs: x.latencyMs },
      plugs: byName(x.channels, (y) => ({
        no: y.position,
        plug: y.connectorId,
        for: y.carries,
        trim: y.gainDb,
      })),
    })),
    program: c.channels.map((x) => ({
      ...{ ch: x.id, name: x.label, dB: x.levelDb, frames: frames(x.delayMs), live: !x.mute },
    })),
    curves: c.equalizations.map((x) => ({
      ...{ id: x.id, name: x.label },
      strips: byKey(
        x.channels,
        (y) => y.channelId,
        (y) => ({ bells: y.parametric?.map(bell) }),
      ),
    })),
    presets: byKey(
      c.presets,
      (x) => String(x.slot),
      (x) => ({
        ...{ id: x.id, name: x.label, from: x.sourceId, as: x.format, curve: x.equalizationId },
        ...{ dB: x.levelDb, frames: frames(x.delayMs), fader: x.faderMark, why: x.reason },
        cross: x.routing.map((y) => ({
          id: y.id,
          in: y.sourceChannelId,
          to: y.channelId,
          times: ratio(y.gainDb),
        })),
      }),
    ),
    speakers: c.loudspeakers.map((x) => ({
      ...{
        id: x.id,
        name: x.label,
        where: x.placement,
        drive: x.drive,
        boxes: x.boxes,
        feet: feet(x.distanceM),
      },
      ways: x.ways.map((y) => ({
        ...{ id: y.id, band: y.band, safeHz: y.safeHighPassHz, safeOrder: y.safeHighPassOrder },
        ...{ watts: y.ratedPowerW, ohms: y.impedanceOhm, sensitivity: y.sensitivityDb },
      })),
    })),
    outputs: c.outputs.map((x) => ({
      ...{ id: x.id, name: x.label, plug: Number(x.connectorId.replace("out-", "")) - 1 },
      feeds: {
        kind: x.feeds.kind,
        ...(x.feeds.kind === "loudspeaker" ? { speaker: x.feeds.loudspeakerId, way: x.feeds.wayId } : {}),
      },
      mix: x.mix.map((y) => ({ ch: y.channelId, times: ratio(y.gainDb) })),
      ...{ above: corner(x.highPass), below: corner(x.lowPass), bells: x.filters.map(bell) },
      ...{ dB: x.gainDb, frames: frames(x.delayMs), turned: x.polarity === "inverted" },
      limit: x.limiter && {
        ...{
          on: x.limiter.enabled,
          at: x.limiter.thresholdDbfs,
          attack: x.limiter.attackMs,
          release: x.limiter.releaseMs,
        },
      },
      live: !x.mute,
    })),
    booth: {
      ...{ fader: o.faderMark, start: o.startPresetId, alarm: o.emergencyMute },
      ...{ interval: o.nonSync, paging: o.paging, monitor: o.boothMonitor },
      ...{ hearing: o.hearingImpaired, narration: o.narration },
    },
    cues: c.automation.map(({ id, label, trigger, action, waitMs }) => ({
      id,
      label,
      when: trigger,
      do: action,
      waitMs,
    })),
    ports: byName(c.network.interfaces, (x) => ({
      ...{
        label: x.label,
        purpose: x.purpose,
        mode: x.mode,
        address: x.address,
        bits: x.prefixLength,
        gateway: x.gateway,
      },
    })),
    measured: {
      ...{ date: m!.date, by: m!.by, curve: m!.equalizationId, remark: m!.notes },
      places: m!.microphonePositions.map((x) => ({ id: x.id, xyz: [x.xM, x.yM, x.zM] })),
      tones: byKey(
        m!.channels,
        (x) => x.channelId,
        (x) => ({
          ...{ dBC: x.levelDbC, inBand: x.inBandGainDb, thirds: x.thirdOctavesDb },
        }),
      ),
    },
  };
  return `${JSON.stringify(file, null, 1).replaceAll("\n", "\r\n")}\r\n`;
}

function byKey<T>(items: readonly T[], key: (item: T) => string, value: (item: T) => object) {
  return Object.fromEntries(items.map((item) => [key(item), value(item)]));
}

function byName<T extends { readonly id: string }>(items: readonly T[], value: (item: T) => object) {
  return byKey(items, ({ id }) => id, value);
}

function bell(band: EqBand): object {
  const { id, kind, frequencyHz, enabled, ...rest } = band;
  return { id, kind, hz: frequencyHz, ...rest, ...(enabled === undefined ? {} : { in: enabled }) };
}

function corner(crossover: Crossover | undefined): object | undefined {
  if (crossover === undefined) return undefined;
  const { family, order, frequencyHz: hz, normalization: norm } = crossover;
  return { family, order, hz, norm };
}

/** Film frames at 24 a second; fifteen digits, so that nothing of the value is lost. */
const frames = (ms: number): number => Number((ms * 0.024).toPrecision(15));
const ratio = (db: number): number => Number((10 ** (db / 20)).toPrecision(6));
const feet = (metres: number | undefined): number | undefined =>
  metres === undefined ? undefined : Number((metres / 0.3048).toFixed(3));
