#!/usr/bin/env python3
"""Jobs from a real bench, simulated: recordings with the effects that every bench has, one effect at a time or all together.

usage: python3 real_bench.py OUT SEED [--kinds a,b,...] [--per N] [--short] [--truth] [--list]

Every job is a folder KIND-NN-FIXTURE with job.json, its captures (48 kHz, 24 bit) and truth.json: the kind of effect and how
large it is, the true value of every estimate as the guide defines it, the half-width that an estimator would reach which knows the
true form (bench_bound.py), and the true difference curve. Where a value has no
single truth (an inductance that grows with level) `bounds` says between what it lies; what no fit can know stands in
`unknowable`. Of a coil that is warmer on the second visit the truth of `pickup.resistance` is that of the first.

Everything is closed form (bench_circuit.py) and shares nothing with the product. Parts scatter about what is stated by the
tolerance that is stated or usual (normal, 95 %). `score_real_bench.py` runs a command on all jobs and holds it to the truth.
"""
import argparse
import json
import math
import os
import sys
import zlib
from dataclasses import dataclass, field, replace

import numpy as np
from scipy.optimize import brentq
from scipy.special import ndtri

import bench_bound
import bench_recording as recording
from bench_circuit import (RAYLEIGH_THIRD, Coil, Guitar, Input, Metal, Shelf, Winding, exciter_response, series_response, transfer)

SD95 = 1.96
USUAL = dict(pot=0.2, capacitor=0.1, cable=0.2, resistor=0.05)


def trade(value, digits=4):
    for prefix, unit in (("M", 1e6), ("k", 1e3), ("", 1.0), ("m", 1e-3), ("u", 1e-6), ("n", 1e-9), ("p", 1e-12)):
        if value >= unit * 0.9999999:
            return f"{float(f'{value / unit:.{digits}g}'):g}{prefix}"
    raise ValueError(value)


def log_uniform(rng, low, high):
    return float(np.exp(rng.uniform(np.log(low), np.log(high))))


@dataclass
class Setup:
    """What stands between one visit and the next."""
    guitar: Guitar
    job: dict                       # as the job file says it
    warm: float = 1.0               # resistance of the coil over that at the first visit
    shelf: Shelf = Shelf()
    gain: float = 1.0               # of the exciter against the first setup


@dataclass
class Capture:
    id: str
    setup: str
    across: tuple = ()              # names of parts
    decibel: float = 0.0            # level of the sweep against the job's


@dataclass
class Bench:
    """A job with all that is true of it. Effects change it."""
    rng: np.random.Generator
    kind: str
    fixture: str
    series: bool
    coil: Coil
    take: recording.Take
    parts: dict = field(default_factory=dict)          # name: (statement in the job, true value)
    setups: dict = field(default_factory=dict)
    captures: list = field(default_factory=list)
    input: Input = Input()
    reference_input: Input = Input()
    stated_input: dict = field(default_factory=dict)
    resistor: float = 100e3
    stated_resistor: str = "100k 0.1%"
    ratio: float = 1.0
    stated_ratio: str = ""
    coupling: dict = field(default_factory=dict)        # what the job says of the inputs' coupling
    delay: float = 0.0
    coil_fixed: bool = False
    stray: float = 0.0                                  # across the series resistor [F]
    leak: complex = 0.0                                 # reference into device channel; constant part
    leak_per_hz: float = 0.0                            # and what grows with frequency
    ripple: tuple = ()                                  # ((dB, period in Hz, phase) of the reference channel, of the device channel)
    noise: tuple = ()                                   # (dBFS, exponent)
    hum: float = None                                   # dBFS
    growth: float = 0.0                                 # of the inductance at the largest flux
    level: float = -13.0                                # reference channel [dBFS]
    floor: float = -106.0                               # white noise of the converter [dBFS]
    exciter_corner: float = 5000.0
    gain: float = 1.0                                   # of the exciter in the first setup
    pickup: dict = field(default_factory=dict)          # what the job says of the pickup
    pickup_name: str = "pickup"
    effect: dict = field(default_factory=dict)
    unknowable: list = field(default_factory=list)
    silence: tuple = (0.0, 0.0)                         # before and after what is played [s]
    extension: str = ".wav"

    def part(self, name, kind, value, tolerance=None, key="value"):
        """Adds a part that scatters about its marking."""
        spread = USUAL[kind] if tolerance is None else tolerance
        true = value * max(1 + self.rng.normal(0, spread / SD95), 0.3)
        text = trade(value) + (f" {100 * tolerance:g}%" if tolerance is not None else "")
        self.parts[name] = ({"kind": kind, key: text}, true)
        return true

    def reading(self, true, tolerance):
        """What a meter of this tolerance shows."""
        return f"{trade(true * (1 + self.rng.normal(0, tolerance / SD95)), 5)} {100 * tolerance:g}%"

    def value(self, name):
        return self.parts[name][1]


# --- coils ---------------------------------------------------------------------------------------------------------------
# Sizes: usual pickups have 1 to 10 H, 80 to 200 pF (H. E. W. Lemme, The Secrets of Electric Guitar Pickups, 2003); resistance
# by the root of the inductance and all shares and times of the metal: common practice, no source.

def winding(rng, inductance, metal, capacitance=None, loss=None):
    return Winding(L=inductance, R=3900 * inductance ** 0.5 * rng.uniform(0.85, 1.15), C=capacitance or rng.uniform(70e-12, 190e-12),
                   metal=metal, loss=rng.uniform(0, 0.015) if loss is None else loss)


