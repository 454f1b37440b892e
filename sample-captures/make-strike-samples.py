#!/usr/bin/env python3
"""Makes the sample of pick strikes, independently of Trebleproof's own code.

usage: python3 make-strike-samples.py      (needs ngspice, python3-numpy, python3-scipy, python3-soundfile)

Strings are sums of partials in two planes that beat and decay apart; the circuit's response comes from ngspice (netlists
beside the captures, written with the functions of make-samples.py); hum, hiss and quantisation are added. A player's
strikes differ in strength, place, softness and tuning.

Sources
- Partials: f_k = k f sqrt(1 + B k^2) (Fletcher, J. Acoust. Soc. Am. 36, 1964, from memory); a string plucked at a share p of
  its length and heard at a share q holds sin(k pi p) sin(k pi q) / k (standard string theory).
- Decay times, softness, spread of strikes: common practice, no source.
"""
import importlib.util
import json
import os

import numpy as np
import soundfile
from scipy import fft

HERE = os.path.dirname(os.path.abspath(__file__))
spec = importlib.util.spec_from_file_location("bench", os.path.join(HERE, "make-samples.py"))
bench = importlib.util.module_from_spec(spec)
spec.loader.exec_module(bench)

RATE = 44100
STRINGS = [(110.0, 8e-5), (146.83, 5e-5), (196.0, 9e-5), (329.63, 1.4e-5)]
ROUNDS = 4
APART = 1.35


def strike(hz, stiffness, rng):
    """One string's voltage per unit: two planes, beating."""
    t = np.arange(int(1.3 * APART * RATE)) / RATE
    place = np.clip(0.17 + rng.normal(0, 0.011), 0.05, 0.45)
    soft = 6500 * np.exp(rng.normal(0, 0.09))
    turn = 0.4 + rng.normal(0, 0.12)
    out = np.zeros(len(t))
    for k in range(1, 200):
        f = hz * k * np.sqrt(1 + stiffness * k * k)
        if f > 12000:
            break
        size = np.sin(np.pi * k * place) * np.sin(np.pi * k * 0.115) / k * np.exp(-0.5 * (f / soft) ** 2) * np.exp(rng.normal(0, 0.04))
        rate = 0.45 + (f / 2600) ** 1.15
        phase = rng.uniform(-0.3, 0.3)
        out += size * (np.cos(turn) * np.exp(-rate * t) * np.sin(2 * np.pi * f * t + phase)
                       + 0.3 * np.sin(turn) * np.exp(-0.6 * rate * t) * np.sin(2 * np.pi * (f + 0.35) * t + phase))
    click = np.convolve(rng.normal(0, 1, len(t)), [1, -0.7], "same") * np.exp(-t / 0.0016) * 0.012
    return (out + click) * (1 - np.exp(-t / 0.0004)) * 10 ** (rng.normal(0, 1.2) / 20) / np.sqrt(hz / 150)


def recording(rng, hz, response, gain, hit_twice):
    total = int((1 + len(STRINGS) * ROUNDS * APART + 0.8) * RATE)
    emf = np.zeros(total)
    detune = 2 ** (rng.normal(0, 3, len(STRINGS)) / 1200)
    for i in range(len(STRINGS) * ROUNDS):
        f, b = STRINGS[i % len(STRINGS)]
        voice = strike(f * detune[i % len(STRINGS)], b, rng)
        at = int((1 + i * APART + rng.uniform(-0.05, 0.05)) * RATE)
        for start in [at] + ([at + int(0.11 * RATE)] if i == hit_twice else []):
            n = min(len(voice), total - start)
            emf[start:start + n] += voice[:n]
    size = fft.next_fast_len(2 * total, real=True)
    bins = fft.rfftfreq(size, 1 / RATE)
    y = fft.irfft(fft.rfft(emf, size) * bench.at_bins(hz, response, bins), size)[:total] * gain
    t = np.arange(total) / RATE
    for k in range(1, 30):
        level = 10 ** (-77 / 20) * (1 if k % 2 else 0.4) / k ** 1.1
        y += level * np.sin(2 * np.pi * 50.01 * k * t + rng.uniform(0, 2 * np.pi))
    return y + rng.normal(0, 10 ** (-92 / 20), total)


def main():
    name = "strikes-pot-swap"
    folder = os.path.join(HERE, name)
    os.makedirs(folder, exist_ok=True)
    p = dict(inductance=2.77, resistance=6420.0, windingCapacitance=122e-12, coreShare=0.24, coreTime=5.8e-5)
    common = dict(tone=472000.0, toneCapacitor=22.6e-9, cable=518e-12, inputResistance=1.0027e6, inputCapacitance=79.1e-12)
    setups = {"before": dict(volume=521000.0, **common), "after": dict(volume=241500.0, **common)}
    truth = bench.truth_of(folder, p, setups)
    truth["estimates"].update({"old volume.value": 521000.0, "new volume.value": 241500.0, "lead.value": 518e-12})
    rng = np.random.default_rng(811)
    for number, (setup, s) in enumerate(setups.items()):
        hz, response = bench.analyse(bench.induced_netlist(p, s), folder, setup)
        y = recording(rng, hz, response, 0.33, 6 if number else -1)
        assert np.max(np.abs(y)) < 0.95, np.max(np.abs(y))
        soundfile.write(os.path.join(folder, setup + ".flac"), y, RATE, format="FLAC", subtype="PCM_16")
    job = {"trebleproof": 1, "title": "Green guitar of the lighthouse choir: volume pot 500k to 250k, a pick and no fixture",
           "fixture": {"kind": "strike", "deviceChannel": 1, "input": {"resistance": "1M 1%", "capacitance": "80p 10%"}},
           "mainsHz": 50,
           "parts": {"pickup": {"kind": "pickup"}, "old volume": {"kind": "pot", "value": "500k"}, "new volume": {"kind": "pot", "value": "250k"},
                     "tone pot": {"kind": "pot", "value": "500k"}, "tone cap": {"kind": "capacitor", "value": "22n"},
                     "lead": {"kind": "cable", "capacitance": "500p 15%"}},
           "setups": {n: {"pickup": "pickup", "volume": v, "tone": "tone pot", "toneCapacitor": "tone cap", "cable": "lead"}
                      for n, v in (("before", "old volume"), ("after", "new volume"))},
           "captures": [{"id": n, "file": n + ".flac", "setup": n} for n in setups]}
    for file, content in (("job.json", job), ("truth.json", truth)):
        with open(os.path.join(folder, file), "w") as out:
            json.dump(content, out, indent=1)
            out.write("\n")
    rows = "\n".join(f"| {k} | {v:.7g} |" for k, v in truth["estimates"].items())
    with open(os.path.join(folder, "PROVENANCE.md"), "w") as out:
        out.write(f"""# {name}

The lighthouse choir's green guitar is shrill on the new stage. Its volume pot comes down from 500k to 250k. Nobody has a coil or a
series resistor at hand: sixteen single plucks over four strings before, and sixteen after, one of them hit twice by mistake.

Simulated, not recorded: made by `../make-strike-samples.py` (seed 811) with ngspice's response of the netlists in this folder. SI
units throughout. No real instrument, maker or person stands behind it.

- Coil: {", ".join(f"{k} {v:.6g}" for k, v in p.items())}
{chr(10).join(f"- Setup `{n}`: " + ", ".join(f"{k} {v:.6g}" for k, v in s.items()) for n, s in setups.items())}

| true value | |
|---|---|
{rows}

The same figures, and the true difference curve, are in `truth.json`.
""")


if __name__ == "__main__":
    main()
