#!/usr/bin/env python3
"""Jobs with one slip each, as people make them, and good ones: recordings in closed form (real_bench.py), nothing of the product.

usage: python3 slip_jobs.py OUT SEED [--kinds a,b,...] [--fixtures a,b,...] [--per N] [--good N]

Every job is a folder KIND-FIXTURE-NN with job.json, its captures and truth.json, which holds the kind of the slip, where it was made and how
large it is. A slip is either in what was done (the recordings) or in what was written (the job file); nothing else is wrong. How large slips are is common practice, no source.
`score_slips.py` runs a command on all jobs and counts which slips it names.
"""
import argparse
import copy
import json
import os
import re
import zlib
from dataclasses import replace

import numpy as np
import soundfile

import bench_recording as recording
import real_bench
from real_bench import Capture, good_coil, log_uniform, measured, new_bench, unequal_coils, covered_rod, one

TAKE = recording.Take(seconds=3.0, repeats=2, gap=0.6, before=0.7, after=0.5)
FIXTURES = ["series3", "jack", "exciter", "multiload", "bare"]


class Recorded:
    """What is done to a capture on its way to the file."""

    def __init__(self):
        self.gain = {}          # factor of the device channel, by capture
        self.rate = {}          # what the header says [Hz], by capture
        self.swapped = False


def no(b, job, done):
    return {"at": []}


def alike(job, a, c):
    return a["setup"] == c["setup"] and a.get("across", []) == c.get("across", [])


def files_exchanged(b, job, done):
    captures = job["captures"]
    pairs = [(i, j) for i in range(len(captures)) for j in range(i) if not alike(job, captures[i], captures[j])]
    if not pairs:
        return None
    i, j = pairs[b.rng.integers(len(pairs))]
    captures[i]["file"], captures[j]["file"] = captures[j]["file"], captures[i]["file"]
    return {"at": [captures[j]["id"], captures[i]["id"]]}


def recorded_capture(b, capture_id, **change):
    b.captures = [replace(c, **change) if c.id == capture_id else c for c in b.captures]


def part_not_stated(b, job, done):
    """A clip left on or not written down; a lead left plugged in."""
    rng = b.rng
    kinds = ["clip on"]
    clipped = [c for c in job["captures"] if c.get("across")]
    leads = [s for s in job["setups"] if "cable" in job["setups"][s]]
    bare = [s for s in job["setups"] if "cable" not in job["setups"][s]]
    if clipped:
        kinds += ["across forgotten"]
    if leads:
        kinds += ["lead forgotten"]
    if bare and "lead" in b.parts:
        kinds += ["lead left in"]
    kind = kinds[rng.integers(len(kinds))]
    if kind == "across forgotten":
        c = clipped[rng.integers(len(clipped))]
        part = c.pop("across")[0]
        return {"at": [c["id"]], "what": kind, "part": part}
    if kind == "lead forgotten":
        s = leads[rng.integers(len(leads))]
        job["setups"][s].pop("cable")
        return {"at": [s], "what": kind}
    if kind == "lead left in":
        s = bare[0]
        b.setups[s].guitar = replace(b.setups[s].guitar, cable=b.value("lead"))
        return {"at": [s], "what": kind}
    free = [c for c in b.captures if not c.across]
    c = free[rng.integers(len(free))]
    capacitors = [n for n, (said, _) in b.parts.items() if said["kind"] == "capacitor" and n != "tone cap"]
    if capacitors:
        part = capacitors[rng.integers(len(capacitors))]
    else:
        part = "unknown clip"
        b.parts[part] = ({"kind": "capacitor", "value": "1n"}, float(rng.choice([470e-12, 1e-9, 2.2e-9])) * (1 + rng.normal(0, 0.02)))
    recorded_capture(b, c.id, across=(part,))
    return {"at": [c.id], "what": kind, "part": part}


def part_not_there(b, job, done):
    rng = b.rng
    clipped = [c for c in b.captures if c.across]
    leads = [s for s in job["setups"] if "cable" in job["setups"][s]]
    if clipped and (not leads or rng.random() < 0.5):
        c = clipped[rng.integers(len(clipped))]
        recorded_capture(b, c.id, across=())
        return {"at": [c.id], "what": "clip not on"}
    if not leads:
        return None
    s = leads[rng.integers(len(leads))]
    b.setups[s].guitar = replace(b.setups[s].guitar, cable=0.0)
    return {"at": [s], "what": "lead not there"}


def away(rng, low=1.5, high=3.0):
    return log_uniform(rng, low, high) ** rng.choice([-1.0, 1.0])


def other_lead(b, job, done):
    leads = [s for s in job["setups"] if "cable" in job["setups"][s]]
    if len(leads) < 2:
        return None
    s = leads[b.rng.integers(len(leads))]
    factor = away(b.rng)
    b.setups[s].guitar = replace(b.setups[s].guitar, cable=b.setups[s].guitar.cable * factor)
    return {"at": [s], "factor": factor}