def loss_resistor(rng):
    return Metal(turns=((1.0, log_uniform(rng, 2e-6, 8e-6)),))       # L parallel to a resistance is a fully coupled turn


def rod(rng):
    """Alnico rods or steel slugs."""
    if rng.random() < 0.5:
        return Metal(rods=((rng.uniform(0.08, 0.25), log_uniform(rng, 2e-5, 2e-4)),))
    return Metal(rods=((rng.uniform(0.25, 0.5), log_uniform(rng, 1e-4, 1e-3)),))


def split(rng):
    return Metal(turns=((rng.uniform(0.1, 0.35), log_uniform(rng, 6e-6, 6e-5)),))


def covered_rod(rng):
    """A cover (German silver, brass) or a copper-plated steel base plate beside solid cores."""
    plate = rng.random() < 0.4
    turn = (rng.uniform(0.08, 0.2), log_uniform(rng, 3e-5, 1.2e-4)) if plate else (rng.uniform(0.08, 0.3), log_uniform(rng, 6e-6, 4e-5))
    core = rod(rng)
    return Metal(rods=core.rods, turns=(turn,))


def cole_cole(rng):
    return Metal(cole=((rng.uniform(0.15, 0.45), log_uniform(rng, 3e-5, 6e-4), rng.uniform(0.6, 0.9)),))


def one(rng, metal, inductance=None, **more):
    return Coil((winding(rng, inductance or log_uniform(rng, 1.5, 7.0), metal, **more),))


def good_coil(rng):
    return one(rng, [loss_resistor, rod, split][rng.integers(3)](rng))


def unequal_coils(rng):
    """Two coils of a hum-cancelling pickup, slugs here and screws there, 3 to 20 % apart."""
    total = log_uniform(rng, 3, 8)
    apart = rng.uniform(0.03, 0.2) * rng.choice([-1, 1])
    coupling = rng.uniform(0.03, 0.2)
    half = total / 2 / (1 + coupling)
    a = winding(rng, half * (1 + apart / 2), rod(rng))
    b = winding(rng, half * (1 - apart / 2), rod(rng))
    return Coil((a, b), coupling, float(np.clip(rng.normal(0.5, 0.1 / SD95), 0.3, 0.7)))


# --- fixtures ------------------------------------------------------------------------------------------------------------

def even(seed, kind, number, count=5):
    """Normal deviates that spread evenly over the jobs of a kind, so that few jobs suffice to judge coverage: a Kronecker sequence on
    the powers of the root of x^(count+1) = x + 1 (M. Roberts, 2018, from memory), from a random start."""
    root = brentq(lambda x: x ** (count + 1) - x - 1, 1, 2)
    start = np.random.default_rng([seed, zlib.crc32(kind.encode())]).random(count)
    return ndtri((start + number * root ** -np.arange(1.0, count + 1)) % 1)


def new_bench(rng, kind, fixture, coil, take, deviates):
    series = fixture not in ("exciter",)
    if fixture == "multiload":
        series = bool(rng.random() < 0.6)
    b = Bench(rng, kind, fixture, series, coil, take)
    stated_r, stated_c = 1e6, rng.choice([80e-12, 60e-12, 120e-12])
    b.stated_input = {"resistance": "1M 1%", "capacitance": trade(stated_c) + " 3%"}
    resistor, ratio, delay, input_r, input_c = deviates / SD95
    b.input = Input(stated_r * (1 + 0.01 * input_r), stated_c * (1 + 0.03 * input_c))
    b.reference_input = Input(stated_r * (1 + rng.normal(0, 0.01 / SD95)), stated_c)
    nominal = float(f"{1 + rng.normal(0, 0.004):.4f}")
    b.stated_ratio = f"{nominal:.4f} 0.05%"
    b.ratio = nominal * (1 + 0.0005 * ratio)
    b.delay = 0.02e-6 * delay
    rs = 47e3 if kind == "plain-rod" else rng.choice([47e3, 100e3])
    b.stated_resistor = trade(rs) + " 0.1%"
    b.resistor = rs * (1 + 0.001 * resistor)
    b.level = rng.uniform(-20, -12)
    b.floor = rng.uniform(-110, -102)
    b.exciter_corner = log_uniform(rng, 3000, 9000)
    {"exciter": exciter_job, "jack": jack_job, "series3": series3_job, "bare": bare_job, "multiload": multiload_job}[fixture](b)
    return b


SWAPS = [(250e3, 500e3), (250e3, 1e6), (500e3, 250e3), (500e3, 1e6)]


def wired(b):
    """The setups before and after a swap of the volume pot."""
    rng = b.rng
    old, new = SWAPS[rng.integers(len(SWAPS))]
    volumes = b.part("old volume", "pot", old), b.part("new volume", "pot", new)
    tone = b.part("tone pot", "pot", rng.choice([250e3, 500e3]))
    cap = b.part("tone cap", "capacitor", rng.choice([22e-9, 47e-9, 10e-9]))
    lead = b.part("lead", "cable", float(f"{rng.uniform(300e-12, 800e-12):.2g}"), 0.1, key="capacitance")
    for name, pot, true in (("before", "old volume", volumes[0]), ("after", "new volume", volumes[1])):
        b.setups[name] = Setup(Guitar(volume=true, tone=tone, toneCapacitor=cap, cable=lead),
                               {"pickup": b.pickup_name, "volume": pot, "tone": "tone pot", "toneCapacitor": "tone cap", "cable": "lead"})


def wire_resistance(b, tolerance=0.01):
    b.pickup["resistance"] = b.reading(b.coil.resistance, tolerance)


