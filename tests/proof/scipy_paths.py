"""Deviations of all paths between two configurations, computed with SciPy and NumPy, independently of boothkeep.

Reads {"pairs": [{"before", "after", "beforeUnit", "afterUnit", "frequenciesHz"}]} from standard input (units: latencyMs,
graphicQ) and writes, for each pair, a list of {"path": [preset, source channel, channel, feed], ...deviations}. Filters: Butterworth
and Bessel by scipy.signal.butter and bessel (bilinear, pre-warped), Linkwitz-Riley as Butterworth twice, the rest by the
formulas of the Audio EQ Cookbook (W3C Working Group Note, 8 June 2021) in z.
"""
import json
import sys

import numpy as np
from scipy import signal

GRID = np.array([])  # Hz; another one for each pair
LAYOUTS = {"third-octave-27": (-14, 12, 1), "third-octave-31": (-17, 13, 1),
           "two-thirds-octave-15": (-16, 12, 2), "octave-10": (-15, 12, 3)}


def sections_of(band, fs):
    """Coefficients (b, a) of one parametric filter."""
    if not band.get("enabled", True):
        return []
    w0 = 2 * np.pi * band["frequencyHz"] / fs
    cos, sin = np.cos(w0), np.sin(w0)
    a_lin = 10 ** (band.get("gainDb", 0) / 40)
    kind = band["kind"]
    if kind == "all-pass" and band["order"] == 1:
        k = np.tan(w0 / 2)
        return [([(k - 1) / (k + 1), 1, 0], [1, (k - 1) / (k + 1), 0])]
    if "slope" in band:
        alpha = sin / 2 * np.sqrt((a_lin + 1 / a_lin) * (1 / band["slope"] - 1) + 2)
    else:
        alpha = sin / (2 * band["q"])
    root = 2 * np.sqrt(a_lin) * alpha
    if kind == "peaking":
        b, a = [1 + alpha * a_lin, -2 * cos, 1 - alpha * a_lin], [1 + alpha / a_lin, -2 * cos, 1 - alpha / a_lin]
    elif kind == "low-shelf":
        p, m = a_lin + 1, a_lin - 1
        b = [a_lin * (p - m * cos + root), 2 * a_lin * (m - p * cos), a_lin * (p - m * cos - root)]
        a = [p + m * cos + root, -2 * (m + p * cos), p + m * cos - root]
    elif kind == "high-shelf":
        p, m = a_lin + 1, a_lin - 1
        b = [a_lin * (p + m * cos + root), -2 * a_lin * (m + p * cos), a_lin * (p + m * cos - root)]
        a = [p - m * cos + root, 2 * (m - p * cos), p - m * cos - root]
    else:
        a = [1 + alpha, -2 * cos, 1 - alpha]
        b = {"low-pass": [(1 - cos) / 2, 1 - cos, (1 - cos) / 2],
             "high-pass": [(1 + cos) / 2, -(1 + cos), (1 + cos) / 2],
             "band-pass": [alpha, 0, -alpha],
             "notch": [1, -2 * cos, 1],
             "all-pass": [1 - alpha, -2 * cos, 1 + alpha]}[kind]
    return [(b, a)]


def response(sections, fs):
    h = np.ones(len(GRID), complex)
    for b, a in sections:
        h = h * signal.freqz(b, a, worN=GRID, fs=fs)[1]
    return h


def graphic(eq, unit_q, fs):
    if not eq.get("enabled", True):
        return []
    first, last, step = LAYOUTS[eq["layout"]]
    octaves = step / 3
    q = unit_q or 1 / (2 * np.sinh(np.log(2) / 2 * octaves))
    bands = range(first, last + 1, step)
    return [s for k, g in zip(bands, eq["gainsDb"])
            for s in sections_of({"kind": "peaking", "frequencyHz": 1000 * 10 ** (k / 10), "gainDb": g, "q": q}, fs)]


