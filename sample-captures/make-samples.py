#!/usr/bin/env python3
"""Makes the sample captures of this folder, independently of Trebleproof's own circuit code.

usage: python3 make-samples.py            (needs ngspice, python3-numpy, python3-scipy, python3-soundfile)

For every job the script writes ngspice netlists beside the captures, lets ngspice's AC analysis work out the
response of each channel, applies that response to an exponential sweep in NumPy, and adds what a real bench
adds: mains hum with harmonics, converter noise, a gain and delay mismatch between the channels, and
quantisation. The parts' true values differ from their markings, as real parts do. truth.json and
PROVENANCE.md hold the truth; it comes from the part values and from ngspice's AC analysis alone.

Sources
- Sweep: A. Farina, 108th AES Convention, 2000, preprint 5093, section 4 (x = sin(2 pi f1 T (exp(t/T) - 1))).
- Solid core: flux in a conducting cylinder, F = 2 J1(ka) / (ka J0(ka)), expanded at the zeros j of J0:
  F = sum 4 / (j^2 - (ka)^2), with (ka)^2 = -i w tau and tau = radius^2 * permeability * conductivity (J. Lammeraner,
  M. Stafl, Eddy Currents, 1966; formula from memory, checked against SciPy's Bessel functions below). So an
  inductance s*L in a core is a chain of (4 s L / j^2) each in parallel with 4 s L / tau: a Foster ladder.
- Metal cover: a shorted turn coupled to the coil (transformer theory).
- Part values: usual figures of the trade (common practice, no source).
"""
import json
import os
import subprocess
import sys

import numpy as np
import soundfile
from scipy import fft
from scipy.interpolate import CubicSpline
from scipy.special import jn_zeros, jv

HERE = os.path.dirname(os.path.abspath(__file__))
CORE_POLES = 40


# --- netlists -----------------------------------------------------------------------------------------------

def coil(top, bottom, p):
    """Netlist lines of a coil: wire, air inductance, core ladder and cover from top to bottom, winding capacitance to ground.

    The bottom is ground, or the far end of the induced voltage, which the winding capacitance spans as well."""
    share = p["coreShare"]
    air = (1 - share) * p["inductance"]
    lines = [f"Rwire {top} w0 {p['resistance']:.9g}"]
    zeros = jn_zeros(0, CORE_POLES)
    branch = 4 * share * p["inductance"]
    air += share * p["inductance"] - np.sum(branch / zeros**2)      # what the cut-off ladder leaves is lossless here
    node = "w1"
    lines.append(f"Lair w0 {node} {air:.12g}")
    if "coverCoupling" in p:
        lines += [f"Lcover c 0 {p['coverTime']:.9g}", "Rcover c 0 1", f"Kcover Lair Lcover {p['coverCoupling']:.9g}"]
    for n, z in enumerate(zeros):
        after = bottom if n == CORE_POLES - 1 else f"w{n + 2}"
        lines += [f"Lc{n} {node} {after} {branch / z**2:.12g}", f"Rc{n} {node} {after} {branch / p['coreTime']:.12g}"]
        node = after
    lines.append(f"Cwinding {top} 0 {p['windingCapacitance']:.9g}")
    return lines


def load(s):
    """Everything across the jack, controls full up."""
    lines = []
    if "volume" in s:
        lines.append(f"Rvolume jack 0 {s['volume']:.9g}")
    if "tone" in s:
        lines += [f"Rtone jack t {s['tone']:.9g}", f"Ctone t 0 {s['toneCapacitor']:.9g}"]
    for key in ("cable", "clip"):
        if key in s:
            lines.append(f"C{key} jack 0 {s[key]:.9g}")
    if "inputResistance" in s:
        lines += [f"Rinput jack 0 {s['inputResistance']:.9g}", f"Cinput jack 0 {s['inputCapacitance']:.9g}"]
    return lines


def series_netlist(p, s, resistor):
    return ["Vdrive drive 0 AC 1", f"Rseries drive jack {resistor:.9g}"] + coil("jack", "0", p) + load(s)


def exciter_netlist(p, s, field):
    """1 A through the exciter; its field passes the pickup's metal, hence the shelf (second inductor, damped)."""
    return (["Iexciter 0 x0 AC 1", f"Lfield x0 x1 {1 - field['share']:.9g}", f"Lshelf x1 0 {field['share']:.9g}",
             f"Rshelf x1 0 {field['share'] / field['time']:.9g}", "Eemf emf 0 x0 0 1"] + coil("jack", "emf", p) + load(s))


def induced_netlist(p, s):
    return ["Vemf emf 0 AC 1"] + coil("jack", "emf", p) + load(s)


