"""Flux left in a solid conducting cylinder, and its derivative, by SciPy's Bessel functions.

Writes solid_cylinder.csv beside this script: w tau, then the real and imaginary parts of
F = 2 J1(ka) / (ka J0(ka)) with (ka)^2 = -j w tau, and of dF / d ln tau by the quotient rule from
the derivatives of J0 and J1. |ka| runs from 0.01 to 100. The scaled functions jve keep large
arguments from overflowing; the scale cancels.

Run: python3 solid_cylinder.py
"""

import pathlib

import numpy as np
import scipy
from scipy.special import jve

size = np.concatenate([np.geomspace(0.01, 100, 161), np.linspace(20, 24, 41)])
x = np.sort(size) * np.exp(-0.25j * np.pi)
j0, j1, j2 = (jve(n, x) for n in (0, 1, 2))
f = 2 * j1 / (x * j0)
# d/dx (J1/x) = -J2/x, J0' = -J1, and d/d ln tau = (x/2) d/dx
slope = (x / 2) * 2 * (-j2 / (x * j0) + j1 * j1 / (x * j0 * j0))

with open(pathlib.Path(__file__).with_suffix(".csv"), "w") as out:
    out.write(f"# SciPy {scipy.__version__}; columns: w tau, Re F, Im F, Re dF/dln tau, Im dF/dln tau\n")
    for row in zip(np.abs(x) ** 2, f.real, f.imag, slope.real, slope.imag):
        out.write(",".join(f"{float(value):.17g}" for value in row) + "\n")