def half(crossover, side, fs):
    if crossover is None:
        return np.ones(len(GRID), complex)
    order, hz = crossover["order"], crossover["frequencyHz"]
    if crossover["family"] == "bessel":
        norm = {"phase": "phase", "magnitude": "mag"}[crossover["normalization"]]
        sos = signal.bessel(order, hz, side, fs=fs, norm=norm, output="sos")
        times = 1
    else:
        times = 2 if crossover["family"] == "linkwitz-riley" else 1
        sos = signal.butter(order // times, hz, side, fs=fs, output="sos")
    return signal.sosfreqz(sos, worN=GRID, fs=fs)[1] ** times


def fir(taps, fs):
    return signal.freqz(taps, 1, worN=GRID, fs=fs)[1]


def paths_of(c, unit):
    """Every path of a configuration by name: response of the filters, of the crossover, level, delay, sign."""
    fs = c["unit"]["sampleRateHz"]
    labels = {ch["id"]: ch for ch in c["channels"]}
    equalizers, outputs = {}, {}
    for eq_set in c["equalizations"]:
        for ch in eq_set["channels"]:
            sections = [s for band in ch.get("parametric", []) for s in sections_of(band, fs)]
            if "graphic" in ch:
                sections += graphic(ch["graphic"], unit.get("graphicQ"), fs)
            equalizers[eq_set["id"], ch["channelId"]] = response(sections, fs)
    for o in c["outputs"]:
        crossover = half(o.get("highPass"), "highpass", fs) * half(o.get("lowPass"), "lowpass", fs)
        filters = crossover * response([s for band in o["filters"] for s in sections_of(band, fs)], fs)
        if "fir" in o and o["fir"].get("enabled", True):
            filters = filters * fir(o["fir"]["taps"], fs)
        outputs[o["id"]] = (crossover, filters)
    feed_levels = {f["outputId"]: f["levelDb"] for name in ("boothMonitor", "hearingImpaired", "narration")
                   if (f := c["operation"].get(name))}
    positions = {ch["id"]: (s["id"], ch) for s in c["sources"] for ch in s["channels"]}
    paths = {}
    for p in c["presets"]:
        for r in p["routing"]:
            source, source_channel = positions[r["sourceChannelId"]]
            channel = labels[r["channelId"]]
            for o in c["outputs"]:
                mix = next((m for m in o["mix"] if m["channelId"] == r["channelId"]), None)
                if mix is None or o["feeds"]["kind"] == "spare":
                    continue
                feeds = o["feeds"]
                feed = f"{feeds['loudspeakerId']}/{feeds['wayId']}" if feeds["kind"] == "loudspeaker" else feeds["kind"]
                crossover, filters = outputs[o["id"]]
                eq = equalizers.get((p["equalizationId"], r["channelId"]), 1)
                paths[p["id"], f"{source}:{source_channel['position']}", channel["label"], feed] = {
                    "eq": eq * np.ones(len(GRID)), "out": filters, "crossover": crossover,
                    "level": source_channel["gainDb"] + r["gainDb"] + p["levelDb"] + channel["levelDb"]
                    + mix["gainDb"] + o["gainDb"] + feed_levels.get(o["id"], 0),
                    "delay": unit.get("latencyMs", 0) + p["delayMs"] + channel["delayMs"] + o["delayMs"],
                    "sign": -1 if o["polarity"] == "inverted" else 1,
                }
    return paths


def db(h):
    return np.maximum(20 * np.log10(np.maximum(np.abs(h), 1e-30)), -60)


def deviation(old, new):
    share = [np.abs(p["crossover"]) / np.abs(p["crossover"]).max() for p in (old, new)]
    weight = np.maximum(*share)
    d = new["level"] - old["level"] + db(new["eq"]) - db(old["eq"]) + db(new["out"]) - db(old["out"])
    phase = np.angle(new["eq"] * new["out"] * np.conj(old["eq"] * old["out"]), deg=True)
    width = np.gradient(np.log2(GRID))
    width[0], width[-1] = width[0] / 2, width[-1] / 2
    band = (GRID > 39.8106) & (GRID < 15849)  # exact mid-band frequencies of 40 Hz and 16 kHz
    power = (width * weight ** 2)[band]
    at = np.argmax(np.abs(weight * d)[band])
    return {"responseDb": (weight * d)[band][at], "responseRmsDb": np.sqrt((power * d[band] ** 2).sum() / power.sum()),
            "levelDb": (power * d[band]).sum() / power.sum(), "phaseDeg": np.abs(weight * phase)[band & (GRID <= 8000)].max(),
            "delayMs": new["delay"] - old["delay"], "polarity": "same" if old["sign"] == new["sign"] else "opposite"}


results = []
for pair in json.load(sys.stdin)["pairs"]:
    GRID = np.array(pair["frequenciesHz"])
    before, after = paths_of(pair["before"], pair["beforeUnit"]), paths_of(pair["after"], pair["afterUnit"])
    results.append([{"path": key, **deviation(old, after[key])} for key, old in before.items() if key in after])
json.dump(results, sys.stdout)