def exciter_job(b):
    wired(b)
    wire_resistance(b)
    b.part("clip", "capacitor", 1e-9, 0.01)
    b.captures = [Capture("before", "before"), Capture("before clipped", "before", ("clip",)), Capture("after", "after")]
    b.coil_fixed = bool(b.rng.random() < 0.3)
    field_shelf(b)


def field_shelf(b):
    """The exciter's field passes the same metal as the string's with a slightly different share; the same in all setups."""
    rng = b.rng
    shelf = Shelf(rng.uniform(0.005, 0.04), log_uniform(rng, 4e-6, 4e-5))
    for k, s in enumerate(b.setups.values()):
        s.shelf = shelf
        s.gain = 1 + rng.normal(0, 0.001) if b.coil_fixed else (1.0 if k == 0 else log_uniform(rng, 0.8, 1.25))


def jack_job(b):
    wired(b)
    b.setups["before"].job["dcResistance"] = ohmmeter(b, "before", 0.01)
    b.captures = [Capture("before", "before"), Capture("after", "after")]


def ohmmeter(b, setup, tolerance):
    """What an ohmmeter shows."""
    return b.reading(across_jack(b, setup), tolerance)


def across_jack(b, setup):
    """Resistance at direct current, controls full up, nothing else plugged in."""
    s = b.setups[setup]
    g = s.guitar
    through = b.coil.resistance * s.warm + g.end + g.volume * (1 - g.wiper)
    return 1 / (1 / through + (1 / (g.volume * g.wiper) if g.volume else 0))


def series3_job(b):
    b.setups["bare"] = Setup(Guitar(), {"pickup": b.pickup_name})
    wired(b)
    b.captures = [Capture(s, s) for s in b.setups]


def bare_job(b):
    b.setups["bare"] = Setup(Guitar(), {"pickup": b.pickup_name})
    b.captures = [Capture("bare", "bare")]


def multiload_job(b):
    """A bare coil with known parts across it in turn."""
    b.setups["bare"] = Setup(Guitar(), {"pickup": b.pickup_name})
    b.part("470p", "capacitor", 470e-12, 0.01)
    b.part("1n", "capacitor", 1e-9, 0.01)
    b.part("100k", "resistor", 100e3, 0.01)
    b.captures = [Capture("alone", "bare"), Capture("470p", "bare", ("470p",)), Capture("1n", "bare", ("1n",)), Capture("100k", "bare", ("100k",))]
    if not b.series:
        wire_resistance(b)
        field_shelf(b)


# --- effects -------------------------------------------------------------------------------------------------------------

def sign(rng):
    return float(rng.choice([-1.0, 1.0]))


def coupling_ahead(b):
    """A coupling capacitor ahead of the input resistance. Audio interfaces state -0.1 to -1 dB at 20 Hz, corners of 3 to 10 Hz;
    electrolytic capacitors scatter by 20 %, so two channels differ (common practice, no source)."""
    corner, ratio = log_uniform(b.rng, 0.3, 20), 1 + b.rng.uniform(-0.1, 0.1)
    b.input, b.reference_input = replace(b.input, ahead=corner), replace(b.reference_input, ahead=corner / ratio)
    b.effect |= {"coupling ahead": corner, "corner ratio": ratio}


def coupling_behind(b):
    """Coupling between stages, behind the input's buffer: a first-order high-pass of each channel."""
    corner, ratio = log_uniform(b.rng, 0.3, 5), 1 + b.rng.uniform(-0.1, 0.1)
    b.input, b.reference_input = replace(b.input, behind=corner), replace(b.reference_input, behind=corner / ratio)
    b.effect |= {"coupling behind": corner, "corner ratio": ratio}


COPPER = 0.00393                # per kelvin at 20 C (IEC 60028)


def warm(b):
    """Copper between two visits."""
    change = sign(b.rng) * log_uniform(b.rng, 0.001, 0.02)
    list(b.setups.values())[-1].warm = 1 + change
    b.effect |= {"warm": change}


def warm_stated(b):
    """The same, with the temperatures that a thermometer in the room showed; the coil is within half a kelvin of them."""
    first, last = b.rng.uniform(18, 24), list(b.setups)[-1]
    second = first + sign(b.rng) * b.rng.uniform(0.5, 5)
    for name, s in b.setups.items():
        s.job["temperature"] = f"{second if name == last else first:.1f} C"
    change = COPPER * (second - first + b.rng.normal(0, 0.5 / SD95)) / (1 + COPPER * (first - 20))
    b.setups[last].warm = 1 + change
    b.effect |= {"warm": change, "temperatures": [first, second]}


def coupling_stated(b):
    """A coupling that a calibration has found."""
    (coupling_ahead if b.rng.random() < 0.5 else coupling_behind)(b)
    corner = b.input.ahead or b.input.behind
    ratio = corner / (b.reference_input.ahead or b.reference_input.behind)
    b.coupling = {"coupling": trade(corner * (1 + b.rng.normal(0, 0.1 / SD95))) + "Hz 10%",
                  "couplingRatio": f"{ratio * (1 + b.rng.normal(0, 0.02 / SD95)):.4f} 2%"}


def moved(b):
    """The exciter lay elsewhere after the guitar was opened: another gain and another share of its field in the metal."""
    rng = b.rng
    share, tau, form = log_uniform(rng, 0.02, 0.2), log_uniform(rng, 4e-6, 6e-5), bool(rng.random() < 0.5)
    change = sign(rng) * log_uniform(rng, 0.05, 0.5)
    b.coil_fixed = False
    for k, s in enumerate(b.setups.values()):
        s.shelf = Shelf(share * (1 + change if k else 1), tau, form)
        s.gain = log_uniform(rng, 0.7, 1.4) if k else 1.0
    b.effect |= {"shelf share": share, "shelf tau": tau, "cylinder": form, "change": change}


