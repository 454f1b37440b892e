#!/usr/bin/env python3
"""Holds the simulator of real benches to ngspice and to itself.

usage: python3 check_real_bench.py

- the response of every fixture, with all that a netlist can say, against ngspice's AC analysis (relative 1e-5: its printed digits);
- the solid cylinder against its tabulated values (computed with SciPy's jv, so an independent route; 1e-6);
- a recording's spectra against the response it was made with (spectral division; 1e-4 of it at the middle of the sweep's range);
- the level of noise and hum against what was asked for.
"""
import os
import subprocess
import sys
import tempfile
from dataclasses import replace

import numpy as np
from scipy import fft

import bench_recording as recording
import real_bench
from bench_circuit import Coil, Guitar, Input, Metal, Winding, cylinder, exciter_response, series_response

HZ = np.array([20.0, 57.0, 190.0, 640.0, 1900.0, 3400.0, 5200.0, 9100.0, 18500.0])
W = 2 * np.pi * HZ


def spice(lines, node):
    """Complex voltage of a node at HZ, one AC run per frequency."""
    values = []
    with tempfile.TemporaryDirectory() as folder:
        commands = "\n".join(f"ac lin 1 {f} {f}\nprint real({node}) imag({node})" for f in HZ)
        path = os.path.join(folder, "x.cir")
        with open(path, "w") as file:
            file.write("check\n" + "\n".join(lines) + f"\n.control\nset numdgt=10\n{commands}\n.endc\n.end\n")
        text = subprocess.run(["ngspice", "-b", path], capture_output=True, text=True).stdout
    for part in ("real", "imag"):
        values.append([float(line.split("=")[1]) for line in text.splitlines() if line.startswith(f"{part}({node})")])
    return np.array(values[0]) + 1j * np.array(values[1])


def turn_coil(c, low, high, emf):
    """A winding with one shorted turn as a real transformer, its capacitance across."""
    ((k2, tau),) = c.metal.turns
    return [f"R{high} {low} {high}r {c.R}", f"V{high} {high}e {high}r AC {emf}", f"L{high} {high}e {high} {c.L}", f"L{high}t {high}t 0 1e-3",
            f"R{high}t {high}t 0 {1e-3 / tau}", f"K{high} L{high} L{high}t {np.sqrt(k2)}", f"C{high} {low} {high} {c.C}"]


def guitar_lines(g, i):
    lines = [f"Rtone hot tc {g.tone}", f"Ctone tc 0 {g.toneCapacitor}"] if g.tone else []
    top = g.end + g.volume * (1 - g.wiper)
    lines.append(f"Rtop hot jack {max(top, 1e-4)}")
    if g.volume:
        lines.append(f"Rbottom jack 0 {g.volume * g.wiper}")
    if g.bleedCapacitor:
        lines += [f"Cbleed hot jack {g.bleedCapacitor}", f"Rbleed hot jack {g.bleedResistor}"]
    lines += [f"Cjack jack 0 {g.cable + i.C}", f"Rin in 0 {i.R}"]
    return lines + ([f"Cin jack in {1 / (2 * np.pi * i.ahead * i.R)}"] if i.ahead else ["Vin jack in 0"])


COIL = Coil((Winding(2.63, 6120.0, 118e-12, Metal(turns=((0.21, 2.4e-5),))),))
TWO = Coil((Winding(2.1, 4100.0, 95e-12, Metal(turns=((0.18, 3.1e-5),))), Winding(2.4, 4350.0, 132e-12, Metal(turns=((0.18, 3.1e-5),)))), 0.0, 0.45)
WIRED = Guitar(volume=262e3, tone=481e3, toneCapacitor=21.4e-9, cable=463e-12)
INPUTS = [Input(1.004e6, 81e-12), Input(0.992e6, 78e-12, ahead=8.7)]
GUITARS = {"bare": Guitar(), "wired": WIRED, "pot end": replace(WIRED, end=137.0),
           "bleed, turned down": replace(WIRED, wiper=0.61, bleedCapacitor=1.1e-9, bleedResistor=148e3)}