def lead(b, job, done):
    if "lead" not in b.parts:
        return None
    factor = away(b.rng)
    for s in b.setups.values():
        s.guitar = replace(s.guitar, cable=s.guitar.cable * factor)
    return {"at": ["lead"], "factor": factor}


PREFIXES = "pnumkMG"


def other_prefixes(text):
    """The same text with a neighbouring prefix letter, or none."""
    m = re.match(r"([0-9.]+)([pnukM]?)(.*)$", text)
    number, prefix, rest = m.groups()
    found = []
    if prefix:
        i = PREFIXES.index(prefix)
        near = {"p": "n", "n": "pu", "u": "n", "k": "M", "M": "k"}[prefix]
        found += [number + p + rest for p in near]
        if prefix == "k":
            found.append(number + rest)
    return found


# What a value of each kind may be before the reader itself refuses it.
PLAUSIBLE = {"pot": (2e3, 100e6), "resistor": (1e-3, 1e11), "series resistor": (1, 1e9), "pickup": (1e-2, 1e7), "dc": (1e-2, 1e8), "input resistance": (10, 1e12),
             "capacitor": (1e-14, 1e-2), "tone": (1e-14, 1e-6), "cable": (20e-12, 5e-9), "input capacitance": (1e-14, 1e-5)}
FACTOR = {"p": 1e-12, "n": 1e-9, "u": 1e-6, "m": 1e-3, "": 1.0, "k": 1e3, "M": 1e6, "G": 1e9}


def amount(text):
    m = re.match(r"([0-9.]+)([pnumkMG]?)", text)
    return float(m[1]) * FACTOR[m[2]]


def prefix(b, job, done):
    places = []
    for name, part in job["parts"].items():
        key = {"pickup": "resistance", "cable": "capacitance"}.get(part["kind"], "value")
        if key in part:
            kind = "tone" if name == "tone cap" else part["kind"]
            places.append((name, part, key, kind))
    fixture = job["fixture"]
    if "seriesResistance" in fixture:
        places.append(("seriesResistance", fixture, "seriesResistance", "series resistor"))
    for key in ("resistance", "capacitance"):
        places.append(("input." + key, fixture["input"], key, "input " + key))
    for name, s in job["setups"].items():
        if "dcResistance" in s:
            places.append((name + ".dcResistance", s, "dcResistance", "dc"))
    options = []
    for name, where, key, kind in places:
        low, high = PLAUSIBLE[kind]
        options += [(name, where, key, text) for text in other_prefixes(where[key]) if low <= amount(text) <= high]
    by_place = sorted({o[0] for o in options})
    place = by_place[b.rng.integers(len(by_place))]
    mine = [o for o in options if o[0] == place]
    name, where, key, text = mine[b.rng.integers(len(mine))]
    was = where[key]
    where[key] = text
    return {"at": [name], "was": was, "is": text}


def with_volume(job):
    return [s for s in job["setups"] if "volume" in job["setups"][s]]


def volume_not_full(b, job, done):
    setups = with_volume(job)
    if not setups:
        return None
    s = setups[b.rng.integers(len(setups))]
    wiper = b.rng.uniform(0.3, 0.95)
    b.setups[s].guitar = replace(b.setups[s].guitar, wiper=wiper)
    return {"at": [s], "wiper": wiper}


def tone_not_full(b, job, done):
    setups = with_volume(job)
    if not setups:
        return None
    s = setups[b.rng.integers(len(setups))]
    share = b.rng.uniform(0.02, 0.6)
    b.setups[s].guitar = replace(b.setups[s].guitar, tone=b.setups[s].guitar.tone * share)
    return {"at": [s], "share": share}


def gain_changed(b, job, done):
    if len(b.captures) < 2:
        return None
    captures = [c.id for c in b.captures]
    if not b.series and not b.coil_fixed:
        # The exciter's gain is free from setup to setup.
        captures = [c.id for c in b.captures if sum(d.setup == c.setup for d in b.captures) > 1]
        if not captures:
            return None
    c = captures[b.rng.integers(len(captures))]
    decibel = b.rng.uniform(1, 8) * b.rng.choice([-1, 1])
    done.gain[c] = 10 ** (decibel / 20)
    return {"at": [c], "dB": decibel}


def channels_swapped(b, job, done):
    done.swapped = True
    return {"at": []}


def wrong_rate(b, job, done):
    captures = [c.id for c in b.captures]
    rate = int(b.rng.choice([44100, 96000, 88200, 32000]))
    some = captures if b.rng.random() < 0.4 else [captures[b.rng.integers(len(captures))]]
    for c in some:
        done.rate[c] = rate
    return {"at": some, "rate": rate}


def wrong_fixture(b, job, done):
    fixture = job["fixture"]
    if fixture["kind"] == "series":
        fixture["kind"] = "exciter"
        del fixture["seriesResistance"]
    else:
        fixture["kind"] = "series"
        fixture["seriesResistance"] = "100k 0.1%"
        fixture.pop("coilFixed", None)
    return {"at": []}


