#!/usr/bin/env python3
"""A whole fit of a job in NumPy and SciPy: what a careful user would write instead. For the speed comparison.

usage: python3 whole_fit.py fit JOB.json --json RESULT.json

Reads the job and its captures, estimates the transfer of every capture on a logarithmic grid (24 points per
octave) from the sweeps, and fits a ladder of coil models with scipy.optimize.least_squares: loss resistor,
split inductance, solid core (2 J1(ka) / (ka J0(ka))), each with dielectric loss of the winding. Priors come
from the markings; the best model by AICc is reported with 95 % intervals from the Jacobian, widened by the
reduced chi-square. It does what the main programme's `fit` does for the ordinary case and nothing else: no
checks of the captures, no coil-free result, no page.
"""
import json
import os
import re
import sys

import numpy as np
import soundfile
from scipy import fft
from scipy.optimize import least_squares
from scipy.special import ive

PREFIX = dict(p=1e-12, n=1e-9, u=1e-6, m=1e-3, k=1e3, M=1e6)
USUAL = dict(pot=0.2, capacitor=0.1, cable=0.2, resistor=0.01, pickup=0.01)
SD95 = 1.96


def marking(text, usual=0.01):
    """Value and standard deviation of its logarithm."""
    words = text.split()
    number = re.match(r"^([0-9.]+)([pnumkM]?)([0-9]*)", words[0])
    whole = number.group(1) + ("." + number.group(3) if number.group(3) else "")
    tolerance = float(words[1].rstrip("%")) / 100 if len(words) > 1 else usual
    return float(whole) * PREFIX.get(number.group(2), 1.0), tolerance / SD95


# Models, each with the time constants to start from.
TRIES = [("loss resistor", 3e-6), ("split inductance", 3e-6), ("split inductance", 2e-5), ("solid core", 3e-5), ("solid core", 3e-4)]


# --- from recording to response -----------------------------------------------------------------------------

