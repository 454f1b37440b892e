#!/usr/bin/env python3
"""Guitars with a treble bleed, a bass cut or two pickups on, simulated by ngspice, swept and fitted.

usage: python3 src/test/scipy/wired_setups.py TREBLEPROOF FOLDER

Writes the jobs into FOLDER, runs `TREBLEPROOF fit` on each and holds the fitted parts to the true ones. The circuits are
written here, independently of Trebleproof's own netlists; coil, sweep and recorder come from make-samples.py.
"""
import importlib.util
import json
import os
import subprocess
import sys

import numpy as np

HERE = os.path.dirname(os.path.abspath(__file__))
SAMPLES = os.path.join(HERE, "..", "..", "..", "sample-captures", "make-samples.py")
spec = importlib.util.spec_from_file_location("samples", SAMPLES)
samples = importlib.util.module_from_spec(spec)
spec.loader.exec_module(samples)

COIL = dict(inductance=2.618, resistance=6184.0, windingCapacitance=116e-12, coreShare=0.31, coreTime=5.1e-5)
NECK = dict(inductance=2.13, resistance=5905.0, capacitance=112e-12, loss=702e3)
RESISTOR = 99968.0
INPUT = ["Rinput jack 0 1.0041e6", "Cinput jack 0 78.8e-12", "Clead jack 0 352e-12"]
TONE = ["Rtone hot t 486e3", "Ctone t 0 21.3e-9"]


def volume(wiper, top="hot"):
    """A 487k pot; the wiper is the jack."""
    return [f"Rlow jack 0 {487e3 * wiper:.9g}", f"Rhigh {top} jack {max(487e3 * (1 - wiper), 1e-3):.9g}"]


def neck(low, high):
    """A pickup of one coil with core loss, between two nodes."""
    return [f"Rneck {low} n1 {NECK['resistance']}", f"Lneck n1 {high} {NECK['inductance']}", f"Rloss n1 {high} {NECK['loss']}",
            f"Cneck {low} {high} {NECK['capacitance']}"]


PAIR = {"a": dict(resistance=3910.0, air=1.02, core=0.41, loss=9.3e3, capacitance=71e-12),
        "b": dict(resistance=4075.0, air=1.07, core=0.46, loss=11.8e3, capacitance=66e-12)}


def pair(hot, low):
    """A pickup of two unlike coils in series, their junction at `junction`; each with a core that is one relaxation."""
    lines = []
    for name, top, bottom in (("a", hot, "junction"), ("b", "junction", low)):
        c = PAIR[name]
        lines += [f"Rw{name} {top} {name}1 {c['resistance']}", f"La{name} {name}1 {name}2 {c['air']}", f"Lc{name} {name}2 {bottom} {c['core']}",
                  f"Rc{name} {name}2 {bottom} {c['loss']}", f"Cw{name} {top} {bottom} {c['capacitance']}"]
    return lines + ["Kpair Laa Lab 0.13"]


BLEED = ["Cbleed hot jack 1.07e-9", "Rbleed hot jack 143e3"]
CASES = {
    "bleed": {
        "captures": {"full": volume(1) + BLEED, "down": volume(0.43) + BLEED},
        "setups": {"full": {"bleedCapacitor": "bleed cap", "bleedResistor": "bleed resistor"},
                   "down": {"extends": "full", "volume": {"part": "volume pot", "rotation": 0.45}}},
        "parts": {"bleed cap": {"kind": "capacitor", "value": "1n"}, "bleed resistor": {"kind": "resistor", "value": "150k 5%"}},
        "truth": {"bleed cap.value": 1.07e-9, "bleed resistor.value": 143e3, "volume pot.value": 487e3}},
    "bleed-in-series": {
        "captures": {"full": volume(1), "down": volume(0.43) + ["Cbleed hot b 1.07e-9", "Rbleed b jack 143e3"]},
        "setups": {"full": {"bleedCapacitor": "bleed cap", "bleedResistor": "bleed resistor", "bleedStyle": "series"},
                   "down": {"extends": "full", "volume": {"part": "volume pot", "rotation": 0.45}}},
        "parts": {"bleed cap": {"kind": "capacitor", "value": "1n"}, "bleed resistor": {"kind": "resistor", "value": "150k 5%"}},
        "truth": {"bleed cap.value": 1.07e-9, "bleed resistor.value": 143e3, "volume pot.value": 487e3}},
    "bass-cut": {
        "captures": {"plain": volume(1), "cut": volume(1, "after") + ["Cbass hot after 2.31e-9"]},
        "setups": {"plain": {}, "cut": {"extends": "plain", "bassCapacitor": "bass cap"}},
        "parts": {"bass cap": {"kind": "capacitor", "value": "2.2n"}},
        "truth": {"bass cap.value": 2.31e-9}},
    "both-in-parallel": {
        "captures": {"one": volume(1), "both": volume(1) + neck("0", "hot")},
        "setups": {"one": {}, "both": {"extends": "one", "secondPickup": "neck"}},
        "parts": {"neck": {"kind": "pickup", "resistance": "5.9k 1%", "inductance": "2.1 5%", "capacitance": "110p 20%", "loss": "700k 30%"}},
        "truth": {"pickup.inductance": 2.618, "volume pot.value": 487e3}},
    "both-in-series": {
        "captures": {"one": volume(1), "both": volume(1, "top") + neck("hot", "top")},
        "setups": {"one": {}, "both": {"extends": "one", "secondPickup": "neck", "joint": "series"}},
        "parts": {"neck": {"kind": "pickup", "resistance": "5.9k 1%", "inductance": "2.1 5%", "capacitance": "110p 20%", "loss": "700k 30%"}},
        "truth": {"pickup.inductance": 2.618}},
    "tap": {
        "coil": pair("hot", "0"),
        "captures": {"whole": volume(1), "tapped": volume(1) + ["Rtap junction 0 1e-3"]},
        "setups": {"whole": {}, "tapped": {"extends": "whole", "tap": "on"}},
        "parts": {},
        "truth": {"volume pot.value": 487e3, "lead.value": 352e-12}},
    "tap-by-a-resistor": {
        "coil": pair("hot", "0"),
        "captures": {"whole": volume(1), "tapped": volume(1) + ["Rtap junction 0 2214"]},
        "setups": {"whole": {}, "tapped": {"extends": "whole", "tap": "on", "tapResistor": "tap resistor"}},
        "parts": {"tap resistor": {"kind": "resistor", "value": "2.2k 5%"}},
        "truth": {"volume pot.value": 487e3, "tap resistor.value": 2214}},
    "tap-alone": {
        "coil": pair("hot", "0"),
        "captures": {"tapped": volume(1) + ["Rtap junction 0 1e-3"]},
        "setups": {"tapped": {"tap": "on"}},
        "parts": {},
        "truth": {"volume pot.value": 487e3}},
}


