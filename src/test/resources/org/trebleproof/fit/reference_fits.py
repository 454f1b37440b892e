#!/usr/bin/env python3
"""Whole fits by SciPy, as a reference: writes reference_fits.json beside itself.

usage: python3 reference_fits.py          (needs python3-numpy, python3-scipy)

Each case is made-up data with known noise and its best fit by scipy.optimize.least_squares. In the JSON, SI units:

- coil      name of the coil model; its parameters are named as the model names them, behind "pickup."
- captures  each with its wiring (names of the parts that are present), the probe (what the values are), hz, re, im,
            and sd, the standard deviation of the real part and, equally, of the imaginary part of each value
- parameters  in the order of the covariance: name, true value, prior (value, logSd: standard deviation of the
            logarithm; absent for none), estimate
- covariance  of the logarithms of the parameters: inverse of J'J, J the Jacobian of all weighted residuals,
            the priors' included; not widened by the reduced chi-square
- chiSquare of the measured values, and chiSquarePriors of the priors; the sum of both was minimised

The minimum was refined until Gauss-Newton steps fell below 1e-9 of a standard deviation, with exact
derivatives, so agreement of estimates within 1e-5 of a standard deviation and of
the covariance within 1e-5 of its own scale can be asked for (rounding of the models at 1e-13 of themselves,
1e-9 of the noise, is magnified up to 4,000 times where parameters are all but exchangeable).
"""
import json
import os

import numpy as np
from scipy.optimize import least_squares
from scipy.special import ive

HERE = os.path.dirname(os.path.abspath(__file__))


def coil_impedance(v, w):
    """Winding resistance and inductance in series, without the winding's capacitance; and d / d ln parameter."""
    d = {"pickup.resistance": v["pickup.resistance"] + 0j * w}
    if "pickup.lossResistance" in v:
        jwl, loss = 1j * w * v["pickup.inductance"], v["pickup.lossResistance"]
        part = jwl * loss / (jwl + loss)
        d["pickup.inductance"], d["pickup.lossResistance"] = part**2 / jwl, part**2 / loss
    else:
        part = d["pickup.inductance"] = 1j * w * v["pickup.inductance"]
    z = v["pickup.resistance"] + part
    if "pickup.splitInductance" in v:
        s = 1j * w * v["pickup.splitTime"]
        part = 1j * w * v["pickup.splitInductance"] / (1 + s)
        d["pickup.splitInductance"], d["pickup.splitTime"] = part, -part * s / (1 + s)
        z = z + part
    if "pickup.coreInductance" in v:
        x = np.sqrt(1j * w * v["pickup.coreTime"])
        ratio = ive(1, x) / ive(0, x)
        flat = 1j * w * v["pickup.coreInductance"]
        part = flat * 2 * ratio / x
        # I1' = I0 - I1 / x, I0' = I1, and x goes with the square root of the time.
        d["pickup.coreInductance"], d["pickup.coreTime"] = part, flat * ((1 - ratio / x - ratio**2) - ratio / x)
        z = z + part
    return z, d


def load(v, w, wiring):
    d = {}
    if "volume" in wiring:
        d[wiring["volume"]] = -1 / v[wiring["volume"]] + 0j * w
    y = -sum(d.values()) + 0j * w
    if "tone" in wiring:
        pot, cap = v[wiring["tone"]], 1 / (1j * w * v[wiring["toneCapacitor"]])
        branch = 1 / (pot + cap)
        d[wiring["tone"]], d[wiring["toneCapacitor"]] = -branch**2 * pot, branch**2 * cap
        y = y + branch
    if "cable" in wiring:
        d[wiring["cable"]] = 1j * w * v[wiring["cable"]]
        y = y + d[wiring["cable"]]
    if "inputResistance" in wiring:
        g = 1 / v[wiring["inputResistance"]]
        d[wiring["inputResistance"]] = -g + 0j * w
        d[wiring["inputCapacitance"]] = 1j * w * v[wiring["inputCapacitance"]]
        y = y + g + d[wiring["inputCapacitance"]]
    return y, d


