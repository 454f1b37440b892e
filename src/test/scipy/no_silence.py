#!/usr/bin/env python3
"""The hum check on what is no silence, and on hum that is: nothing of the product, and nothing of its tests.

usage: python3 no_silence.py FOLDER SEED [--foreign N] [--hum N] [--keep] --command COMMAND...

Makes recordings that hold no silence (strings by a delay line, sweeps, nothing at all for a quarter and more, music on the other channel, a hum that
stands above the hiss of its own band though all the hiss together is stronger) and visits with a fault that is known, has each checked as a user would, and counts verdicts that are none or are wrong.
Levels are common practice, no source. Fails where one is wrong.
"""
import argparse
import json
import pathlib
import subprocess
import sys

import numpy as np
import scipy.signal
import soundfile

RATE = 48000


def decibel(level):
    return 10 ** (level / 20)


def hiss(rng, seconds, level):
    return rng.normal(0, decibel(level) / np.sqrt(2), int(seconds * RATE))


def pulled(rng, hz, seconds, damping):
    """A string as a delay line with a damped end (Karplus and Strong, Computer Music Journal 7(2), 1983; from memory), pulled aside at a point."""
    n = int(RATE / hz)
    at = max(2, int(n * rng.uniform(0.08, 0.3)))
    shape = np.interp(np.arange(n), [0, at, n], [0, 1, 0])
    turn = np.diff(shape, append=shape[0])
    turns = max(1, int(seconds * RATE) // n + 1)
    sound = np.zeros(turns * n)
    for k in range(turns):
        sound[k * n:(k + 1) * n] = turn
        turn = damping * (0.6 * turn + 0.4 * np.roll(turn, 1))
    sound = sound[:int(seconds * RATE)]
    return sound / max(1e-9, np.max(np.abs(sound)))


def played(rng, seconds, level, style=None):
    style = style or rng.choice(["riff", "chords", "picking", "held", "bends", "muted", "swells"])
    x = np.zeros(int(seconds * RATE))
    notes = lambda: 82.4 * 2 ** (rng.integers(0, 28) / 12)
    step = {"riff": 0.22, "chords": 1.4, "picking": 0.3, "held": 30, "bends": 1.1, "muted": 0.17, "swells": 2.2}[style] * rng.uniform(0.7, 1.4)
    t = rng.uniform(0, 0.4)
    while t < seconds:
        strings = 6 if style == "chords" else 1
        root = notes() if strings == 1 else 82.4 * 2 ** (rng.integers(0, 10) / 12)
        for s in range(strings):
            hz = root * 2 ** ([0, 7, 12, 16, 19, 24][s] / 12)
            damping = {"muted": 0.9, "held": 0.9995}.get(style, rng.uniform(0.985, 0.9985))
            sound = pulled(rng, hz, seconds - t, damping)
            if style == "swells":
                # the volume knob turned up after the pick
                sound *= np.clip(np.arange(len(sound)) / (0.8 * RATE), 0, 1)
            start = int((t + 0.012 * s) * RATE)
            x[start:start + len(sound)] += sound[:len(x) - start] * rng.uniform(0.6, 1)
        t += step * rng.uniform(0.8, 1.25)
    return x / np.max(np.abs(x)) * decibel(level), style


def swept(rng, seconds, level):
    x = np.zeros(int(seconds * RATE))
    length = rng.uniform(1, seconds - 1)
    method = rng.choice(["logarithmic", "linear", "hyperbolic"])
    f0, f1 = rng.uniform(20, 80), rng.uniform(8e3, 20e3)
    if rng.random() < 0.3:
        f0, f1 = f1, f0
    at = rng.uniform(0.1, 0.8)
    while at + 0.3 < seconds:
        n = min(int(length * RATE), len(x) - int(at * RATE))
        x[int(at * RATE):int(at * RATE) + n] += scipy.signal.chirp(np.arange(n) / RATE, f0, length, f1, method=method)
        at += length + rng.uniform(0.2, 0.8)
    if rng.random() < 0.5:
        # through a pickup with its resonance
        b, a = scipy.signal.iirpeak(rng.uniform(2500, 6000), 2, fs=RATE)
        x = 0.2 * x + scipy.signal.lfilter(b, a, x)
    return x / np.max(np.abs(x)) * decibel(level), str(method)


def programme(rng, seconds, level):
    """Something as music has it: a beat, a bass and chords."""
    x = 0.6 * played(rng, seconds, 0, "chords")[0] + 0.4 * played(rng, seconds, 0, "riff")[0]
    beat = rng.uniform(0.3, 0.6)
    for k in range(int(seconds / beat)):
        start = int(k * beat * RATE)
        n = min(int(0.15 * RATE), len(x) - start)
        t = np.arange(n) / RATE
        x[start:start + n] += np.exp(-t / 0.04) * (np.sin(2 * np.pi * 60 * t) if k % 2 == 0 else rng.normal(0, 0.3, n))
    return x / np.max(np.abs(x)) * decibel(level)


class Source:
    """A way for the mains to get in, with a spectrum and phases of its own."""

    def __init__(self, rng, level, slope, even):
        k = np.arange(1, 81)
        a = decibel(-slope * np.log2(k) + rng.uniform(-3, 3, k.size))
        a[1::2] *= decibel(even)
        self.a, self.phase = a / np.sqrt(np.sum(a ** 2)) * decibel(level), rng.uniform(0, 2 * np.pi, k.size)

    def sound(self, mains, seconds, gain):
        turn = np.exp(2j * np.pi * mains * np.arange(int(seconds * RATE)) / RATE)
        # Horner's rule, from the highest harmonic down
        x = np.zeros(len(turn), complex)
        for a, p in zip(self.a[::-1], self.phase[::-1]):
            x = (x + a * np.exp(1j * p)) * turn
        return decibel(gain) * x.imag


SHAPE = {"unshielded": (2.5, -6), "string-ground-open": (2, -4), "magnetic": (12, -10), "downstream": (6, -9), "interface": (5, -6)}
# Level in each state over that with hands off [dB]; None: gone.
REACH = {"unshielded": {"on-strings": -17, "on-sleeve": -18, "volume-zero": None, "no-lead": None, "turned": -0.5},
         "string-ground-open": {"on-strings": 2.5, "on-sleeve": -19, "volume-zero": None, "no-lead": None, "turned": 0.3},
         "magnetic": {"on-strings": 0, "on-sleeve": 0, "volume-zero": None, "no-lead": None, "turned": -8},
         "downstream": {"on-strings": 0, "on-sleeve": 0, "volume-zero": 0, "no-lead": None, "turned": 0},
         "interface": {"on-strings": 0, "on-sleeve": 0, "volume-zero": 0, "no-lead": 0, "turned": 0}}


def mains(rng):
    return rng.choice([50, 60]) + rng.uniform(-0.08, 0.08)


def write(path, channels, bits):
    soundfile.write(path, np.stack(channels, axis=1), RATE, subtype=bits)


def nothing(rng, x, share):
    """Leaves nothing at all for a share of the time: at the ends, or inside."""
    n = int(share * len(x))
    where = rng.integers(4)
    if where == 3:
        pieces = rng.integers(2, 6)
        for p in range(pieces):
            at = int((p + rng.uniform(0.1, 0.4)) * len(x) / pieces)
            x[at:at + n // pieces] = 0
    else:
        at = {0: 0, 1: len(x) - n, 2: int(rng.uniform(0, 1) * (len(x) - n))}[int(where)]
        x[at:at + n] = 0
    return x


def foreign(rng, kind, path):
    """Writes one and says what is in it."""
    seconds = rng.uniform(7, 13)
    level = rng.uniform(-28, -4)
    floor = hiss(rng, seconds, rng.uniform(-98, -72))
    if rng.random() < 0.5:
        floor = floor + Source(rng, rng.uniform(-85, -62), *SHAPE[rng.choice(list(SHAPE))]).sound(mains(rng), seconds, 0)
    bits = rng.choice(["PCM_16", "PCM_24"])
    if kind == "played":
        x, what = played(rng, seconds, level)
        write(path, [x + floor], bits)
    elif kind == "sweep":
        x, what = swept(rng, seconds, level)
        write(path, [x + floor], bits)
    elif kind == "nothing":
        share = rng.uniform(0.25, 0.95)
        what = rng.choice(["played", "sweep", "hum for too short"])
        if what == "hum for too short":
            share = 1 - rng.uniform(0.3, 2.6) / seconds
            x = floor
            n = int(share * len(x))
            at = rng.integers(0, len(x) - n)
            keep = x[at:at + len(x) - n].copy()
            x = np.zeros(len(x))
            x[at:at + len(keep)] = keep
        else:
            x = nothing(rng, (played if what == "played" else swept)(rng, seconds, level)[0] + floor, share)
        write(path, [x], bits)
        what = f"{what}, nothing for {share:.0%}"
    elif kind == "other channel":
        here = rng.choice(["nothing", "hiss", "crosstalk"])
        music = programme(rng, seconds, level)
        x = {"nothing": 0 * music, "hiss": hiss(rng, seconds, rng.uniform(-105, -85)),
             "crosstalk": hiss(rng, seconds, -100) + decibel(rng.uniform(-90, -70)) * music}[str(here)]
        write(path, [x, music + floor], "PCM_24")
        what = f"music, {here} on the guitar's"
    elif kind == "hum above its band's hiss":
        # the hiss of a band of 100 Hz, about as wide as the ear's there, is 23 dB below all of it
        noise = rng.uniform(-75, -50)
        under = rng.uniform(-16, -3)
        hum = Source(rng, noise + under, *SHAPE["magnetic"]).sound(mains(rng), seconds, 0)
        write(path, [hiss(rng, seconds, noise) + hum], bits)
        what = f"hum {under:.0f} dB re all the hiss"
    return f"{kind}: {what}, {level:.0f} dB"


def visit(rng, folder):
    """A visit with one fault; hands off, and so many other states that it can be told."""
    cause = rng.choice(list(SHAPE))
    level = rng.uniform(-68, -45)
    floor = rng.uniform(-98, level - 22)
    source = Source(rng, level, *SHAPE[cause])
    f = mains(rng)
    states = ["hands-off", "on-strings", "on-sleeve", "volume-zero", "no-lead", "turned"]
    quiet = rng.random() < 0.12
    for s in states:
        seconds = rng.uniform(8, 12)
        gain = 0 if s == "hands-off" else REACH[cause][s]
        x = hiss(rng, seconds, floor)
        if gain is not None and not quiet:
            x = x + source.sound(f + rng.uniform(-0.003, 0.003), seconds, gain + rng.uniform(-0.4, 0.4))
        if rng.random() < 0.3:
            # a recorder that starts late and stops early writes nothing there
            x = np.concatenate([np.zeros(int(rng.uniform(0.2, 4) * RATE)), x, np.zeros(int(rng.uniform(0, 2) * RATE))])
        write(folder / f"{s}.wav", [x], "PCM_24")
    return ("quiet" if quiet else str(cause)), [(s, folder / f"{s}.wav") for s in states]


def check(command, files):
    arguments = [word for state, file in files for word in ("--" + state, str(file))]
    done = subprocess.run(command + ["hum", *arguments, "--json", "-"], capture_output=True, text=True)
    if done.returncode:
        return done.returncode, [], done.stderr.strip()
    result = json.JSONDecoder().raw_decode(done.stdout[done.stdout.index("{"):])[0]
    return 0, [(c["code"], c["strength"]) for c in result["causes"]], result["headline"] if "headline" in result else ""


KINDS = ["played", "played", "sweep", "nothing", "other channel", "hum above its band's hiss"]


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", type=pathlib.Path)
    parser.add_argument("seed", type=int)
    parser.add_argument("--foreign", type=int, default=200)
    parser.add_argument("--hum", type=int, default=60)
    parser.add_argument("--keep", action="store_true", help="keep recordings that went wrong")
    parser.add_argument("--command", nargs=argparse.REMAINDER, required=True)
    options = parser.parse_args()
    options.folder.mkdir(parents=True, exist_ok=True)
    wrong = 0
    for n in range(options.foreign):
        kind = KINDS[n % len(KINDS)]
        file = options.folder / f"foreign-{n}.wav"
        story = foreign(np.random.default_rng([options.seed, n]), kind, file)
        code, causes, text = check(options.command, [("hands-off", file)])
        if kind == "hum above its band's hiss":
            bad = code != 0 or any(c == ("quiet", "likely") for c in causes)
        else:
            bad = code != 1 or not ("no silence" in text or "holds" in text or "channel" in text)
        wrong += bad
        if bad:
            print(f"{n} {story}: exit code {code}, {causes} {text}", flush=True)
        if not (bad and options.keep):
            file.unlink()
    print(f"no silence: {options.foreign}, wrong {wrong}", flush=True)
    missed = 0
    for n in range(options.hum):
        folder = options.folder / f"visit-{n}"
        folder.mkdir(exist_ok=True)
        cause, files = visit(np.random.default_rng([options.seed, 1, n]), folder)
        code, causes, text = check(options.command, files)
        likely = [c for c, strength in causes if strength == "likely"]
        bad = code != 0 or likely != [cause]
        missed += bad
        if bad:
            print(f"visit {n} {cause}: exit code {code}, {causes} {text}", flush=True)
        if not (bad and options.keep):
            for _, file in files:
                file.unlink()
            folder.rmdir()
    print(f"hum: {options.hum}, verdict missed or wrong {missed}", flush=True)
    sys.exit(1 if wrong or missed else 0)


if __name__ == "__main__":
    main()
