#!/usr/bin/env python3
"""Time of one warm fit of five parameters on 400 points: SciPy's 'lm' with an analytic Jacobian.

usage: python3 warm_fit.py          prints milliseconds per fit, and the parameters found

The problem of FitBenchmark: the impedance of a bare coil, resistance, inductance, split inductance and its time
constant, winding capacitance; noise-free but weighted as if 0.1 % noisy, start values 20 % off in alternating
directions; logarithms are fitted. Derivatives are written out by hand, nothing is computed twice.
"""
import os
import time

os.environ.setdefault("OMP_NUM_THREADS", "1")
import numpy as np
from scipy.optimize import least_squares

TRUE = np.array([5700.0, 2.0, 0.4, 2e-5, 120e-12])
W = 2 * np.pi * 20.0 * 1000.0 ** (np.arange(400) / 399)


def impedance(x):
    r, l, l2, tau, c = np.exp(x)
    jw = 1j * W
    s = 1 + jw * tau
    split = jw * l2 / s
    winding = r + jw * l + split
    z = 1 / (1 / winding + jw * c)
    return z, winding, split, s, jw


MEASURED = impedance(np.log(TRUE))[0]
WEIGHT = 1 / (1e-3 * np.abs(MEASURED))


def residuals(x):
    d = (MEASURED - impedance(x)[0]) * WEIGHT
    return np.concatenate([d.real, d.imag])


def jacobian(x):
    r, l, l2, tau, c = np.exp(x)
    z, winding, split, s, jw = impedance(x)
    q = -(z / winding) ** 2 * WEIGHT
    rows = np.empty((5, 400), complex)
    rows[0] = q * r
    rows[1] = q * jw * l
    rows[2] = q * split
    rows[3] = -q * split * (1 - 1 / s)
    rows[4] = z**2 * jw * c * WEIGHT
    return np.concatenate([rows.real, rows.imag], axis=1).T


def fit():
    start = np.log(TRUE) + np.log(1.2) * np.array([1, -1, 1, -1, 1])
    return least_squares(residuals, start, jacobian, method="lm")


for _ in range(50):
    found = fit()
times = []
for _ in range(9):
    begin = time.perf_counter()
    for _ in range(60):
        found = fit()
    times.append((time.perf_counter() - begin) / 60)
assert np.max(np.abs(np.exp(found.x) / TRUE - 1)) < 1e-6, np.exp(found.x)
print(f"scipy {np.median(times) * 1e3:.4f} ms a fit, {found.nfev} evaluations")