def model(v, capture):
    """What the probe should read, and d / d ln parameter by name."""
    w = 2 * np.pi * capture["hz"]
    z, dz = coil_impedance(v, w)
    y, dy = load(v, w, capture["wiring"])
    jwc, tangent = 1j * w * v["pickup.capacitance"], v.get("pickup.lossTangent", 0.0)
    y = y + jwc * (1 - 1j * tangent)
    dy["pickup.capacitance"] = jwc * (1 - 1j * tangent)
    if tangent:
        dy["pickup.lossTangent"] = jwc * -1j * tangent
    if capture["probe"] == "EMF_TO_JACK":
        h = 1 / (1 + z * y)
        return h, {**{n: -h**2 * y * q for n, q in dz.items()}, **{n: -h**2 * z * q for n, q in dy.items()}}
    y, dy = y + 1 / z, {**dy, **{n: -q / z**2 for n, q in dz.items()}}
    if capture["probe"] == "JACK_IMPEDANCE":
        return 1 / y, {n: -q / y**2 for n, q in dy.items()}
    if capture["probe"] == "DRIVE_TO_JACK":
        series = v[capture["wiring"]["seriesDrive"]]
        h = 1 / (1 + series * y)
        return h, {**{n: -h**2 * series * q for n, q in dy.items()}, capture["wiring"]["seriesDrive"]: -h**2 * series * y}
    raise ValueError(capture["probe"])


def case(name, coil, truth, priors, captures, seed):
    rng = np.random.default_rng(seed)
    names = list(truth)
    true = np.log([truth[n] for n in names])
    for c in captures:
        clean = model(truth, c)[0]
        c["sd"] = c.pop("relativeSd") * np.abs(clean) + c.pop("floor", 0.0)
        noisy = clean + c["sd"] * (rng.standard_normal(len(clean)) + 1j * rng.standard_normal(len(clean)))
        # Rounded as they are written, so that the file holds exactly what was fitted.
        c["re"], c["im"], c["sd"], c["hz"] = (np.array([float(f"{x:.12g}") for x in a]) for a in (noisy.real, noisy.imag, c["sd"], c["hz"]))

    def residuals(x):
        v = dict(zip(names, np.exp(x)))
        parts = []
        for c in captures:
            r = (c["re"] + 1j * c["im"] - model(v, c)[0]) / c["sd"]
            parts += [r.real, r.imag]
        parts.append(np.array([(x[names.index(n)] - np.log(p["value"])) / p["logSd"] for n, p in priors.items()]))
        return np.concatenate(parts)

    def jacobian(x):
        v = dict(zip(names, np.exp(x)))
        rows = []
        for c in captures:
            slopes = model(v, c)[1]
            full = np.stack([-slopes[n] / c["sd"] if n in slopes else np.zeros(len(c["hz"]), complex) for n in names], axis=1)
            rows += [full.real, full.imag]
        for n, p in priors.items():
            rows.append(np.eye(len(names))[[names.index(n)]] / p["logSd"])
        return np.concatenate(rows)

    # The derivatives against plain differences, so that a slip in a formula cannot pass.
    step = 1e-5
    plain = np.stack([(residuals(true + step * e) - residuals(true - step * e)) / (2 * step) for e in np.eye(len(true))], axis=1)
    exact = jacobian(true)
    assert np.max(np.abs(plain - exact) / (np.max(np.abs(exact), axis=0) + 1e-9)) < 1e-6
    start = true + 0.02 * rng.standard_normal(len(true))
    x = least_squares(residuals, start, jac=jacobian, x_scale="jac", xtol=1e-14, ftol=1e-14, gtol=1e-14, max_nfev=500).x
    for _ in range(30):
        jac = jacobian(x)
        step = np.linalg.lstsq(jac, -residuals(x), rcond=None)[0]
        covariance = np.linalg.inv(jac.T @ jac)
        x = x + step
        if np.max(np.abs(step) / np.sqrt(np.diag(covariance))) < 1e-9:
            break
    else:
        raise SystemExit(f"{name}: the minimum was not refined")
    r = residuals(x)
    points = sum(2 * len(c["hz"]) for c in captures)
    pull = (x - true) / np.sqrt(np.diag(covariance))
    print(f"{name:42s} chi-square {np.sum(r[:points]**2):8.2f} of {points} values, pulls " + " ".join(f"{p:5.2f}" for p in pull))
    return {
        "name": name, "coil": coil,
        "captures": [{"probe": c["probe"], "wiring": c["wiring"], "hz": list(c["hz"]), "re": list(c["re"]), "im": list(c["im"]), "sd": list(c["sd"])} for c in captures],
        "parameters": [dict({"name": n, "true": truth[n], "estimate": float(np.exp(x[i]))}, **({"prior": priors[n]} if n in priors else {})) for i, n in enumerate(names)],
        "covariance": [[float(q) for q in row] for row in covariance],
        "chiSquare": float(np.sum(r[:points] ** 2)), "chiSquarePriors": float(np.sum(r[points:] ** 2)),
    }