def circuits():
    """(name, largest relative difference) of each fixture, guitar and input."""
    for coil_name, coil in (("one coil with a shorted turn", COIL), ("two coils", TWO)):
        for name, guitar in GUITARS.items():
            for i in INPUTS:
                for fixture in ("exciter", "series"):
                    emf = fixture == "exciter"
                    if len(coil.windings) == 1:
                        lines = turn_coil(coil.windings[0], "0", "hot", int(emf))
                    else:
                        a, b = coil.windings
                        lines = turn_coil(a, "0", "mid", emf * coil.share) + turn_coil(b, "mid", "hot", emf * (1 - coil.share))
                    lines += guitar_lines(guitar, i)
                    if not emf:
                        lines += ["Vdrive drive 0 AC 1", "Rseries drive jack 99.93k", "Cstray drive jack 0.37p"]
                        ours = series_response(coil, guitar, W, i.admittance(W), 99.93e3, 0.37e-12)
                    else:
                        ours = exciter_response(coil, guitar, W, i.admittance(W), real_bench.Shelf(), 1.0) / (1j * HZ / 1000)
                    theirs = spice(lines, "in")
                    yield f"{coil_name}, {name}, {fixture}, coupling at {i.ahead} Hz", np.max(np.abs(ours * i.reads(W) / theirs - 1))


def mutual():
    """Two windings that share flux, with their capacitances: nodal ngspice K against the matrix form."""
    coil = Coil((Winding(2.1, 4100.0, 95e-12), Winding(2.4, 4350.0, 132e-12)), 0.17, 0.45)
    lines = ["Ra 0 ar 4100", "Va ae ar AC 0.45", "La ae mid 2.1", "Ca 0 mid 95p", "Rb mid br 4350", "Vb be br AC 0.55", "Lb be hot 2.4", "Cb mid hot 132p",
             "Kab La Lb 0.17"] + guitar_lines(WIRED, INPUTS[0])
    ours = exciter_response(coil, WIRED, W, INPUTS[0].admittance(W), real_bench.Shelf(), 1.0) / (1j * HZ / 1000)
    return np.max(np.abs(ours / spice(lines, "in") - 1))


# mu_eff / mu of a solid cylinder over radius / skin depth; computed with SciPy's jv from Lammeraner and Stafl's form.
CYLINDER = {0.5: 0.994830 - 0.062056j, 1: 0.925506 - 0.224410j, 2: 0.536534 - 0.369308j, 5: 0.200637 - 0.179517j, 10: 0.100069 - 0.094938j}


def recorded():
    """Difference (rms) between a recording's ratio of spectra, 60 Hz to 15 kHz, and the response it was made with."""
    rng = np.random.default_rng(5)
    take = recording.Take(seconds=4.0, repeats=2)
    worst = 0.0
    for fixture in ("exciter", "jack", "series3", "bare"):
        b = real_bench.new_bench(rng, "check", fixture, real_bench.good_coil(rng), take, rng.standard_normal(5))
        b.floor = -180.0
        with tempfile.TemporaryDirectory() as folder:
            b.gain = real_bench.exciter_gain(b)
            real_bench.record(b, folder)
            for c in b.captures:
                sound, _ = recording.soundfile.read(os.path.join(folder, real_bench.file_of(b, c)))
                x, y = (fft.rfft(s) for s in sound.T)
                hz = fft.rfftfreq(len(sound), 1 / recording.RATE)
                reference, device = real_bench.measured(b, c, 2 * np.pi * np.maximum(hz, 1))
                want = device / reference
                use = (hz > 60) & (hz < 15000) & (np.abs(x) > 0.1 * np.median(np.abs(x)))      # repeats leave zeros between their lines
                worst = max(worst, np.sqrt(np.mean(np.abs(y[use] / x[use] / want[use] - 1) ** 2)))
    return worst


def in_band(x):
    """Level from 20 Hz to 20 kHz [dBFS]."""
    p = np.abs(fft.rfft(x)) ** 2
    hz = fft.rfftfreq(len(x), 1 / recording.RATE)
    return 10 * np.log10(2 * np.sum(p[(hz >= 20) & (hz <= 20000)]) / len(x) ** 2 * 2)


def main():
    failed = False

    def held(name, found, most):
        nonlocal failed
        failed |= not found <= most
        print(f"{name}: {found:.2g} (at most {most:g}){'' if found <= most else '  MISSED'}")
    for name, found in circuits():
        held(name, found, 1e-5)
    held("coupled coils", mutual(), 1e-5)
    for ratio, value in CYLINDER.items():
        held(f"cylinder, radius over skin depth {ratio}", abs(cylinder(1.0, 2 * ratio**2) - value), 1e-6)
    held("recordings against their response", recorded(), 1e-4)
    rng = np.random.default_rng(6)
    held("pink noise, dB", abs(in_band(recording.pink(rng, 480000, -86, 1.1)) + 86), 0.3)
    held("hum, dB", abs(in_band(recording.hum(rng, 480000, -50)) + 50), 0.05)
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main()