def series_resistor(b, job, done):
    if not b.series:
        return None
    stated = amount(b.stated_resistor)
    other = [r for r in (10e3, 22e3, 33e3, 47e3, 68e3, 100e3, 220e3, 470e3) if max(r / stated, stated / r) > 1.3]
    if b.fixture == "bare":
        job["parts"][b.pickup_name]["resistance"] = b.reading(b.coil.resistance, 0.01)
    b.resistor = float(b.rng.choice(other)) * (1 + b.rng.normal(0, 0.0005))
    return {"at": ["seriesResistance"], "true": b.resistor}


def delay_unit(b, job, done):
    if not b.series:
        return None
    size = round(b.rng.uniform(0.3, 0.95) * b.rng.choice([-1, 1]), 2)
    b.delay = size * 1e-6 + b.rng.normal(0, 0.01e-6)
    unit = ["ms", "ns"][b.rng.integers(2)]
    job["fixture"]["channels"]["delay"] = f"{size}{unit} 0.02us"
    return {"at": ["channels.delay"], "is": f"{size}{unit}"}


SLIPS = {"files-exchanged": files_exchanged, "part-not-stated": part_not_stated, "part-not-there": part_not_there, "other-lead": other_lead, "lead": lead, "prefix": prefix,
         "volume-not-full": volume_not_full, "tone-not-full": tone_not_full, "gain-changed": gain_changed, "channels-swapped": channels_swapped, "wrong-rate": wrong_rate,
         "wrong-fixture": wrong_fixture, "series-resistor": series_resistor, "delay-unit": delay_unit}
# What such a job has too little in it to show.
BLIND = {("bare", "part-not-stated"), ("bare", "lead")}


def coil(rng):
    """Mostly coils of the textbook, some with a cover, some of two unequal halves."""
    x = rng.random()
    return good_coil(rng) if x < 0.75 else one(rng, covered_rod(rng)) if x < 0.9 else unequal_coils(rng)


def record(b, folder, done, files):
    rng, take = b.rng, TAKE
    w, size = recording.grid(take)
    one_sweep = take.sweep()[0] * np.sin(take.sweep()[1])
    played = take.played(one_sweep)
    # Nothing may clip, however the knob was turned.
    loudest = max([1.0] + list(done.gain.values()))
    for c in b.captures:
        amplitude = 10 ** (b.level / 20)
        reference, device = measured(b, c, w)
        device = device * done.gain.get(c.id, 1.0)
        if not b.series:
            device = device / loudest
        x = amplitude * recording.filtered(played, reference, size)
        y = amplitude * recording.filtered(played, device, size)
        x += rng.standard_normal(len(x)) * recording.level(b.floor)
        y += rng.standard_normal(len(y)) * recording.level(b.floor)
        both = np.stack([y, x] if done.swapped else [x, y], axis=1)
        peak = np.max(np.abs(both))
        assert peak < 0.99, f"{folder} clips: {peak}"
        soundfile.write(os.path.join(folder, files[c.id]), both, done.rate.get(c.id, recording.RATE), subtype="PCM_24")


def make(out, seed, kind, fixture, number):
    """A job with a slip; None where that fixture has nothing to slip with."""
    rng = np.random.default_rng([seed, zlib.crc32(kind.encode()), zlib.crc32(fixture.encode()), number])
    b = new_bench(rng, kind, fixture, coil(rng), TAKE, rng.standard_normal(5))
    job = copy.deepcopy(real_bench.job_file(b))
    files = {c["id"]: c["file"] for c in job["captures"]}
    done = Recorded()
    effect = SLIPS.get(kind, no)(b, job, done)
    if effect is None:
        return None
    b.gain = real_bench.exciter_gain(b)
    folder = os.path.join(out, f"{kind}-{fixture}-{number:02d}")
    os.makedirs(folder, exist_ok=True)
    record(b, folder, done, files)
    for name, content in (("job.json", job), ("truth.json", {"slip": kind if kind in SLIPS else "", "fixture": fixture, "effect": effect, "coil": repr(b.coil)})):
        with open(os.path.join(folder, name), "w") as file:
            json.dump(content, file, indent=1, default=float)
    return folder


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("out")
    parser.add_argument("seed", type=int)
    parser.add_argument("--kinds", help="of " + ", ".join(SLIPS))
    parser.add_argument("--fixtures", default=",".join(FIXTURES))
    parser.add_argument("--per", type=int, default=2, help="jobs of each kind and fixture")
    parser.add_argument("--good", type=int, default=2, help="good jobs of each fixture")
    options = parser.parse_args()
    kinds = options.kinds.split(",") if options.kinds else list(SLIPS)
    for fixture in options.fixtures.split(","):
        for kind in kinds + ["good"]:
            if (fixture, kind) in BLIND:
                continue
            for number in range(options.good if kind == "good" else options.per):
                folder = make(options.out, options.seed, kind, fixture, number)
                if folder:
                    print(folder, flush=True)


if __name__ == "__main__":
    main()
