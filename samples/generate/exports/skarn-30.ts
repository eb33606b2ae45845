import type { Configuration, Crossover, EqBand } from "../../../src/model/index.ts";

type Attributes = Readonly<Record<string, string | number | undefined>>;

/** Writes the invented XML of the Skarn 30, by hand and without any field map. */
export function skarn30Export(c: Configuration): string {
  const lines: string[] = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    "<!-- Invented data. Never load into a real unit. -->",
  ];
  const { screen, unit, operation: o, calibration } = c;
  const { geometry } = screen;
  lines.push(
    open("skarn", {
      ...{
        model: unit.profileId,
        edition: unit.profileRevision,
        serial: unit.serial,
        firmware: unit.firmware,
      },
      ...{ rate: unit.sampleRateHz, label: unit.label, written: "2026-11-02T21:14:08Z" },
    }),
    ` <remark>${text(c.notes ?? "")}</remark>`,
    ` ${open("room", {
      ...{
        siteId: screen.siteId,
        siteName: screen.siteName,
        screenId: screen.screenId,
        screenName: screen.screenName,
      },
      ...{ format: screen.format, seats: screen.seats, temperatureC: screen.temperatureC },
      ...{ pictureLatency: us(screen.videoLatencyMs), ...geometry },
    })}<remark>${text(screen.notes ?? "")}</remark></room>`,
    ' <panel lamps="40" language="en"/>',
    " <sources>",
  );
  for (const source of c.sources) {
    const { id, label, kind, assignment, latencyMs } = source;
    lines.push(`  ${open("source", { id, label, kind, assignment, latency: us(latencyMs) })}`);
    for (const input of source.channels) {
      const attributes = {
        id: input.id,
        number: input.position - 1,
        jack: input.connectorId,
        carries: input.carries,
      };
      lines.push(`   ${single("input", { ...attributes, trim: tenths(input.gainDb) })}`);
    }
    lines.push("  </source>");
  }
  lines.push(" </sources>", " <channels>");
  for (const { id, label, levelDb, delayMs, mute } of c.channels) {
    const attributes = { id, label, level: tenths(levelDb), delay: us(delayMs), audible: mute ? 0 : 1 };
    lines.push(`  ${single("channel", attributes)}`);
  }
  lines.push(" </channels>", " <equalizers>");
  for (const { id, label, channels } of c.equalizations) {
    lines.push(`  ${open("eq", { id, label })}`);
    for (const { channelId, graphic, parametric } of channels) {
      lines.push(`   ${open("strip", { channel: channelId })}`);
      if (graphic !== undefined) {
        const bypass = graphic.enabled === false ? "yes" : "no";
        const gains = graphic.gainsDb.map((gain) => tenths(gain)).join(" ");
        lines.push(`    ${open("graphic", { bands: graphic.layout, bypass })}${gains}</graphic>`);
      }
      for (const band of parametric ?? []) lines.push(`    ${filter(band)}`);
      lines.push("   </strip>");
    }
    lines.push("  </eq>");
  }
  lines.push(" </equalizers>", " <presets>");
  for (const p of c.presets) {
    const { id, slot, label, format } = p;
    const sound = { level: tenths(p.levelDb), delay: us(p.delayMs), fader: p.faderMark };
    lines.push(
      `  ${open("preset", { id, slot, label, source: p.sourceId, format, eq: p.equalizationId, ...sound })}`,
    );
    lines.push(`   <reason>${text(p.reason ?? "")}</reason>`);
    for (const r of p.routing) {
      const attributes = { id: r.id, from: r.sourceChannelId, to: r.channelId, gain: tenths(r.gainDb) };
      lines.push(`   ${single("route", attributes)}`);
    }
    lines.push("  </preset>");
  }
  lines.push(" </presets>", " <speakers>");
  for (const { ways, distanceM, ...speaker } of c.loudspeakers) {
    const distance = distanceM === undefined ? undefined : Math.round(distanceM * 1000);
    lines.push(`  ${open("speaker", { ...speaker, distance })}`);
    for (const way of ways) {
      const { id, band, safeHighPassHz, safeHighPassOrder, ratedPowerW, impedanceOhm, sensitivityDb } = way;
      const data = { safeHighPassHz, safeHighPassOrder, ratedPowerW, impedanceOhm, sensitivityDb };
      lines.push(`   ${single("way", { id, band, ...data })}`);
    }
    lines.push("  </speaker>");
  }
  lines.push(" </speakers>", " <outputs>");
  for (const out of c.outputs) {
    const feeds = out.feeds.kind === "loudspeaker" ? out.feeds : undefined;
    const number = Number(out.connectorId.replace("out-", ""));
    const place = { id: out.id, label: out.label, number, feeds: out.feeds.kind };
    const ways = {
      speaker: feeds?.loudspeakerId,
      way: feeds?.wayId,
      gain: tenths(out.gainDb),
      delay: us(out.delayMs),
    };
    const phase = out.polarity === "inverted" ? 180 : 0;
    lines.push(`  ${open("output", { ...place, ...ways, phase, audible: out.mute ? 0 : 1 })}`);
    for (const part of out.mix) {
      lines.push(`   ${single("part", { channel: part.channelId, gain: tenths(part.gainDb) })}`);
    }
    lines.push(`   ${corner("low-end", out.highPass)}`, `   ${corner("high-end", out.lowPass)}`);
    for (const band of out.filters) lines.push(`   ${filter(band)}`);
    const l = out.limiter;
    const limits = {
      threshold: tenths(l?.thresholdDbfs),
      attack: us(l?.attackMs),
      release: us(l?.releaseMs),
    };
    lines.push(
      `   ${single("limiter", { on: l === undefined ? undefined : l.enabled ? 1 : 0, ...limits })}`,
      "  </output>",
    );
  }
  const { emergencyMute: alarm, nonSync, paging, boothMonitor, hearingImpaired, narration } = o;
  lines.push(
    " </outputs>",
    ` ${open("operation", { fader: o.faderMark, start: o.startPresetId })}`,
    `  ${single("alarm", { on: alarm!.enabled ? 1 : 0, jack: alarm!.connectorId, activeWhen: alarm!.activeWhen, release: alarm!.release })}`,
    `  ${single("interval", { source: nonSync!.sourceId, preset: nonSync!.presetId })}`,
    `  ${single("paging", { source: paging!.sourceId, preset: paging!.presetId, duck: tenths(paging!.programDuckDb) })}`,
    `  ${single("monitor", { output: boothMonitor!.outputId, level: tenths(boothMonitor!.levelDb) })}`,
    `  ${single("hearing", { output: hearingImpaired!.outputId, level: tenths(hearingImpaired!.levelDb), whenAbsent: hearingImpaired!.whenAbsent })}`,
    `  ${single("narration", { output: narration!.outputId, level: tenths(narration!.levelDb) })}`,
    " </operation>",
    " <cues>",
  );
  for (const { id, label, trigger, action, waitMs } of c.automation) {
    const { kind: on, ...when } = {
      connectorId: undefined,
      edge: undefined,
      text: undefined,
      interfaceId: undefined,
      ...trigger,
    };
    const { kind: act, ...what } = {
      presetId: undefined,
      faderMark: undefined,
      sourceId: undefined,
      ...action,
    };
    const trigger_ = { on, jack: when.connectorId, edge: when.edge, text: when.text, port: when.interfaceId };
    const action_ = { do: act, preset: what.presetId, fader: what.faderMark, source: what.sourceId };
    lines.push(`  ${single("cue", { id, label, ...trigger_, ...action_, wait: us(waitMs) })}`);
  }
  lines.push(" </cues>", ` ${open("network", { hostname: c.network.hostname })}`);
  for (const { id, label, purpose, mode, address, prefixLength, gateway } of c.network.interfaces) {
    lines.push(`  ${single("port", { id, label, purpose, mode, address, prefixLength, gateway })}`);
  }
  lines.push(
    " </network>",
    ` ${open("measurement", { date: calibration!.date, by: calibration!.by, eq: calibration!.equalizationId })}`,
    `  <remark>${text(calibration!.notes ?? "")}</remark>`,
  );
  for (const { id, xM, yM, zM } of calibration!.microphonePositions) {
    lines.push(`  ${single("microphone", { id, xM, yM, zM })}`);
  }
  for (const { channelId, levelDbC, inBandGainDb, thirdOctavesDb } of calibration!.channels) {
    const attributes = { channel: channelId, level: tenths(levelDbC), inBand: tenths(inBandGainDb) };
    lines.push(
      `  ${open("measured", attributes)}${(thirdOctavesDb ?? []).map((level) => tenths(level)).join(" ")}</measured>`,
    );
  }
  lines.push(" </measurement>", "</skarn>", "");
  return lines.join("\n");
}