def pink(b):
    """Flicker noise of an input stage, with the level turned up for a weak exciter."""
    b.noise = (b.rng.uniform(-92, -80), b.rng.uniform(0.8, 1.2))
    b.effect |= {"pink dBFS": b.noise[0], "exponent": b.noise[1]}


def pink_hum(b):
    pink(b)
    b.hum = b.rng.uniform(-53, -48)
    b.effect |= {"hum dBFS": b.hum}


def steel(b):
    """Steel near the exciter takes more of its field than of the string's."""
    rng = b.rng
    shelf = Shelf(rng.uniform(0.08, 0.2), log_uniform(rng, 2e-5, 3e-4), bool(rng.random() < 0.7))
    for s in b.setups.values():
        s.shelf = shelf
    b.effect |= {"shelf share": shelf.share, "shelf tau": shelf.tau, "cylinder": shelf.cylinder}


def bleed(b):
    """A treble bleed across the new volume pot, stated; sometimes a third sweep with the volume turned down."""
    rng = b.rng
    cap = b.part("bleed cap", "capacitor", rng.choice([680e-12, 1e-9, 1.2e-9]))
    res = b.part("bleed resistor", "resistor", rng.choice([100e3, 150e3, 220e3]), 0.05)
    s = b.setups["after"]
    s.guitar = replace(s.guitar, bleedCapacitor=cap, bleedResistor=res)
    s.job |= {"bleedCapacitor": "bleed cap", "bleedResistor": "bleed resistor"}
    if rng.random() < 0.4:
        rotation = float(f"{rng.uniform(0.3, 0.7):.2f}")
        turned = replace(s.guitar, wiper=rotation + rng.normal(0, 0.05 / SD95))
        b.setups["down"] = Setup(turned, {"extends": "after", "volume": {"part": "new volume", "rotation": rotation}}, shelf=s.shelf, gain=s.gain)
        b.captures.append(Capture("down", "down"))
    b.effect |= {"turned down": "down" in b.setups}


def extends(b):
    """An ohmmeter's reading of the first setup, and a second that is said to be like it but for the pot."""
    b.setups["before"].job["dcResistance"] = ohmmeter(b, "before", float(b.rng.choice([0.003, 0.005, 0.01])))
    b.setups["after"].job = {"extends": "before", "volume": "new volume"}


def meters(b):
    """True readings: of the coil before it went in, and across the jack in each setup."""
    tolerance = float(b.rng.choice([0.003, 0.005, 0.01]))
    if "bare" in b.setups or not b.series:
        wire_resistance(b, tolerance)
    for name, s in b.setups.items():
        if s.guitar.volume:
            s.job["dcResistance"] = ohmmeter(b, name, tolerance)
    b.effect |= {"reading": tolerance}


def leak_resistive(b):
    """Crosstalk between the inputs, -60 to -80 dB (data sheets of plain interfaces state -80 dB and less at 1 kHz)."""
    decibel = b.rng.uniform(-80, -60)
    b.leak = sign(b.rng) * 10 ** (decibel / 20)
    b.effect |= {"leak dB": decibel * 1.0, "leak": b.leak}


def leak_capacitive(b):
    """Crosstalk that grows with frequency; the size is that at 1 kHz or at 10 kHz."""
    decibel, at = b.rng.uniform(-80, -60), float(b.rng.choice([1000.0, 10000.0]))
    if at == 1000.0:
        decibel = min(decibel, -70.0)
    b.leak_per_hz = 10 ** (decibel / 20) / at
    b.effect |= {"leak dB": decibel, "at Hz": at}


def ripple(b):
    """Passband ripple of the converters' decimation filters (data sheets: 0.01 to 0.05 dB), 5 % larger or smaller in one channel.
    Both channels of a converter run on one clock through the same digital filter, so the ripples of both stand at the same
    frequencies; what differs comes from the analogue side (common practice, no source)."""
    rng = b.rng
    period, phase = log_uniform(rng, 800, 4000), rng.uniform(0, 2 * np.pi)
    size = rng.uniform(0.01, 0.02)
    b.ripple = ((size, period, phase), (size * (1 + 0.05 * sign(rng)), period, phase))
    b.effect |= {"ripple dB": size, "period": period}


def ripple_apart(b):
    """The same of two converters whose filters differ: the ripples of the channels stand 5 % apart in frequency as well."""
    ripple(b)
    size, period, phase = b.ripple[1]
    b.ripple = (b.ripple[0], (size, period * (1 + 0.05 * sign(b.rng)), phase))


def stray(b):
    """The series resistor's own capacitance: 0.2 to 0.5 pF for a leaded metal film resistor (common practice, no source)."""
    if b.series:
        b.stray = b.rng.uniform(0.2e-12, 0.5e-12)
        b.effect |= {"stray": b.stray}


def pot_ends(b):
    """A track's end that the wiper does not reach; up to 1 % of the track (IEC 60393-1 has it as a property, size from memory)."""
    for name in ("before", "after"):
        s = b.setups[name]
        s.guitar = replace(s.guitar, end=b.rng.uniform(50, 200))
    b.effect |= {name: b.setups[name].guitar.end for name in ("before", "after")}