def marked(value, tolerance):
    """A stated tolerance is a 95 % interval."""
    return {"value": value, "logSd": tolerance / 1.959963984540054}


def cases():
    bare = {"pickup.resistance": 5700.0, "pickup.inductance": 2.4, "pickup.lossResistance": 800e3, "pickup.capacitance": 120e-12}
    yield case("bare coil, impedance, loss resistor", "loss resistor", bare, {},
               [dict(probe="JACK_IMPEDANCE", wiring={}, hz=np.geomspace(20, 20000, 181), relativeSd=1e-3)], 1)

    core = {"pickup.resistance": 6150.0, "pickup.inductance": 1.71, "pickup.coreInductance": 0.72, "pickup.coreTime": 5.5e-5,
            "pickup.capacitance": 117e-12, "pickup.lossTangent": 0.018, "series": 100060.0, "input": 0.9975e6, "input C": 81.2e-12}
    yield case("bare coil through a resistor, solid core", "solid core, dielectric loss", core,
               {"series": marked(100e3, 1e-3), "input": marked(1e6, 1e-2), "input C": marked(80e-12, 3e-2)},
               [dict(probe="DRIVE_TO_JACK", wiring={"seriesDrive": "series", "inputResistance": "input", "inputCapacitance": "input C"},
                     hz=np.geomspace(20, 20000, 121), relativeSd=2e-5, floor=1e-5)], 2)

    swap = {"pickup.resistance": 5650.0, "pickup.inductance": 2.02, "pickup.splitInductance": 0.33, "pickup.splitTime": 1.4e-5,
            "pickup.capacitance": 133e-12, "old volume": 238e3, "new volume": 521e3, "tone pot": 244e3, "tone cap": 21.3e-9,
            "lead": 452e-12, "input": 1.004e6, "input C": 79.1e-12}
    wiring = lambda pot: {"volume": pot, "tone": "tone pot", "toneCapacitor": "tone cap", "cable": "lead", "inputResistance": "input", "inputCapacitance": "input C"}
    yield case("pot swap, both transfers, split inductance", "split inductance", swap,
               {"pickup.resistance": marked(5700.0, 1e-2), "old volume": marked(250e3, 0.2), "new volume": marked(500e3, 0.2), "tone pot": marked(250e3, 0.2),
                "tone cap": marked(22e-9, 0.1), "lead": marked(460e-12, 0.1), "input": marked(1e6, 1e-2), "input C": marked(80e-12, 3e-2),
                "pickup.capacitance": {"value": 120e-12, "logSd": 0.5}},
               [dict(probe="EMF_TO_JACK", wiring=wiring(p), hz=np.geomspace(30, 18000, 101), relativeSd=1e-4) for p in ("old volume", "new volume")], 3)


if __name__ == "__main__":
    with open(os.path.join(HERE, "reference_fits.json"), "w") as out:
        json.dump(list(cases()), out, indent=1)
        out.write("\n")