def analyse(lines, folder, name, low=0.5, high=30000.0, per_decade=400):
    """Writes the netlist, runs ngspice, returns frequencies and the complex voltage at the jack."""
    path = os.path.join(folder, name + ".cir")
    with open(path, "w") as file:
        file.write("\n".join([f"* {os.path.basename(folder)}: {name}"] + lines + [f".ac dec {per_decade} {low:g} {high:g}", ".end", ""]))
    table = os.path.join(folder, name + ".txt")
    run = os.path.join(folder, name + ".run")
    with open(run, "w") as file:
        file.write(f"* run\n.control\nset numdgt=15\nset wr_vecnames\nsource {path}\nrun\nwrdata {table} v(jack)\n.endc\n.end\n")
    done = subprocess.run(["ngspice", "-b", run], capture_output=True, text=True)
    os.remove(run)
    if not os.path.exists(table):
        sys.exit(f"ngspice made no result for {path}: {done.stderr[-400:]}")
    rows = np.loadtxt(table, skiprows=1)
    os.remove(table)
    return rows[:, 0], rows[:, -2] + 1j * rows[:, -1]


# --- the bench ----------------------------------------------------------------------------------------------

def sweep(rig):
    rate = rig["sampleRate"]
    n = int(rate * rig["seconds"])
    t = np.arange(n) / rate
    length = rig["seconds"] / np.log(20000.0 / 20.0)
    x = rig["level"] * np.sin(2 * np.pi * 20.0 * length * (np.exp(t / length) - 1))
    fade = int(0.015 * rate)
    x[:fade] *= np.sin(np.linspace(0, np.pi / 2, fade)) ** 2
    x[-fade:] *= np.cos(np.linspace(0, np.pi / 2, fade)) ** 2
    quiet = np.zeros(int(0.5 * rate))
    return np.concatenate([quiet, x, quiet, x, quiet])


def at_bins(hz, values, bins):
    """ngspice's response on the FFT's frequencies: cubic in the logarithm of frequency, error below 1e-7."""
    safe = np.clip(bins, hz[0], hz[-1])
    spline = CubicSpline(np.log(hz), np.stack([values.real, values.imag], axis=1))
    out = spline(np.log(safe))
    return out[:, 0] + 1j * out[:, 1]


