#!/usr/bin/env python3
"""The work of BeforeSolderingBenchmark in vectorised NumPy, timed here and now; with target/bench.json also the ratios.

usage: python3 before_soldering.py
"""
import itertools
import json
import os
import time

import numpy as np

TOP = os.path.abspath(os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", ".."))


def transfer(hz, r=5700.0, l=2.4, c=120e-12, loss=800e3, volume=250e3, wiper=1.0, tone=250e3, cap=22e-9, cable=500e-12, inp=1e6, extra=0.0, load=np.inf):
    """Jack over induced voltage; parts may be arrays of shape (n, 1) against hz of shape (1, m)."""
    s = 2j * np.pi * hz
    coil = 1 / (r + 1 / (1 / (s * l) + 1 / loss))
    before = coil + s * c + 1 / (tone + 1 / (s * cap))
    after = s * (cable + extra) + 1 / inp + 1 / load
    if np.isscalar(wiper) and wiper == 1.0:
        return coil / (before + after + 1 / volume)
    upper = 1 / (volume * (1 - wiper))
    after = after + 1 / (volume * wiper)
    return coil * upper / ((before + upper) * (after + upper) - upper * upper)


def timed(work, least=1.0):
    work()
    turns, begin = 0, time.perf_counter()
    while time.perf_counter() - begin < least:
        work()
        turns += 1
    return 1000 * (time.perf_counter() - begin) / turns


def pot_drag():
    return 20 * np.log10(np.abs(transfer(np.geomspace(20, 20000, 1000), wiper=0.31)))


def ten_thousand():
    rng = np.random.default_rng(1)
    n, hz = 10_000, np.append(20 * 2 ** (np.arange(200) / 20), [1000, 3000, 5000])[None, :]

    def part(value, tolerance):
        return value * np.exp(rng.normal(0, tolerance / 1.96, (n, 1)))

    parts = dict(r=part(5700, .05), l=part(2.4, .1), c=part(120e-12, .2), loss=part(800e3, .2), tone=part(250e3, .2), cap=part(22e-9, .1), cable=part(500e-12, .2), inp=part(1e6, .01))
    now = 20 * np.log10(np.abs(transfer(hz, volume=part(250e3, .2), **parts)))
    then = 20 * np.log10(np.abs(transfer(hz, volume=part(500e3, .2), **parts)))
    for curve in (now, then, then - now):
        np.quantile(curve, [0.025, 0.975], axis=0)
    return now, then


E24 = [1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1]


def search():
    hz = np.append([20], np.geomspace(300, 8000, 24))[None, :]
    pots = [250e3, 500e3, 1e6, 2e6]
    cables = [500e-12, 300e-12, 450e-12, 600e-12, 900e-12]
    caps = [0.0] + [m * e for e in (1e-10, 1e-9) for m in E24 if 1e-10 <= m * e * 1.001 and m * e < 4.75e-9]
    loads = [np.inf] + [m * e for e in (1e4, 1e5) for m in E24 if m * e >= 47e3] + [1e6]
    grid = np.array(list(itertools.product(pots, pots, cables, caps, loads)))
    volume, tone, cable, extra, load = (grid[:, i:i + 1] for i in range(5))
    level = 20 * np.log10(np.abs(transfer(hz, volume=volume, tone=tone, cable=cable, extra=extra, load=load)))
    top = level[:, 1:].argmax(axis=1)
    far = np.hypot(np.log(hz[0, 1 + top] / 3200) * 25, level[:, 1:].max(axis=1) - level[:, 0] - 4)
    return len(grid), np.argsort(far)[:12]


if __name__ == "__main__":
    own = {}
    bench = os.path.join(TOP, "target", "bench.json")
    if os.path.exists(bench):
        own = {b["benchmark"].rsplit(".", 1)[1]: b["primaryMetric"]["score"] for b in json.load(open(bench))}
    for name, work in (("potDrag", pot_drag), ("tenThousandGuitars", ten_thousand), ("search", search)):
        numpy = timed(work)
        line = f"{name:20s} numpy {numpy:9.3f} ms"
        if name in own:
            line += f"  trebleproof {own[name]:9.3f} ms  ratio {own[name] / numpy:.3f}"
        print(line)
    print("combinations searched:", search()[0])