def sweeps_of(reference, rate):
    """Start and end samples of the sweeps, from the envelope of the reference channel."""
    width = int(0.03 * rate)
    envelope = np.sqrt(np.convolve(reference**2, np.ones(width) / width, "same"))
    edges = np.flatnonzero(np.diff((envelope > 0.1 * envelope.max()).astype(int)))
    pairs = edges[: len(edges) // 2 * 2].reshape(-1, 2)
    return pairs[pairs[:, 1] - pairs[:, 0] > 0.5 * rate]


def response(path, fixture, mains):
    """Frequencies, transfer device over reference, and the standard deviation of each part."""
    sound, rate = soundfile.read(path)
    x, y = sound[:, fixture["referenceChannel"] - 1], sound[:, fixture["deviceChannel"] - 1]
    pairs = sweeps_of(x, rate)
    margin = int(0.12 * rate)
    length = int(np.max(pairs[:, 1] - pairs[:, 0])) + int(0.4 * rate)
    size = fft.next_fast_len(length, real=True)
    bins = fft.rfftfreq(size, 1 / rate)
    window = np.ones(length)
    ramp = np.sin(np.linspace(0, np.pi / 2, margin // 2)) ** 2
    window[: margin // 2], window[-(margin // 2):] = ramp, ramp[::-1]
    spectra = []
    for start, _ in pairs:
        first = max(0, start - margin)
        both = np.zeros((2, length))
        piece = slice(first, min(first + length, len(x)))
        both[:, : piece.stop - first] = (x[piece], y[piece])
        spectra.append(fft.rfft(both * window, size, axis=1))
    top = min(20000.0, 0.45 * rate)
    grid = 20.0 * 2 ** (np.arange(int(24 * np.log2(top / 20.0)) + 1) / 24)
    hz, values, sds = [], [], []
    near = np.abs((bins + mains / 2) % mains - mains / 2) < 0.9
    near &= bins < 2500
    for centre in grid:
        half = max(centre * (2 ** (1 / 48) - 1), 2.5 * rate / size)
        lo, hi = np.searchsorted(bins, (centre - half, centre + half))
        use = np.arange(lo, hi + 1)
        use = use[~near[use]]
        if len(use) < 4:
            continue
        # A local parabola, so that a band's width does not round off a resonance.
        t = (bins[use] - centre) / half
        basis = np.vander(t, 3 if len(use) > 5 else 2, increasing=True)
        rows = np.concatenate([s[0, use][:, None] * basis for s in spectra])
        right = np.concatenate([s[1, use] for s in spectra])
        normal = np.linalg.inv(rows.conj().T @ rows)
        best = normal @ (rows.conj().T @ right)
        freedom = len(right) - basis.shape[1]
        noise = np.sum(np.abs(right - rows @ best) ** 2) / freedom
        hz.append(centre)
        values.append(best[0])
        sds.append(np.sqrt(max(noise * normal[0, 0].real / 2, 1e-24)))
    return np.array(hz), np.array(values), np.array(sds)


# --- the model ----------------------------------------------------------------------------------------------

class Unknowns:
    """Fitted logarithms with their starts and priors."""

    def __init__(self):
        self.names, self.start, self.sd = [], [], []

    def add(self, name, value, sd):
        if name not in self.names:
            self.names.append(name)
            self.start.append(np.log(value))
            self.sd.append(sd)

    def values(self, x):
        return dict(zip(self.names, np.exp(x)))


def winding_impedance(v, w, model):
    flat = 1j * w * v["L"]
    if model == "loss resistor":
        core = 1 / (1 + 1j * w * v["tau"])
    else:
        share = v["share"] / (1 + v["share"])
        if model == "split inductance":
            core = 1 - share + share / (1 + 1j * w * v["tau"])
        else:
            ka = np.sqrt(1j * w * v["tau"])
            core = 1 - share + share * 2 * ive(1, ka) / (ka * ive(0, ka))
    return v["R"] + flat * core


def load_admittance(v, w, setup, across):
    y = 1 / v["rin"] + 1j * w * v["cin"]
    if "volume" in setup:
        y = y + 1 / v[setup["volume"]]
    if "tone" in setup:
        y = y + 1 / (v[setup["tone"]] + 1 / (1j * w * v[setup["toneCapacitor"]]))
    if "cable" in setup:
        y = y + 1j * w * v[setup["cable"]]
    for part in across:
        y = y + 1j * w * v[part]
    return y


def predicted(v, capture, job, model, w):
    setup = job["setups"][capture["setup"]]
    z = winding_impedance(v, w, model)
    inside = 1j * w * v["C"] * (1 - 1j * np.log(v["tan"]))
    y = inside + load_admittance(v, w, setup, capture.get("across", []))
    delay = np.exp(-1j * w * (np.log(v["delay"])))
    if job["fixture"]["kind"] == "series":
        return v["ratio"] * delay / (1 + v["rs"] * (y + 1 / z))
    shelf = 1 - (v["fieldShare"]) * 1j * w * v["fieldTau"] / (1 + 1j * w * v["fieldTau"])
    gain = v["gain " + (capture["setup"] if not job["fixture"].get("coilFixed") else "all")]
    return gain * v["trim " + capture["id"]] * shelf * delay * 1j * w * 1e-4 / (1 + z * y)


def unknowns(job, model, resonance, tau):
    u = Unknowns()
    fixture = job["fixture"]
    pickup = next(p for p in job["parts"].values() if p["kind"] == "pickup")
    known = fixture.get("input", {"resistance": "1M 20%", "capacitance": "80p 50%"})
    rin, cin = marking(known["resistance"]), marking(known["capacitance"])
    u.add("rin", *rin)
    u.add("cin", *cin)
    capacitance = 1.2e-10 + cin[0]
    for name, part in job["parts"].items():
        if part["kind"] != "pickup":
            u.add(name, *marking(part.get("value") or part.get("capacitance"), USUAL[part["kind"]]))
            if part["kind"] == "cable":
                capacitance += marking(part["capacitance"])[0]
    if fixture["kind"] == "series":
        rs = marking(fixture["seriesResistance"])
        u.add("rs", *rs)
        ratio = marking(fixture["channels"]["ratio"]) if "channels" in fixture else (1.0, 0.02 / SD95)
        u.add("ratio", *ratio)
    else:
        for c in job["captures"]:
            u.add("gain " + (c["setup"] if not fixture.get("coilFixed") else "all"), 1.0, np.inf)
            u.add("trim " + c["id"], 1.0, 0.003 / SD95)
        u.add("fieldShare", 0.03, 1.5)
        u.add("fieldTau", 5e-6, 0.7)
    # The delay is fitted as exp(delay / s) so that everything is a logarithm; its prior is in seconds.
    u.add("delay", 1.0, (0.02e-6 if "channels" in fixture else 2e-6) / SD95)
    u.add("L", 1 / ((2 * np.pi * resonance) ** 2 * capacitance), np.inf)
    u.add("R", *(marking(pickup["resistance"]) if "resistance" in pickup else (7000.0, np.inf)))
    u.add("C", 1.2e-10, 0.6)
    u.add("tan", np.exp(0.01), 0.02)      # the tangent itself is fitted, likewise
    u.add("tau", tau, 2.0)
    if model != "loss resistor":
        u.add("share", 0.4, 1.5)
    return u


def fit_model(job, data, model, start_resonance, tau):
    u = unknowns(job, model, start_resonance, tau)
    start, sd = np.array(u.start), np.array(u.sd)
    scale = np.ones(len(start))
    scale[u.names.index("delay")] = 1e-7
    scale[u.names.index("tan")] = 1e-2
    held = np.isfinite(sd)
    meters = [(c, s) for c in job["setups"] for s in [job["setups"][c]] if "dcResistance" in s]

    def residuals(q, floor):
        x = q * scale
        v = u.values(x)
        parts = []
        for capture, (hz, h, s) in data:
            r = (h - predicted(v, capture, job, model, 2 * np.pi * hz)) / (s + floor * np.abs(h))
            parts += [r.real, r.imag]
        parts.append((x - start)[held] / sd[held])
        for _, s in meters:
            value, tolerance = marking(s["dcResistance"])
            g = 1 / v["R"] + (1 / v[s["volume"]] if "volume" in s else 0)
            parts.append(np.array([np.log(1 / g / value) / tolerance]))
        return np.concatenate(parts)

    if job["fixture"]["kind"] == "exciter":        # gains from the data at the start
        v = u.values(start)
        for n, name in enumerate(u.names):
            if name.startswith("gain "):
                capture, (hz, h, s) = next((c, d) for c, d in data if name in ("gain all", "gain " + c["setup"]))
                p = predicted(v, capture, job, model, 2 * np.pi * hz)
                start[n] = np.log(np.median(np.abs(h / p)[hz < 1000]))
    q = start / scale
    for floor in (1e-2, 1e-3, 0.0):         # blurred first, so that the narrow valley is entered from its mouth
        found = least_squares(residuals, q, method="lm", x_scale="jac", args=(floor,), xtol=1e-10, max_nfev=100 * len(start))
        q = found.x
    points = sum(2 * len(d[0]) for _, d in data)
    free = int(np.sum(~held)) + 2
    chi2 = float(np.sum(found.fun[:points] ** 2))
    reduced = chi2 / max(points - free, 1)
    count = len(start)
    criterion = points * np.log(np.sum(found.fun**2) / points) + 2 * count + 2 * count * (count + 1) / (points - count - 1)
    covariance = np.linalg.pinv(found.jac.T @ found.jac) * np.outer(scale, scale) * max(reduced, 1)
    return dict(model=model, unknowns=u, x=found.x * scale, covariance=covariance, reduced=reduced, criterion=criterion, scale=scale)


# --- what is reported ---------------------------------------------------------------------------------------

GRID = 2 * np.pi * np.geomspace(50, 20000, 1200)


def transfer(v, setup, model, w):
    z = winding_impedance(v, w, model)
    inside = 1j * w * v["C"] * (1 - 1j * np.log(v["tan"]))
    outside = load_admittance(v, w, setup, []) if "cable" in setup or "volume" in setup else 0
    return 1 / (1 + z * (inside + outside))


def peak(v, setup, model):
    level = 20 * np.log10(np.abs(transfer(v, setup, model, GRID)))
    k = int(np.argmax(level))
    ground = 20 * np.log10(np.abs(transfer(v, setup, model, 2 * np.pi * np.array([20.0]))))[0]
    if k in (0, len(GRID) - 1) or level[k] - ground < 0.05:
        return None
    a, b, c = level[k - 1:k + 2]
    shift = 0.5 * (a - c) / (a - 2 * b + c)
    return GRID[k] * (GRID[1] / GRID[0]) ** shift / 2 / np.pi, b - 0.25 * (a - c) * shift - ground


def reported(v, job, model):
    rows = {"pickup.inductance": v["L"], "pickup.resistance": v["R"], "pickup.capacitance": v["C"]}
    conductances = []
    for name, setup in job["setups"].items():
        top = peak(v, setup, model)
        if top:
            rows[name + ".resonance"], rows[name + ".resonancePeak"] = top
        if "cable" in setup or "volume" in setup:
            at = 2 * np.pi * np.array([top[0] if top else 3000.0])
            conductances.append(load_admittance(v, at, setup, [])[0].real)
            rows[name + ".loadResistance"] = 1 / conductances[-1]
            rows[name + ".totalCapacitance"] = v["C"] + v["cin"] + (v[setup["cable"]] if "cable" in setup else 0)
    if len(conductances) == 2:
        rows["change.loadConductance"] = conductances[1] - conductances[0]
    for name, part in job["parts"].items():
        if part["kind"] != "pickup":
            rows[name + ".value"] = v[name]
    return rows


def difference(v, job, model, hz):
    a, b = [transfer(v, s, model, 2 * np.pi * hz) for s in job["setups"].values()]
    return 20 * np.log10(np.abs(b / a))


def with_intervals(best, job, function):
    """Values of a vector function of the parameters and half-widths by the delta method."""
    u, x = best["unknowns"], best["x"]
    centre = function(u.values(x))
    step = 1e-5 * np.where(best["scale"] < 1, best["scale"], 1)
    slopes = np.array([(function(u.values(x + np.eye(len(x))[i] * step[i])) - centre) / step[i] for i in range(len(x))])
    variance = np.einsum("ik,ij,jk->k", slopes, best["covariance"], slopes)
    return centre, SD95 * np.sqrt(np.maximum(variance, 0))


def main():
    job_file, out = sys.argv[2], sys.argv[4]
    job = json.load(open(job_file))
    folder = os.path.dirname(os.path.abspath(job_file))
    mains = float(job.get("mainsHz", 50))
    data = [(c, response(os.path.join(folder, c["file"]), job["fixture"], mains)) for c in job["captures"]]
    hz, h, _ = data[0][1]
    slope = h / (1j * hz) if job["fixture"]["kind"] == "exciter" else h
    band = hz > 400
    resonance = float(hz[band][np.argmax(np.abs(slope[band]))])
    fits = [fit_model(job, data, m, resonance, t) for m, t in TRIES]
    best = min(fits, key=lambda f: f["criterion"])
    names = list(reported(best["unknowns"].values(best["x"]), job, best["model"]))

    def vector(v):
        rows = reported(v, job, best["model"])
        return np.array([rows.get(n, np.nan) for n in names])

    values, halves = with_intervals(best, job, vector)
    result = dict(trebleproof=1, model=dict(name=best["model"], reducedChiSquare=best["reduced"]), findings=[],
                  estimates=[dict(key=k, value=v, low=v - s, high=v + s, known="measured") for k, v, s in zip(names, values, halves)])
    if len(job["setups"]) == 2:
        grid = np.geomspace(100, 10000, 61)
        d, s = with_intervals(best, job, lambda v: difference(v, job, best["model"], grid))
        result["difference"] = dict(hz=grid.tolist(), dB=d.tolist(), low=(d - s).tolist(), high=(d + s).tolist())
    with open(out, "w") as file:
        json.dump(result, file, indent=1)


if __name__ == "__main__":
    main()