def grows(b):
    """Inductance that grows with level; half of the bare coils are swept at two levels."""
    b.growth = log_uniform(b.rng, 0.005, 0.02)
    if b.fixture == "bare" and b.rng.random() < 0.5:
        b.captures.append(Capture("bare, quiet", "bare", decibel=-12.0))
    b.effect |= {"growth": b.growth, "two levels": len(b.captures) == 2 and b.fixture == "bare"}


def not_full(b):
    """A slip of the hand: the volume stands at 98 % of its travel in one setup. A linear track, or an audio track, of which
    2 % of travel may be 2 to 6 % (common practice, no source)."""
    name = b.rng.choice(["before", "after"])
    s = b.setups[name]
    s.guitar = replace(s.guitar, wiper=float(b.rng.choice([0.98, b.rng.uniform(0.94, 0.98)])))
    b.effect |= {"setup": str(name), "wiper": s.guitar.wiper}


def from_1k(b):
    b.take = replace(b.take, start=1000.0)


def long_take(b):
    """Minutes of silence with the sweeps somewhere in it; one job in four nearly an hour."""
    minutes = log_uniform(b.rng, 5, 15) if b.rng.random() < 0.75 else b.rng.uniform(40, 60)
    first = b.rng.uniform(0, 60 * minutes)
    b.silence = (first, 60 * minutes - first)
    b.extension = ".flac"
    b.effect |= {"minutes": minutes}


def everything(b):
    """All that a real bench has at once."""
    rng = b.rng
    (coupling_ahead if rng.random() < 0.5 else coupling_behind)(b)
    warm(b)
    pink(b)
    if rng.random() < 0.5:
        b.hum = rng.uniform(-60, -50)
    (leak_resistive if rng.random() < 0.5 else leak_capacitive)(b)
    ripple(b)
    stray(b)
    pot_ends(b)
    if b.series:
        b.noise = (min(b.noise[0], -86.0), b.noise[1])
    else:
        moved(b)
    extends(b)
    b.effect |= {"noise": b.noise, "hum": b.hum, "ends": [s.guitar.end for s in b.setups.values()]}


COILS = {"cover": covered_rod, "cole-cole": cole_cole, "meter": covered_rod}
ALL = ["exciter", "series3", "jack", "bare", "multiload"]
KINDS = {
    # kind: (fixtures, coil, effects)
    "clean": (ALL, good_coil, []),
    "plain-rod": (["bare"], lambda r: one(r, Metal(rods=((0.175, 1.2e-4),)), log_uniform(r, 2, 5), loss=0.0), []),
    "coupling-ahead": (ALL, good_coil, [coupling_ahead]),
    "coupling-behind": (ALL, good_coil, [coupling_behind]),
    "warm": (["exciter", "series3", "jack"], good_coil, [warm]),
    "moved": (["exciter"], good_coil, [moved]),
    "pink": (["exciter"], good_coil, [pink]),
    "pink-hum": (["exciter"], good_coil, [pink_hum]),
    "cover": (["exciter", "series3", "jack", "bare"], lambda r: one(r, covered_rod(r)), []),
    "cole-cole": (["exciter", "series3", "jack", "bare"], lambda r: one(r, cole_cole(r)), []),
    "dielectric": (["exciter", "series3", "jack", "bare"], lambda r: one(r, rod(r), loss=r.uniform(0.02, 0.06)), []),
    "two-coils": (["exciter", "series3", "jack", "bare"], unequal_coils, []),
    "steel": (["exciter"], good_coil, [steel]),
    "bleed": (["exciter", "jack"], good_coil, [bleed]),
    "extends": (["exciter", "jack"], good_coil, [extends]),
    "meter": (["exciter", "jack", "series3", "bare"], lambda r: one(r, covered_rod(r)), [meters]),
    "leak-resistive": (["jack", "series3", "exciter", "multiload"], good_coil, [leak_resistive]),
    "leak-capacitive": (["jack", "series3", "exciter", "multiload"], good_coil, [leak_capacitive]),
    "ripple": (ALL, good_coil, [ripple]),
    "ripple-apart": (["exciter", "series3", "jack"], good_coil, [ripple_apart]),
    "stray": (["series3", "jack", "bare"], good_coil, [stray]),
    "pot-ends": (["exciter", "series3", "jack"], good_coil, [pot_ends]),
    "level": (["bare", "series3", "exciter"], good_coil, [grows]),
    "small": (ALL, lambda r: one(r, [loss_resistor, rod, split][r.integers(3)](r), log_uniform(r, 0.3, 0.6), capacitance=r.uniform(120e-12, 320e-12)), []),
    "large": (ALL, lambda r: one(r, [loss_resistor, rod, split][r.integers(3)](r), log_uniform(r, 9, 20)), []),
    "volume-98": (["exciter", "jack", "series3"], good_coil, [not_full]),
    "from-1k": (["exciter", "jack", "bare"], good_coil, [from_1k]),
    "long": (["jack", "bare", "exciter"], good_coil, [long_take]),
    "many-coils": (["many"], None, []),
    "coupling-stated": (["series3", "jack", "bare", "exciter"], good_coil, [coupling_stated]),
    "warm-stated": (["exciter", "series3", "jack"], good_coil, [warm_stated]),
    "all": (["exciter", "series3", "jack"], lambda r: one(r, [covered_rod, cole_cole, rod][r.integers(3)](r), loss=r.uniform(0, 0.04)), [everything]),
}
# Made when named: large files, and keys of the job file that not every version has.
ON_REQUEST = ("ripple-apart", "long", "many-coils", "coupling-stated", "warm-stated")


# --- truth ---------------------------------------------------------------------------------------------------------------

