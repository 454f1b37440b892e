#!/usr/bin/env python3
"""Writes a job with one long capture, 60 s of stereo at 192 kHz and 24 bit, to see that memory stays flat.

usage: python3 long_capture.py FOLDER

A bare ideal-core coil (R and L in series, C across) measured through 100 kohm; truth.json holds its values.
"""
import json
import os
import sys

import numpy as np
import soundfile
from scipy import fft

RATE, LENGTH, SWEEP, REPEATS = 192000, 60.0, 18.0, 3
R, L, LOSS, C = 5900.0, 2.51, 900e3, 110e-12
RIN, CIN, RS = 1e6, 80e-12, 100e3

folder = sys.argv[1]
os.makedirs(folder, exist_ok=True)
rng = np.random.default_rng(60)
t = np.arange(int(SWEEP * RATE)) / RATE
length = SWEEP / np.log(1000.0)
x = 0.5 * np.sin(2 * np.pi * 20 * length * np.expm1(t / length))
fade = int(0.02 * RATE)
x[:fade] *= np.sin(np.linspace(0, np.pi / 2, fade)) ** 2
x[-fade:] *= np.cos(np.linspace(0, np.pi / 2, fade)) ** 2
size = fft.next_fast_len(len(x) + RATE, real=True)
w = 2 * np.pi * np.maximum(fft.rfftfreq(size, 1 / RATE), 1e-3)
coil = R + 1 / (1 / (1j * w * L) + 1 / LOSS)
across = 1 / coil + 1j * w * (C + CIN) + 1 / RIN
y = fft.irfft(fft.rfft(x, size) / (1 + RS * across), size)[: len(x) + RATE // 2]
sound = rng.normal(0, 6e-6, (int(LENGTH * RATE), 2))
for k in range(REPEATS):
    start = int((0.7 + k * (SWEEP + 1.4)) * RATE)
    sound[start : start + len(x), 0] += x
    sound[start : start + len(y), 1] += y
soundfile.write(os.path.join(folder, "long.wav"), sound, RATE, subtype="PCM_24")
job = {
    "trebleproof": 1, "title": "A minute at 192 kHz",
    "fixture": {"kind": "series", "seriesResistance": "100k 0.1%", "referenceChannel": 1, "deviceChannel": 2,
                "channels": {"ratio": "1 0.05%", "delay": "0 0.02us"}, "input": {"resistance": "1M 1%", "capacitance": "80p 3%"}},
    "parts": {"pickup": {"kind": "pickup"}}, "setups": {"bare": {"pickup": "pickup"}},
    "captures": [{"id": "bare", "file": "long.wav", "setup": "bare"}],
}
truth = {"estimates": {"pickup.inductance": L, "pickup.resistance": R, "pickup.capacitance": C}}
for name, content in (("job.json", job), ("truth.json", truth)):
    with open(os.path.join(folder, name), "w") as out:
        json.dump(content, out, indent=1)
