#!/usr/bin/env python3
"""Makes the hum samples: silence of three invented guitars with known faults.

    make-hum-samples.py            (needs numpy and soundfile)

Each recording is a sum of sinusoids on the mains' harmonics, every source with phases and a
spectrum of its own, bursts of a phone in one of them, and white hiss; 10 s, mono, 16 bit with triangular dither, 44.1 kHz. Which
source reaches which state, and by how much, stands in the tables below. Levels are in dB re a
full-scale sine. The true causes are in truth.json beside the recordings.
"""
import json
import pathlib

import numpy as np
import soundfile

RATE = 44100
LENGTH = 10 * RATE
HERE = pathlib.Path(__file__).resolve().parent


class Source:
    """A way for the mains to get in: level of all harmonics together, slope in dB per octave."""

    def __init__(self, random, level, slope, even):
        k = np.arange(1, 90)
        decibel = -slope * np.log2(k) + random.uniform(-3, 3, k.size)
        decibel[1::2] += even
        amplitude = 10 ** (decibel / 20)
        self.amplitude = amplitude * np.sqrt(2 / (amplitude**2).sum()) * rms(level)
        self.phase = random.uniform(0, 2 * np.pi, k.size)

    def sound(self, turns, gain):
        out = np.zeros(LENGTH)
        for k, (a, p) in enumerate(zip(self.amplitude, self.phase), start=1):
            out += a * np.sin(2 * np.pi * k * turns + p)
        return out * 10 ** (gain / 20)


def rms(level):
    return 10 ** (level / 20) / np.sqrt(2)


def write(random, path, sound, hiss):
    sound = sound + random.normal(0, rms(hiss), LENGTH)
    dither = random.uniform(-0.5, 0.5, LENGTH) + random.uniform(-0.5, 0.5, LENGTH)
    samples = np.clip(np.round(sound * 32767 + dither), -32768, 32767).astype(np.int16)
    path.parent.mkdir(exist_ok=True)
    soundfile.write(path, samples, RATE, format="FLAC", subtype="PCM_16")


def turns(random, mains):
    t = np.arange(LENGTH) / RATE
    return random.uniform() + (mains + random.uniform(-0.004, 0.004)) * t


def string(random, pitch, start, decay, level):
    t = np.arange(LENGTH) / RATE - start
    on = t >= 0
    out = np.zeros(LENGTH)
    for k in range(1, 9):
        out[on] += np.exp(-t[on] * k**0.5 / decay) / k * np.sin(2 * np.pi * k * pitch * t[on])
    return out * rms(level)


def foil():
    """A choir-loft archtop: the body's buzz gets in; then its cavity is lined with copper foil."""
    random = np.random.default_rng(20261125)
    mains = 49.98
    body = Source(random, -52, 2.5, -6)
    states = {
        "hands-off": 0, "on-strings": -17, "on-sleeve": -17.5, "volume-zero": -70,
        "after-hands-off": -21,
    }
    folder = HERE / "hum-foil"
    for name, gain in states.items():
        write(random, folder / f"{name}.flac", body.sound(turns(random, mains), gain), -90)
    truth = {"mainsHz": mains, "causes": ["unshielded"], "afterOverBeforeDb": {"hands-off": -21},
             "bodyDb": -52}
    (folder / "truth.json").write_text(json.dumps(truth, indent=2) + "\n")


def bench_lamp():
    """A repair bench in a 60 Hz country: a lamp's transformer, and an open string ground."""
    random = np.random.default_rng(20261126)
    mains = 60.01
    field = Source(random, -58, 12, -10)
    open_ground = Source(random, -60, 2, -4)
    states = {
        "hands-off": (0, 0), "on-strings": (0, 3), "on-sleeve": (0, -19), "turned": (-9, 0),
        "volume-zero": (-70, -70),
    }
    folder = HERE / "hum-bench-lamp"
    for name, (magnetic, electric) in states.items():
        t = turns(random, mains)
        sound = field.sound(t, magnetic) + open_ground.sound(t, electric)
        if name == "on-strings":
            sound += string(random, 110.0, 6.2, 0.5, -50)
        write(random, folder / f"{name}.flac", sound, -90)
    truth = {"mainsHz": mains, "causes": ["string-ground-open", "magnetic"],
             "brushed": {"on-strings": 6.2}}
    (folder / "truth.json").write_text(json.dumps(truth, indent=2) + "\n")


def bursts(random, level, packet, pause):
    """A phone's transmitter as an audio stage rectifies it: slots, frames and pauses of 3GPP TS 45.002
    (one slot of eight in a frame of 120/26 ms, every 26th frame left out; from memory)."""
    frame = 0.12 / 26
    t = np.arange(LENGTH) / RATE + random.uniform(0, 10)
    on = (t % frame < frame / 8) & ((t / frame).astype(int) % 26 != 25)
    on &= t % (packet + pause) < packet
    # no direct current passes: a high-pass of 60 Hz
    out = np.empty(LENGTH)
    before = 0.0
    for i, value in enumerate(on):
        before += (value - before) * 2 * np.pi * 60 / RATE
        out[i] = value - before
    return out / np.sqrt(np.mean(out**2)) * rms(level)


def phone_on_the_amp():
    """A rehearsal room: a phone lies on the amplifier, and the laptop's supply closes a ground loop."""
    random = np.random.default_rng(20261127)
    mains = 50.02
    loop = Source(random, -62, 6, -9)
    states = {
        "hands-off": (0, -55), "on-strings": (0, -56.5), "volume-zero": (0, -61),
        "no-lead": (None, None),
    }
    folder = HERE / "hum-phone-on-the-amp"
    for name, (hum, radio) in states.items():
        sound = np.zeros(LENGTH)
        if hum is not None:
            sound = loop.sound(turns(random, mains), hum) + bursts(random, radio, 1.4, 0.9)
        write(random, folder / f"{name}.flac", sound, -88)
    truth = {"mainsHz": mains, "causes": ["downstream", "radio"]}
    (folder / "truth.json").write_text(json.dumps(truth, indent=2) + "\n")


if __name__ == "__main__":
    foil()
    bench_lamp()
    phone_on_the_amp()
