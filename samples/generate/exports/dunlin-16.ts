import type { Configuration, Crossover, EqBand } from "../../../src/model/index.ts";

/** Writes the invented commands of the Dunlin 16, by hand and without any field map. */
export function dunlin16Export(c: Configuration): string {
  const { unit: u, screen: s, operation: o, calibration: m } = c;
  // ISO 9613-1: 343.2 m/s at 20 degrees Celsius, with the root of the absolute temperature.
  const speed = 343.2 * Math.sqrt((273.15 + s.temperatureC) / 293.15);
  const metres = (ms: number) => ((ms * speed) / 1000).toFixed(4);
  const lines: string[] = [
    "! Invented data. Never load into a real unit.",
    `unit ${u.profileId} ${u.profileRevision} ${u.serial} ${u.firmware} ${u.sampleRateHz} "${u.label}"`,
    `room ${s.siteId} "${s.siteName}" ${s.screenId} "${s.screenName}"`,
    `room is ${s.format} seats ${s.seats} air ${s.temperatureC}C picture ${s.videoLatencyMs}ms`,
    `room measures ${s.geometry!.lengthM} by ${s.geometry!.widthM} by ${s.geometry!.heightM}`,
    `remark "${c.notes}"`,
    "lamp 3",
    "",
  ];
  for (const x of c.sources) {
    lines.push(`source ${x.id} ${x.kind} ${x.assignment} ${x.latencyMs}ms "${x.label}"`);
    for (const i of x.channels) {
      lines.push(
        `input ${x.id} ${i.id} at ${i.position} jack ${i.connectorId} carries ${i.carries ?? "-"} trim ${db(i.gainDb)}`,
      );
    }
  }
  for (const x of c.channels) {
    lines.push(
      `channel ${x.id} ${x.label} level ${db(x.levelDb)} behind ${metres(x.delayMs)}m sound ${sound(x.mute)}`,
    );
  }
  for (const eq of c.equalizations) {
    lines.push(`eq ${eq.id} "${eq.label}"`);
    for (const { channelId, graphic, parametric } of eq.channels) {
      if (graphic !== undefined) {
        const state = graphic.enabled === false ? "out" : "in";
        lines.push(
          `eq ${eq.id} ${channelId} graphic ${graphic.layout} ${state} ${graphic.gainsDb.join(" ")}`,
        );
      }
      for (const x of parametric ?? []) lines.push(`eq ${eq.id} ${channelId} band ${filter(x)}`);
    }
  }
  for (const x of c.presets) {
    lines.push(`show ${x.slot} ${x.id} ${x.format} "${x.label}"`);
    const sound_ = `level ${db(x.levelDb)} behind ${x.delayMs}ms fader ${x.faderMark ?? "-"}`;
    lines.push(`show ${x.slot} plays ${x.sourceId} with ${x.equalizationId} ${sound_}`);
    if (x.reason !== undefined) lines.push(`show ${x.slot} because "${x.reason}"`);
    for (const r of x.routing) {
      lines.push(`show ${x.slot} route ${r.id} ${r.sourceChannelId} ${r.channelId} ${db(r.gainDb)}`);
    }
  }
  for (const x of c.loudspeakers) {
    lines.push(`speaker ${x.id} ${x.placement} ${x.drive} ${x.boxes} ${x.distanceM ?? "-"}m "${x.label}"`);
    for (const w of x.ways) {
      const safe = `${w.safeHighPassHz ?? "-"} ${w.safeHighPassOrder ?? "-"}`;
      const data = `${w.ratedPowerW ?? "-"} ${w.impedanceOhm ?? "-"} ${w.sensitivityDb ?? "-"}`;
      lines.push(`speaker ${x.id} way ${w.id} ${w.band} ${safe} ${data}`);
    }
  }
  for (const x of c.outputs) {
    const feeds = x.feeds.kind === "loudspeaker" ? `${x.feeds.loudspeakerId} ${x.feeds.wayId}` : "- -";
    const phase = x.polarity === "normal" ? "plus" : "minus";
    lines.push(
      `out ${x.id} jack ${Number(x.connectorId.replace("out-", "")) - 1} "${x.label}"`,
      `out ${x.id} feeds ${x.feeds.kind} ${feeds}`,
      `out ${x.id} gain ${db(x.gainDb)} behind ${metres(x.delayMs)}m ${phase} sound ${sound(x.mute)}`,
      `out ${x.id} above ${corner(x.highPass)}`,
      `out ${x.id} below ${corner(x.lowPass)}`,
    );
    const l = x.limiter;
    const limits = l && `${l.enabled ? "on" : "off"} ${db(l.thresholdDbfs)} ${l.attackMs} ${l.releaseMs}`;
    lines.push(`out ${x.id} limit ${limits ?? "- - - -"}`);
    for (const part of x.mix) lines.push(`out ${x.id} mix ${part.channelId} ${db(part.gainDb)}`);
    for (const band of x.filters) lines.push(`out ${x.id} band ${filter(band)}`);
  }
  const { emergencyMute: a, nonSync, paging, boothMonitor, hearingImpaired, narration } = o;
  lines.push(
    `booth fader ${o.faderMark} start ${o.startPresetId ?? "-"}`,
    `booth alarm ${a!.enabled ? "on" : "off"} ${a!.connectorId} ${a!.activeWhen} ${a!.release}`,
    `booth interval ${nonSync!.sourceId} ${nonSync!.presetId}`,
    `booth paging ${paging!.sourceId} ${paging!.presetId} ${db(paging!.programDuckDb)}`,
    `booth monitor ${boothMonitor!.outputId} ${db(boothMonitor!.levelDb)}`,
    `booth hearing ${hearingImpaired!.outputId} ${db(hearingImpaired!.levelDb)} ${hearingImpaired!.whenAbsent}`,
    `booth narration ${narration!.outputId} ${db(narration!.levelDb)}`,
  );
  for (const { id, label, trigger: t, action, waitMs } of c.automation) {
    const jack = "connectorId" in t ? t.connectorId : "-";
    const edge = "edge" in t ? t.edge : "-";
    const port = "interfaceId" in t ? t.interfaceId : "-";
    const what = { presetId: "-", faderMark: "-", sourceId: "-", ...action };
    lines.push(
      `cue ${id} on ${t.kind} ${jack} ${edge} ${port} "${"text" in t ? t.text : ""}"`,
      `cue ${id} do ${what.kind} ${what.presetId} ${what.faderMark} ${what.sourceId} after ${waitMs ?? "-"} "${label}"`,
    );
  }
  lines.push(`host ${c.network.hostname}`);
  for (const x of c.network.interfaces) {
    const address = `${x.address ?? "-"} ${x.prefixLength ?? "-"} ${x.gateway ?? "-"}`;
    lines.push(`port ${x.id} ${x.purpose} ${x.mode} ${address} "${x.label}"`);
  }
  lines.push(`measured ${m!.date} ${m!.equalizationId} "${m!.by}"`);
  for (const { id, xM, yM, zM } of m!.microphonePositions) lines.push(`measured at ${id} ${xM} ${yM} ${zM}`);
  for (const { channelId, levelDbC, inBandGainDb, thirdOctavesDb } of m!.channels) {
    lines.push(
      `measured channel ${channelId} ${levelDbC} ${inBandGainDb ?? "-"} ${(thirdOctavesDb ?? []).join(" ")}`,
    );
  }
  return `${lines.join("\n")}\n`;
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
  const state = enabled === false ? "out" : "in";
  return `${id} ${kind} ${frequencyHz / 1000} ${gainDb === undefined ? "-" : db(gainDb)} ${q ?? "-"} ${slope ?? "-"} ${order ?? "-"} ${state}`;
}

function corner(x: Crossover | undefined): string {
  return `${x?.family ?? "-"} ${x?.order ?? "-"} ${x === undefined ? "-" : x.frequencyHz / 1000} ${x?.normalization ?? "-"}`;
}

/** Two decimals at least, as the invented unit prints them. */
const db = (value: number): string =>
  `${value.toFixed(Math.max(2, (String(value).split(".")[1] ?? "").length))}dB`;
const sound = (mute: boolean): string => (mute ? "off" : "on");