def lines(case, capture):
    """The pickup's hot end is `hot`, except where the tone control hangs behind the parts in the hot lead."""
    tone = [line.replace("hot", at(case, capture)) for line in TONE]
    return ["Vdrive drive 0 AC 1", f"Rseries drive jack {RESISTOR}"] + CASES[case].get("coil", samples.coil("hot", "0", COIL)) + tone + CASES[case]["captures"][capture] + INPUT


def at(case, capture):
    return {"cut": "after", "both": "top" if case == "both-in-series" else "hot"}.get(capture, "hot")


def job(case):
    first = next(iter(CASES[case]["setups"]))
    pickup = "bridge" if "neck" in CASES[case]["parts"] else "pickup"
    setups = json.loads(json.dumps(CASES[case]["setups"]))
    setups[first].update({"pickup": pickup, "tone": "tone pot", "toneCapacitor": "tone cap", "cable": "lead"})
    setups[first].setdefault("volume", "volume pot")
    parts = {pickup: {"kind": "pickup"}, "volume pot": {"kind": "pot", "value": "500k"}, "tone pot": {"kind": "pot", "value": "500k"},
             "tone cap": {"kind": "capacitor", "value": "22n"}, "lead": {"kind": "cable", "capacitance": "360p 10%"}, **CASES[case]["parts"]}
    return {"trebleproof": 1, "title": case,
            "fixture": {"kind": "series", "seriesResistance": "100k 0.1%", "channels": {"ratio": "0.9973 0.05%", "delay": "0 0.02us"},
                        "input": {"resistance": "1M 1%", "capacitance": "80p 3%"}},
            "mainsHz": 50, "parts": parts, "setups": setups,
            "captures": [{"id": c, "file": c + ".flac", "setup": c} for c in CASES[case]["captures"]]}


def main(trebleproof, folder):
    samples.HERE = folder
    failed = False
    for number, case in enumerate(CASES):
        place = os.path.join(folder, case)
        os.makedirs(place, exist_ok=True)
        rng = np.random.default_rng(900 + number)
        rig = samples.recorder(channelRatio=0.99752, channelDelay=-5e-9)
        for capture in CASES[case]["captures"]:
            hz, v = samples.analyse(lines(case, capture), place, capture)
            samples.record(os.path.join(place, capture + ".flac"), rig, rng, hz, v, 1.0)
        with open(os.path.join(place, "job.json"), "w") as out:
            json.dump(job(case), out, indent=1)
        result = os.path.join(place, "result.json")
        done = subprocess.run([trebleproof, "fit", os.path.join(place, "job.json"), "--json", result, "--page", os.path.join(place, "page.html")],
                              capture_output=True, text=True)
        if done.returncode != 0:
            print(f"{case}: {done.stdout}{done.stderr}")
            failed = True
            continue
        rows = {e["key"]: e for e in json.load(open(result))["estimates"]}
        for key, true in CASES[case]["truth"].items():
            row = rows.get(key) or rows[key.replace("pickup", "bridge")]
            low, high = row["low"], row["high"]
            ok = low is not None and low <= true <= high
            failed |= not ok
            print(f"{case}: {key} {true:.6g} in {low:.6g} to {high:.6g} ({row['known']})" if low is not None else f"{case}: {key} withdrawn", "" if ok else "MISSED")
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main(os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2]))