def record(path, rig, rng, hz, device, device_gain):
    """One stereo capture: channel 1 the reference, channel 2 the device."""
    rate = rig["sampleRate"]
    x = sweep(rig)
    n = len(x)
    size = fft.next_fast_len(n + rate // 2, real=True)
    bins = fft.rfftfreq(size, 1 / rate)
    # Both inputs: a coupling capacitor (4 Hz), the converter's roll-off, and the converter's latency.
    common = (1j * bins / 4) / (1 + 1j * bins / 4) / np.sqrt(1 + (bins / (0.6 * rate)) ** 8) * np.exp(-2j * np.pi * bins * rig["latency"])
    spectrum = fft.rfft(x, size) * common
    reference = fft.irfft(spectrum, size)[:n]
    skew = np.exp(-2j * np.pi * bins * rig["channelDelay"])
    measured = fft.irfft(spectrum * at_bins(hz, device, bins) * device_gain * rig["channelRatio"] * skew, size)[:n]
    t = np.arange(n) / rate
    for k in range(1, 20):
        level = rig["hum"] * (1.0 if k == 1 else 0.25 * rng.uniform(0.4, 1.0) / k ** 0.7)
        measured = measured + level * np.sin(2 * np.pi * k * rig["mains"] * t + rng.uniform(0, 2 * np.pi))
    both = np.stack([reference, measured], axis=1) + rng.normal(0, rig["noise"], (n, 2))
    step = 2.0 ** (1 - rig["bits"])
    both = np.clip(np.round(both / step) * step, -1, 1 - step)
    soundfile.write(path, both, rate, format="FLAC", subtype={16: "PCM_16", 24: "PCM_24"}[rig["bits"]])
    peak = 20 * np.log10(np.max(np.abs(both), axis=0))
    print(f"{os.path.relpath(path, HERE):42s} {os.path.getsize(path) / 1e6:5.2f} MB  peaks {peak[0]:6.1f} {peak[1]:6.1f} dBFS")


# --- truth --------------------------------------------------------------------------------------------------

def conductance(s, hz):
    g = (1 / s["volume"] if "volume" in s else 0) + (1 / s["inputResistance"] if "inputResistance" in s else 0)
    if "tone" in s:
        g += (1 / (s["tone"] + 1 / (2j * np.pi * hz * s["toneCapacitor"]))).real
    return g


def resonance(folder, p, s):
    """Peak of terminal over induced voltage, relative to 20 Hz, from ngspice on a fine grid."""
    hz, v = analyse(induced_netlist(p, s), folder, "truth", 20.0, 25000.0, 2000)
    os.remove(os.path.join(folder, "truth.cir"))
    level = 20 * np.log10(np.abs(v))
    level -= level[0]
    k = int(np.argmax(level))
    a, b, c = level[k - 1:k + 2]
    shift = 0.5 * (a - c) / (a - 2 * b + c)
    return hz[k] * (hz[k + 1] / hz[k]) ** shift, b - 0.25 * (a - c) * shift, hz, v


def truth_of(folder, p, setups):
    rows = {"pickup.inductance": p["inductance"], "pickup.resistance": p["resistance"], "pickup.capacitance": p["windingCapacitance"]}
    curves = {}
    for name, s in setups.items():
        loaded = {k: v for k, v in s.items() if "cable" in s or not k.startswith("input")}     # bare: unloaded rows
        f0, peak, hz, v = resonance(folder, p, loaded)
        curves[name] = (f0, hz, v)
        rows[name + ".resonance"], rows[name + ".resonancePeak"] = f0, peak
        if "cable" in s:
            rows[name + ".loadResistance"] = 1 / conductance(s, f0)
            rows[name + ".totalCapacitance"] = p["windingCapacitance"] + s["cable"] + s["inputCapacitance"]
    truth = {"estimates": rows}
    if len(setups) == 2:
        (first, a), (second, b) = setups.items()
        f0, hz, va = curves[first]
        vb = curves[second][2]
        rows["change.loadConductance"] = conductance(b, f0) - conductance(a, f0)
        grid = np.geomspace(100, 10000, 41)
        change = np.interp(np.log(grid), np.log(hz), 20 * np.log10(np.abs(vb / va)))
        truth["difference"] = {"from": first, "to": second, "hz": [round(x, 3) for x in grid], "dB": [round(x, 5) for x in change]}
    return truth


# --- the jobs -----------------------------------------------------------------------------------------------

def make(name, story, job, p, setups, captures, rig, seed, exciter=None, resistor=None, parts_truth=None):
    """captures: (id, file, setup, clip capacitance or None, coupling)."""
    folder = os.path.join(HERE, name)
    os.makedirs(folder, exist_ok=True)
    rng = np.random.default_rng(seed)
    for stem, setup, clip, coupling in captures:
        s = dict(setups[setup], **({"clip": clip} if clip else {}))
        lines = exciter_netlist(p, s, exciter) if exciter else series_netlist(p, s, resistor)
        hz, v = analyse(lines, folder, stem)
        record(os.path.join(folder, stem + ".flac"), rig, rng, hz, v, coupling)
    truth = truth_of(folder, p, setups)
    for key, value in (parts_truth or {}).items():
        truth["estimates"][key] = value
    truth["estimates"] = {k: float(f"{v:.7g}") for k, v in truth["estimates"].items()}
    for file, content in (("job.json", job), ("truth.json", truth)):
        with open(os.path.join(folder, file), "w") as out:
            json.dump(content, out, indent=1)
            out.write("\n")
    provenance(folder, name, story, p, setups, rig, exciter, resistor, truth, seed)


def provenance(folder, name, story, p, setups, rig, exciter, resistor, truth, seed):
    say = lambda d: ", ".join(f"{k} {v:.6g}" for k, v in d.items())
    lines = [f"# {name}", "", story, "",
             "Simulated, not recorded: made by `../make-samples.py` (seed " + str(seed) + ") from the ngspice netlists in this folder. "
             "SI units throughout. No real instrument, maker or person stands behind it.", "",
             f"- Coil: {say(p)}"]
    lines += [f"- Setup `{k}`: {say(s)}" for k, s in setups.items()]
    if resistor:
        lines.append(f"- Series resistor: {resistor:.6g}")
    if exciter:
        lines.append(f"- Exciter's field: {say(exciter)}")
    lines += [f"- Recorder: {say(rig)}", "", "| true value | |", "|---|---|"]
    lines += [f"| {k} | {v:.7g} |" for k, v in truth["estimates"].items()]
    lines += ["", "The same figures, and the true difference curve of a job with two setups, are in `truth.json`.", ""]
    with open(os.path.join(folder, "PROVENANCE.md"), "w") as out:
        out.write("\n".join(lines))


def check_ladder():
    """The Foster ladder against the closed form, so that a wrong zero or factor cannot pass unseen."""
    x2 = -2j * np.pi * np.array([100.0, 1000.0, 10000.0, 20000.0]) * 8e-5
    zeros = jn_zeros(0, CORE_POLES)
    ladder = np.array([np.sum(4 / (zeros**2 - v)) for v in x2]) + 1 - np.sum(4 / zeros**2)
    ka = np.sqrt(x2)
    closed = 2 * jv(1, ka) / (ka * jv(0, ka))
    assert np.max(np.abs(ladder - closed)) < 2e-5, (ladder, closed)


def recorder(**changes):
    rig = dict(sampleRate=48000, bits=24, seconds=4.0, level=0.5, latency=0.0117, channelRatio=1.0, channelDelay=0.0,
               mains=49.98, hum=8e-5, noise=10 ** (-102 / 20))
    rig.update(changes)
    return rig


def unlabelled_coil():
    p = dict(inductance=2.618, resistance=6184.0, windingCapacitance=116e-12, coreShare=0.31, coreTime=5.1e-5)
    setups = {"bare": dict(inputResistance=1.0032e6, inputCapacitance=91.4e-12)}
    job = {"trebleproof": 1, "title": "Coil 7 from the shoe box",
           "fixture": {"kind": "series", "seriesResistance": "100k 0.1%", "referenceChannel": 1, "deviceChannel": 2,
                       "channels": {"ratio": "1.0044 0.05%", "delay": "0 0.02us"},
                       "input": {"resistance": "1M 1%", "capacitance": "92p 3%"}},
           "mainsHz": 50, "parts": {"pickup": {"kind": "pickup"}}, "setups": {"bare": {"pickup": "pickup"}},
           "captures": [{"id": "bare", "file": "coil.flac", "setup": "bare"}]}
    make("unlabelled-coil", "A repair bench in the music workshop above a bakery keeps a shoe box of loose coils. Nobody knows what number 7 is: "
         "it is swept bare through a 100k resistor.", job, p, setups, [("coil", "bare", None, 1.0)],
         recorder(channelRatio=1.00456, channelDelay=7e-9), 701, resistor=100030.0)


def pot_swap():
    p = dict(inductance=2.304, resistance=5718.0, windingCapacitance=131e-12, coreShare=0.26, coreTime=6.3e-5)
    common = dict(tone=231400.0, toneCapacitor=21.1e-9, cable=447e-12, inputResistance=0.9961e6, inputCapacitance=80.9e-12)
    setups = {"before": dict(volume=238600.0, **common), "after": dict(volume=518300.0, **common)}
    field = dict(share=0.045, time=4.2e-6)
    k = 1.9e-5
    job = {"trebleproof": 1, "title": "Red loan guitar: volume pot 250k to 500k",
           "fixture": {"kind": "exciter", "referenceChannel": 1, "deviceChannel": 2, "coilFixed": False,
                       "input": {"resistance": "1M 1%", "capacitance": "80p 3%"}},
           "mainsHz": 50,
           "parts": {"pickup": {"kind": "pickup", "resistance": "5.7k 1%"}, "old volume": {"kind": "pot", "value": "250k"},
                     "new volume": {"kind": "pot", "value": "500k"}, "tone pot": {"kind": "pot", "value": "250k"},
                     "tone cap": {"kind": "capacitor", "value": "22n"}, "lead": {"kind": "cable", "capacitance": "460p 10%"},
                     "clip": {"kind": "capacitor", "value": "1n 1%"}},
           "setups": {n: {"pickup": "pickup", "volume": v, "tone": "tone pot", "toneCapacitor": "tone cap", "cable": "lead"}
                      for n, v in (("before", "old volume"), ("after", "new volume"))},
           "captures": [{"id": "before", "file": "before.flac", "setup": "before"},
                        {"id": "before clipped", "file": "before-1n.flac", "setup": "before", "across": ["clip"]},
                        {"id": "after", "file": "after.flac", "setup": "after"}]}
    make("pot-swap", "The red loan guitar goes home dull. The bench swaps its volume pot and sweeps it with a small coil laid over the pickup: before, "
         "before with a 1 nF capacitor clipped across the jack, and after. The coil was lifted off to open the guitar, so it did not come back to the same place.",
         job, p, setups, [("before", "before", None, k * 1.0009), ("before-1n", "before", 1.0037e-9, k * 0.9996), ("after", "after", None, k * 1.062)],
         recorder(channelDelay=0.3e-6, channelRatio=1.006, hum=2.4e-4, mains=50.013), 702, exciter=field, parts_truth={"old volume.value": 238600.0, "new volume.value": 518300.0})


def swap_at_jack():
    p = dict(inductance=3.46, resistance=9240.0, windingCapacitance=142e-12, coreShare=0.22, coreTime=4.4e-5)
    common = dict(tone=486000.0, toneCapacitor=46.2e-9, cable=352e-12, inputResistance=1.0041e6, inputCapacitance=78.8e-12)
    setups = {"before": dict(volume=266900.0, **common), "after": dict(volume=1.083e6, **common)}
    job = {"trebleproof": 1, "title": "Slide guitar of the Thursday group: volume pot 250k to 1M, read at the jack",
           "fixture": {"kind": "series", "seriesResistance": "100k 0.1%", "referenceChannel": 1, "deviceChannel": 2,
                       "channels": {"ratio": "0.9973 0.05%", "delay": "0 0.02us"},
                       "input": {"resistance": "1M 1%", "capacitance": "80p 3%"}},
           "mainsHz": 50,
           "parts": {"pickup": {"kind": "pickup"}, "old volume": {"kind": "pot", "value": "250k"}, "new volume": {"kind": "pot", "value": "1M"},
                     "tone pot": {"kind": "pot", "value": "500k"}, "tone cap": {"kind": "capacitor", "value": "47n"},
                     "lead": {"kind": "cable", "capacitance": "360p 10%"}},
           "setups": {"before": {"pickup": "pickup", "volume": "old volume", "tone": "tone pot", "toneCapacitor": "tone cap", "cable": "lead", "dcResistance": "8.95k 1%"},
                      "after": {"pickup": "pickup", "volume": "new volume", "tone": "tone pot", "toneCapacitor": "tone cap", "cable": "lead"}},
           "captures": [{"id": "before", "file": "before.flac", "setup": "before"}, {"id": "after", "file": "after.flac", "setup": "after"}]}
    make("swap-at-jack", "The Thursday group's slide guitar gets a brighter volume pot. Nobody lays a coil over it: both sweeps go in at the jack, through a 100k resistor.",
         job, p, setups, [("before", "before", None, 1.0), ("after", "after", None, 1.0)],
         recorder(bits=16, noise=10 ** (-94 / 20), channelRatio=0.99752, channelDelay=-5e-9, hum=1.5e-4), 703, resistor=99968.0, parts_truth={"old volume.value": 266900.0, "new volume.value": 1.083e6})


def treble_complaint():
    p = dict(inductance=4.42, resistance=7930.0, windingCapacitance=124e-12, coreShare=0.2, coreTime=1.1e-4, coverCoupling=0.21, coverTime=4.0e-6)
    common = dict(volume=486000.0, tone=511000.0, toneCapacitor=22.9e-9, inputResistance=1.0018e6, inputCapacitance=81.6e-12)
    setups = {"long lead": dict(cable=934e-12, **common), "short lead": dict(cable=318e-12, **common)}
    job = {"trebleproof": 1, "title": "Blue loan guitar sounds dull at the far end of the hall: 9 m lead against 3 m lead",
           "fixture": {"kind": "series", "seriesResistance": "100k 0.1%", "referenceChannel": 1, "deviceChannel": 2,
                       "channels": {"ratio": "1.0012 0.05%", "delay": "0 0.02us"},
                       "input": {"resistance": "1M 1%", "capacitance": "80p 3%"}},
           "mainsHz": 50,
           "parts": {"pickup": {"kind": "pickup"}, "volume pot": {"kind": "pot", "value": "500k"}, "tone pot": {"kind": "pot", "value": "500k"},
                     "tone cap": {"kind": "capacitor", "value": "22n"}, "9 m lead": {"kind": "cable", "capacitance": "950p 10%"},
                     "3 m lead": {"kind": "cable", "capacitance": "320p 10%"}},
           "setups": {n + " lead": {"pickup": "pickup", "volume": "volume pot", "tone": "tone pot", "toneCapacitor": "tone cap", "cable": c}
                      for n, c in (("long", "9 m lead"), ("short", "3 m lead"))},
           "captures": [{"id": "long lead", "file": "long-lead.flac", "setup": "long lead"}, {"id": "short lead", "file": "short-lead.flac", "setup": "short lead"}]}
    make("treble-complaint", "At home the blue loan guitar is fine, on the hall's stage it is dull. Same guitar, same recorder, two leads: is it the lead?",
         job, p, setups, [("long-lead", "long lead", None, 1.0), ("short-lead", "short lead", None, 1.0)],
         recorder(sampleRate=44100, bits=16, noise=10 ** (-93 / 20), channelRatio=1.00135, channelDelay=4e-9, hum=1.1e-4, mains=50.02), 704, resistor=100012.0)


if __name__ == "__main__":
    check_ladder()
    unlabelled_coil()
    pot_swap()
    swap_at_jack()
    treble_complaint()
