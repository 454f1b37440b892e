#!/usr/bin/env python3
"""Sixty coils of three recipes, measured in three evenings on two benches, with what is true of them.

usage: python3 shelf_evening.py OUT [SEED [COILS]]

OUT/evening-N holds the recordings of an evening, bench.json the options of its bench, and OUT/truth.json every coil: recipe,
values, and what is wrong with it (two with shorted turns, one open, one wound of other wire). The last evening measures four good
coils of the first once more, on the other bench (again-NAME.wav). Closed form (bench_circuit.py); nothing is shared with the product.

Scatter of the windings: inductance 1.5 %, resistance 0.7 %, capacitance 4 % about the recipe (common practice, no source).
Shorted turns: of a winding with share p shorted, (1 - p) R and (1 - p)^2 L are left, with a turn of time p L / R coupled by k^2
(coupled circuits, Terman, Radio Engineers' Handbook, 1943; from memory).
"""
import json
import os
import sys

import numpy as np

import bench_recording as recording
from bench_circuit import Coil, Guitar, Input, Metal, Winding, series_response

RECIPES = {
    "hot bridge": dict(R=8.1e3, L=4.1, C=125e-12, metal=Metal(rods=((0.15, 6e-5),)), wire=0.0633),
    "neck 52": dict(R=5.9e3, L=2.35, C=105e-12, metal=Metal(rods=((0.12, 8e-5),)), wire=0.0633),
    "middle": dict(R=6.4e3, L=2.8, C=112e-12, metal=Metal(turns=((0.12, 1.2e-5),)), wire=0.0633),
}
WARM = 0.00393          # of copper per kelvin about 20 C (IEC 60028)
OTHER_WIRE = 1.21       # resistance of the same turns of a wire a tenth thinner: (1 / 0.91)^2
SHARE, COUPLING = 0.05, 0.85


def bench(rng, name):
    ratio = float(f"{1 + rng.normal(0, 0.004):.4f}")
    return dict(name=name, input=Input(1e6 * (1 + rng.normal(0, 0.005)), 92e-12 * (1 + rng.normal(0, 0.015))),
                reference=Input(1e6, 92e-12), resistor=100e3 * (1 + rng.normal(0, 0.0005)), stated=ratio,
                ratio=ratio * (1 + rng.normal(0, 0.00025)), delay=rng.normal(0, 0.01e-6))


def record(rng, bench, coil, celsius, path, take):
    w, size = recording.grid(take)
    played = take.played(take.sweep()[0] * np.sin(take.sweep()[1]))
    y = bench["input"].admittance(w)
    if coil is None:            # nothing but the input behind the resistor, and the lead's few picofarad
        feed = 1 / bench["resistor"]
        response = feed / (feed + y + 1j * w * 30e-12)
    else:
        response = series_response(coil, Guitar(), w, y, bench["resistor"], 0.0, 1 + WARM * (celsius - 20))
    device = bench["ratio"] * response * bench["input"].reads(w) * np.exp(-1j * w * bench["delay"])
    amplitude = 10 ** (-14 / 20)
    x = amplitude * recording.filtered(played, bench["reference"].reads(w), size)
    d = amplitude * recording.filtered(played, device, size)
    floor = recording.level(-106)
    recording.write(path, x + rng.standard_normal(len(x)) * floor, d + rng.standard_normal(len(d)) * floor, rng, (0, 0), -106)


def wound(rng, recipe):
    scatter = rng.normal(0, [0.015, 0.007, 0.04])
    return Winding(L=recipe["L"] * (1 + scatter[0]), R=recipe["R"] * (1 + scatter[1]), C=recipe["C"] * (1 + scatter[2]),
                   metal=recipe["metal"], loss=0.006)


def hurt(w):
    p = SHARE
    turn = (COUPLING, p * w.L / w.R)
    return Winding(L=w.L * (1 - p) ** 2, R=w.R * (1 - p), C=w.C, loss=w.loss, metal=Metal(rods=w.metal.rods, turns=w.metal.turns + (turn,)))


def main():
    out = sys.argv[1]
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 20261130
    count = int(sys.argv[3]) if len(sys.argv) > 3 else 60
    rng = np.random.default_rng(seed)
    print("seed", seed)
    take = recording.Take(seconds=3.0, repeats=2, gap=0.7, before=0.7, after=0.7)
    benches = [bench(rng, "bench a"), bench(rng, "bench b")]
    evenings = [dict(bench=0, celsius=24.0, day="2026-11-02"), dict(bench=1, celsius=18.0, day="2026-11-09"),
                dict(bench=1, celsius=21.0, day="2026-11-16")]
    wrong = {count // 8: "shorted turns", count // 2: "open", count * 5 // 8: "shorted turns", count * 7 // 8: "other wire"}
    names, coils = list(RECIPES), []
    for n in range(count):
        recipe = names[n * 3 // count]
        w = wound(rng, RECIPES[recipe])
        fault = wrong.get(n, "")
        if fault == "other wire":
            w = Winding(L=w.L, R=w.R * OTHER_WIRE, C=w.C, metal=w.metal, loss=w.loss)
        if fault == "shorted turns":
            w = hurt(w)
        coils.append(dict(name=f"coil {n + 1}", recipe=recipe, evening=n * 3 // count + 1, fault=fault, winding=w))
    for e, evening in enumerate(evenings, 1):
        folder = os.path.join(out, f"evening-{e}")
        os.makedirs(folder, exist_ok=True)
        b = benches[evening["bench"]]
        with open(os.path.join(folder, "bench.json"), "w") as file:
            json.dump(dict(bench=b["name"], celsius=evening["celsius"], day=evening["day"], ratio=f"{b['stated']:.4f} 0.05%"), file)
        for c in coils:
            again = e == 3 and c in [k for k in coils if k["evening"] == 1 and not k["fault"]][:4]
            if c["evening"] == e or again:
                coil = None if c["fault"] == "open" else Coil((c["winding"],))
                path = os.path.join(folder, ("again-" if again else "") + c["name"] + ".wav")
                record(rng, b, coil, evening["celsius"], path, take)
    truth = [dict(name=c["name"], recipe=c["recipe"], evening=c["evening"], fault=c["fault"], resistance=c["winding"].R,
                  inductance=c["winding"].L, capacitance=c["winding"].C) for c in coils]
    with open(os.path.join(out, "truth.json"), "w") as file:
        json.dump(truth, file, indent=1)


if __name__ == "__main__":
    main()