def outside(b, setup, w):
    """Rows of a setup without a cable are unloaded; others include the recorder's input."""
    return b.input.admittance(w) if b.setups[setup].guitar.cable else np.zeros(len(w), complex)


def decibels(b, setup, hz, growth=0.0):
    w = 2 * np.pi * np.atleast_1d(np.asarray(hz, float))
    s = b.setups[setup]
    return 20 * np.log10(np.abs(transfer(b.coil, s.guitar, w, outside(b, setup, w), s.warm, growth)))


def curve_rows(b, setup, growth):
    """Resonance, peak, Q, cutoff of a setup; empty without a peak."""
    hz = np.geomspace(50, 24000, 500)
    db = decibels(b, setup, hz, growth)
    ground = decibels(b, setup, 20.0, growth)[0]
    k = int(np.argmax(db))
    rows = {}
    if 0 < k < len(hz) - 1 and db[k] - ground > 0.05:

        def slope(x, step=3e-4):
            low, high = decibels(b, setup, np.exp([x - step, x + step]), growth)
            return high - low
        top = math.exp(brentq(slope, math.log(hz[k - 1]), math.log(hz[k + 1]), xtol=1e-13))
        peak = decibels(b, setup, top, growth)[0] - ground
        rows = {"resonance": top, "resonancePeak": peak}
        h = 10 ** (peak / 10)
        rows["qualityFactor"] = math.sqrt((h + math.sqrt(h * h - h)) / 2)     # h = Q^2 / (1 - 1 / 4 Q^2)
    below = np.flatnonzero(db[k:] < ground - 3)
    if len(below):
        j = k + below[0]
        rows["cutoff"] = math.exp(brentq(lambda x: decibels(b, setup, math.exp(x), growth)[0] - ground + 3, math.log(hz[j - 1]), math.log(hz[j])))
    return {f"{setup}.{key}": v for key, v in rows.items()}


def estimates(b, growth):
    name = b.pickup_name
    rows = {f"{name}.inductance": b.coil.inductance * (1 + growth), f"{name}.resistance": b.coil.resistance}
    at = {}
    for setup, s in b.setups.items():
        rows |= curve_rows(b, setup, growth)
        at[setup] = 2 * np.pi * np.array([rows.get(f"{setup}.resonance", 3000.0)])
        w = at[setup]
        if s.guitar.cable:
            rows[f"{setup}.loadResistance"] = 1 / s.guitar.load(w, outside(b, setup, w))[0].real[0]
            if len(b.coil.windings) == 1:
                rows[f"{setup}.totalCapacitance"] = b.coil.capacitance(w[0]) + s.guitar.cable + b.input.C
        elif len(b.coil.windings) == 1:
            rows[f"{setup}.totalCapacitance"] = b.coil.capacitance(w[0])
        if b.series:
            for f in (100.0, 1000.0):
                v = 2 * np.pi * np.array([f])
                z = 1 / s.guitar.source(v, b.coil.seen(v, s.warm, growth)[0], outside(b, setup, v))
                rows[f"{setup}.seriesInductance.{f:.0f}Hz"] = float((z.imag / v)[0])
                rows[f"{setup}.seriesResistance.{f:.0f}Hz"] = float(z.real[0])
    if len(b.coil.windings) == 1:
        rows[f"{name}.capacitance"] = b.coil.capacitance(next(iter(at.values()))[0])
    if set(b.setups) == {"before", "after"}:
        w = at["before"]
        y = [s.guitar.load(w, b.input.admittance(w))[0].real[0] for s in b.setups.values()]
        rows["change.loadConductance"] = y[1] - y[0]
    return rows


def rows_of(b):
    return estimates(b, 0.0) | {f"{name}.value": true for name, (_, true) in b.parts.items()}


def readings(b):
    """Logarithms of what the meters should show, and their standard deviations."""
    said = [(across_jack(b, n), s.job["dcResistance"]) for n, s in b.setups.items() if "dcResistance" in s.job]
    if "resistance" in b.pickup:
        said.append((b.coil.resistance, b.pickup["resistance"]))
    return [math.log(true) for true, _ in said], [bench_bound.stated(text) / SD95 for _, text in said]


def truth(b):
    rows = estimates(b, 0.0)
    bounds = {}
    if b.growth:
        loud = estimates(b, b.growth)
        bounds = {k: sorted((rows[k], loud[k])) for k in rows if k in loud and loud[k] != rows[k]}
    rows |= {f"{name}.value": true for name, (_, true) in b.parts.items()}
    result = {"kind": b.kind, "fixture": b.fixture + ("" if b.series or b.fixture == "exciter" else " exciter"), "effect": b.effect,
              "estimates": rows, "bounds": bounds, "unknowable": b.unknowable, "coil": repr(b.coil)}
    if not b.growth:
        result["halfWidths"] = bench_bound.half_widths(b, measured, rows_of, readings, USUAL)
    if set(b.setups) == {"before", "after"}:
        hz = np.geomspace(50, 15000, 61)
        w = 2 * np.pi * hz

        def curve(name, warm):
            return 20 * np.log10(np.abs(transfer(b.coil, b.setups[name].guitar, w, b.input.admittance(w), warm)))
        # What the load does, not the weather: the coil as it was before. What both do is as good an answer.
        load = curve("after", b.setups["before"].warm) - curve("before", b.setups["before"].warm)
        both = curve("after", b.setups["after"].warm) - curve("before", b.setups["before"].warm)
        result["difference"] = {"from": "before", "to": "after", "hz": hz.tolist(), "dB": load.tolist(), "with the weather": both.tolist()}
    return result