function filter(band: EqBand): string {
  const { id, kind, frequencyHz, enabled, ...rest } = band;
  const { gainDb, q, slope, order } = {
    gainDb: undefined,
    q: undefined,
    slope: undefined,
    order: undefined,
    ...rest,
  };
  const bypass = enabled === false ? "yes" : "no";
  return single("filter", { id, type: kind, hz: frequencyHz, gain: tenths(gainDb), q, slope, order, bypass });
}

function corner(tag: string, crossover: Crossover | undefined): string {
  const { family, order, frequencyHz: hz, normalization } = crossover ?? {};
  return single(tag, { family, order, hz, normalization });
}

function attributesText(attributes: Attributes): string {
  return Object.entries(attributes)
    .map(([name, value]) => ` ${name}="${text(String(value ?? "none")).replaceAll('"', "&quot;")}"`)
    .join("");
}

const open = (tag: string, attributes: Attributes): string => `<${tag}${attributesText(attributes)}>`;
const single = (tag: string, attributes: Attributes): string => `<${tag}${attributesText(attributes)}/>`;
const text = (value: string): string =>
  value.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");

/** Times ten, without what doubles add; 3.85 has no place here and shows in the samples' test. */
const tenths = (db: number | undefined) => (db === undefined ? undefined : Math.round(db * 10));
const us = (ms: number | undefined) => (ms === undefined ? undefined : Math.round(ms * 1000));
