#!/usr/bin/python3
"""Writes real signals and their discrete Fourier transforms by scipy.fft.rfft, as the transform's reference.

    reference_transforms.py > src/test/resources/org/trebleproof/signal/transforms.csv
"""
import numpy as np
import scipy
import scipy.fft

print(f"# scipy {scipy.__version__}, scipy.fft.rfft; length, then samples, then real and imaginary parts in turn")
rng = np.random.default_rng(20260607)
for n in (2, 3, 8, 12, 15, 17, 30, 49, 64):
    x = rng.normal(size=n)
    z = scipy.fft.rfft(x)
    print(",".join([str(n)] + [repr(float(v)) for v in x] + [repr(float(v)) for c in z for v in (c.real, c.imag)]))