# --- captures ------------------------------------------------------------------------------------------------------------

def hanging(b, capture, w):
    """What hangs at the jack besides the guitar's own lead."""
    y = b.input.admittance(w)
    for name in capture.across:
        said, true = b.parts[name]
        y = y + (1j * w * true if said["kind"] == "capacitor" else 1 / true)
    return y


def analog(b, capture, w, gain, growth=0.0):
    """Voltage at the device's socket over the reference's."""
    s = b.setups[capture.setup]
    y = hanging(b, capture, w)
    if b.series:
        return series_response(b.coil, s.guitar, w, y, b.resistor, b.stray, s.warm, growth)
    return exciter_response(b.coil, s.guitar, w, y, s.shelf, gain * s.gain, s.warm, growth)


def exciter_gain(b):
    """So that the device channel peaks a little below full scale."""
    if b.series:
        return 1.0
    w = 2 * np.pi * np.geomspace(20, 20000, 400)
    top = max(np.max(np.abs(analog(b, c, w, 1.0) / (1 + 1j * w / 2 / np.pi / b.exciter_corner))) for c in b.captures)
    return 10 ** (b.rng.uniform(-24, -11) / 20) / (top * 10 ** (b.level / 20))


def flux(b, capture, w, gain, growth):
    """Flux in the winding per volt of the reference [arbitrary], one winding and no resistance between coil and jack."""
    s = b.setups[capture.setup]
    (c,) = b.coil.windings
    v = analog(b, capture, w, gain, growth)
    emf = 0 if b.series else v / transfer(b.coil, s.guitar, w, hanging(b, capture, w), s.warm, growth)
    branch = c.branch(w, s.warm, growth)
    return (v + c.R * s.warm * (emf - v) / branch) / (1j * w)


class Growth:
    """How the inductance stands at each frequency of each sweep: with the flux there, found by iteration."""

    def __init__(self, b, gain):
        self.w = 2 * np.pi * np.geomspace(1, 24000, 2500)
        drive = 1.0 if b.series else 1 / np.abs(1 + 1j * self.w / 2 / np.pi / b.exciter_corner)
        self.of = {c.id: np.zeros(len(self.w)) for c in b.captures}
        for _ in range(12):
            fluxes = {c.id: np.abs(flux(b, c, self.w, gain, self.of[c.id])) * drive * 10 ** (c.decibel / 20) for c in b.captures}
            heard = self.w > 2 * np.pi * 20
            top = max(np.max(f[heard]) for f in fluxes.values())
            self.of = {i: b.growth * np.minimum(f / top, 1.0) for i, f in fluxes.items()}

    def at(self, capture, w):
        return np.interp(np.log(w), np.log(self.w), self.of[capture.id])


def third_harmonic(b, capture, growth, gain, take, amplitude):
    """Device voltage of the third harmonic that the core makes, sample by sample through the sweep."""
    one, phase, hz = take.sweep()
    use = 3 * hz < 23000
    coarse = 2 * np.pi * np.geomspace(hz[0], min(hz[-1], 7700), 800)
    g = growth.at(capture, coarse)
    f = flux(b, capture, coarse, gain, g)
    drive = 1.0 if b.series else 1 / (1 + 1j * coarse / 2 / np.pi / b.exciter_corner)
    # The flux lacks (4 / 15 pi) g sin(3 theta) of itself; the voltage of that acts in the winding.
    f = f * drive
    emf = -3 * coarse * np.abs(f) * RAYLEIGH_THIRD * g * np.exp(3j * np.angle(f))
    s = b.setups[capture.setup]
    y = hanging(b, capture, 3 * coarse)
    if b.series:
        y = y + 1 / b.resistor
    out = emf * transfer(b.coil, s.guitar, 3 * coarse, y, s.warm)
    lw = np.log(coarse)
    at = np.log(2 * np.pi * hz[use])
    size, angle = np.interp(at, lw, np.abs(out)), np.interp(at, lw, np.unwrap(np.angle(out)))
    y3 = np.zeros(len(one))
    y3[use] = amplitude * size * np.cos(3 * (phase[use] - np.pi / 2) + angle) * np.abs(np.sign(one[use]))
    y3 *= np.minimum(1, np.minimum(np.arange(len(one)), np.arange(len(one))[::-1]) / (recording.FADE * recording.RATE))
    return take.played(y3)


def ripples(w, ripple):
    size, period, phase = ripple
    return 10 ** (size / 20 * np.cos(w / period + phase))


def measured(b, c, w, growth=0.0):
    """What the reference and the device channel record, over what is played, without noise."""
    source = np.ones(len(w)) if b.series else 1 / (1 + 1j * w / 2 / np.pi / b.exciter_corner)
    h = analog(b, c, w, b.gain, growth)
    reference = source * b.reference_input.reads(w)
    device = source * h * b.input.reads(w) + (b.leak + 1j * w / 2 / np.pi * b.leak_per_hz) * reference
    device = device * b.ratio * np.exp(-1j * w * b.delay)
    if b.ripple:
        reference, device = reference * ripples(w, b.ripple[0]), device * ripples(w, b.ripple[1])
    return reference, device


def record(b, folder):
    rng, take = b.rng, b.take
    w, size = recording.grid(take)
    growth = Growth(b, b.gain) if b.growth else None
    one = take.sweep()[0] * np.sin(take.sweep()[1])
    played = take.played(one)
    for c in b.captures:
        amplitude = 10 ** ((b.level + c.decibel) / 20)
        reference, device = measured(b, c, w, growth.at(c, w) if growth else 0.0)
        x = amplitude * recording.filtered(played, reference, size)
        y = amplitude * recording.filtered(played, device, size)
        if growth:
            y += third_harmonic(b, c, growth, b.gain, take, amplitude)
        n = len(x)
        x += rng.standard_normal(n) * recording.level(b.floor)
        y += rng.standard_normal(n) * recording.level(b.floor)
        if b.noise:
            y += recording.pink(rng, n, *b.noise)
            x += recording.pink(rng, n, b.noise[0] - 15, b.noise[1])
        if b.hum is not None:
            y += recording.hum(rng, n, b.hum)
            x += recording.hum(rng, n, b.hum - 35)
        recording.write(os.path.join(folder, file_of(b, c)), x, y, rng, b.silence, b.floor)


def file_of(b, capture):
    return f"{b.pickup_name + ' ' if b.pickup_name != 'pickup' else ''}{capture.id}".replace(" ", "-").replace(",", "") + b.extension


# --- jobs ----------------------------------------------------------------------------------------------------------------

def job_file(b):
    fixture = {"kind": "series" if b.series else "exciter", "referenceChannel": 1, "deviceChannel": 2, "input": b.stated_input}
    if b.series:
        fixture |= {"seriesResistance": b.stated_resistor, "channels": {"ratio": b.stated_ratio, "delay": "0 0.02us"} | b.coupling}
    else:
        fixture["coilFixed"] = b.coil_fixed
        if b.coupling:
            fixture["channels"] = {"ratio": b.stated_ratio} | b.coupling
    captures = [{"id": c.id, "file": file_of(b, c), "setup": c.setup} | ({"across": list(c.across)} if c.across else {}) for c in b.captures]
    return {"trebleproof": 1, "title": f"{b.kind}, {b.fixture}", "fixture": fixture, "mainsHz": 50,
            "parts": {b.pickup_name: {"kind": "pickup"} | b.pickup} | {name: said for name, (said, _) in b.parts.items()},
            "setups": {name: s.job for name, s in b.setups.items()}, "captures": captures}


def many_coils(rng, kind, take, folder, recorded, count=20):
    """Coils that share no part, one after the other on one bench; some of a hard form."""
    first = None
    job = result = None
    for n in range(count):
        form = [good_coil, good_coil, good_coil, lambda r: one(r, covered_rod(r)), lambda r: one(r, cole_cole(r)), unequal_coils][rng.integers(6)]
        b = new_bench(rng, kind, "bare", form(rng), take, rng.standard_normal(5))
        b.pickup_name = f"coil {n + 1}"
        if first:
            for key in ("input", "reference_input", "stated_input", "ratio", "stated_ratio", "delay", "resistor", "stated_resistor", "floor"):
                setattr(b, key, getattr(first, key))
        first = first or b
        setup = f"bare {n + 1}"
        b.setups = {setup: Setup(Guitar(), {"pickup": b.pickup_name})}
        b.captures = [Capture(setup, setup)]
        if recorded:
            record(b, folder)
        said, true = job_file(b), truth(b)
        if job is None:
            job, result = said, true
        else:
            for key in ("parts", "setups"):
                job[key] |= said[key]
            job["captures"] += said["captures"]
            result["estimates"] |= true["estimates"]
            result["halfWidths"] |= true["halfWidths"]
    result["fixture"] = "many"
    return job, result


def make(out, seed, kind, number, take, recorded=True):
    fixtures, coil, effects = KINDS[kind]
    fixture = fixtures[number % len(fixtures)]
    rng = np.random.default_rng([seed, zlib.crc32(kind.encode()), number])
    folder = os.path.join(out, f"{kind}-{number:02d}-{fixture}")
    os.makedirs(folder, exist_ok=True)
    if fixture == "many":
        job, true = many_coils(rng, kind, replace(take, seconds=3.0, repeats=2), folder, recorded)
    else:
        b = new_bench(rng, kind, fixture, coil(rng), take, even(seed, kind, number))
        for effect in effects:
            effect(b)
        b.gain = exciter_gain(b)
        if recorded:
            record(b, folder)
        job, true = job_file(b), truth(b)
    for name, content in (("job.json", job), ("truth.json", true)):
        with open(os.path.join(folder, name), "w") as file:
            json.dump(content, file, indent=1, default=float)
    return folder


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("out", nargs="?")
    parser.add_argument("seed", nargs="?", type=int, default=1)
    parser.add_argument("--kinds", help="of " + ", ".join(KINDS))
    parser.add_argument("--per", type=int, default=4, help="jobs of each kind")
    parser.add_argument("--short", action="store_true", help="two sweeps of 4 s")
    parser.add_argument("--truth", action="store_true", help="write job.json and truth.json only, beside recordings made before")
    parser.add_argument("--list", action="store_true")
    options = parser.parse_args()
    if options.list or not options.out:
        print("\n".join(f"{k:18s} {', '.join(v[0])}" for k, v in KINDS.items()))
        return
    kinds = options.kinds.split(",") if options.kinds else [k for k in KINDS if k not in ON_REQUEST]
    unknown = [k for k in kinds if k not in KINDS]
    if unknown:
        sys.exit(f"no such kind: {', '.join(unknown)}; there are {', '.join(KINDS)}")
    take = recording.Take(seconds=4.0, repeats=2, gap=0.8) if options.short else recording.Take()
    for kind in kinds:
        for number in range(options.per):
            print(make(options.out, options.seed, kind, number, take, not options.truth), flush=True)


if __name__ == "__main__":
    main()
