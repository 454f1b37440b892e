#!/usr/bin/env python3
"""Puts the simulated evenings of shelf_evening.py on a shelf, as the guide says, and holds what it answers against their truth.

usage: python3 score_shelf.py TREBLEPROOF OUT [SEED [COILS]]
"""
import json
import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

TREBLEPROOF, OUT = os.path.abspath(sys.argv[1]), Path(sys.argv[2]).resolve()
SEED = sys.argv[3] if len(sys.argv) > 3 else "1"
COILS = sys.argv[4] if len(sys.argv) > 4 else "60"
SHELF = OUT / "shelf.db"
failures = []


def hold(true, words):
    if not true:
        failures.append(words)
        print("FAILED:", words)


def shelf(*words, code=0):
    done = subprocess.run([TREBLEPROOF, "shelf", *map(str, words), "--shelf", str(SHELF)], capture_output=True, text=True)
    hold(done.returncode == code, f"{words}: exit {done.returncode} {done.stdout[-200:]} {done.stderr[-300:]}")
    return done.stdout


def answer(*words):
    return json.loads(shelf(*words, "--json", "-"))


def add(evening, files, *more):
    bench = json.loads((OUT / f"evening-{evening}" / "bench.json").read_text())
    return shelf("add", *files, "--bench", bench["bench"], "--temperature", bench["celsius"], "--date", bench["day"],
                 "--fixture", "series", "--series-resistance", "100k 0.1%", "--input-resistance", "1M 1%",
                 "--input-capacitance", "92p 3%", "--channel-ratio", bench["ratio"], "--channel-delay", "0 0.02us", *more)


def main():
    shutil.rmtree(OUT, ignore_errors=True)
    subprocess.run(["/usr/bin/python3", Path(__file__).with_name("shelf_evening.py"), OUT, SEED, COILS], check=True)
    truth = {c["name"]: c for c in json.loads((OUT / "truth.json").read_text())}
    begun = time.monotonic()
    for evening in (1, 2, 3):
        for recipe in sorted({c["recipe"] for c in truth.values() if c["evening"] == evening}):
            files = [OUT / f"evening-{evening}" / f"{c['name']}.wav" for c in truth.values() if c["evening"] == evening and c["recipe"] == recipe]
            add(evening, files, "--recipe", recipe)
    seconds = time.monotonic() - begun
    for file in sorted((OUT / "evening-3").glob("again-*.wav")):
        add(3, [file], "--again", "--name", file.stem[len("again-"):])

    coils = {c["name"]: c for c in answer("list")["coils"]}
    hold(len(coils) == len(truth), f"{len(coils)} coils on the shelf")
    inside = total = 0
    for name, true in truth.items():
        verdict = coils[name]["verdict"]
        if true["fault"] in ("open", "shorted turns"):
            hold(verdict == true["fault"], f"{name} is {true['fault']}, not {verdict}")
            continue
        hold(verdict == "good", f"{name} is good, not {verdict}: {coils[name]['reason']}")
        for key in ("resistance", "inductance", "capacitance"):
            if key in coils[name]["values"]:
                e = coils[name]["values"][key]
                inside += e["low"] <= true[key] <= e["high"]
                total += 1
                off = abs(e["value"] / true[key] - 1)
                hold(off < (0.1 if key == "capacitance" else 0.005), f"{name}: {key} is {100 * off:.2f} % off")
    print(f"{len(coils)} coils in {seconds:.0f} s; of {total} intervals {100 * inside / total:.0f} % hold the truth")
    hold(inside / total > 0.85, "the intervals are too narrow")

    for recipe in sorted({c["recipe"] for c in truth.values()}):
        odd = {o["name"]: o for o in answer("sheet", "--recipe", recipe)["odd"]}
        strange = {n for n, c in truth.items() if c["recipe"] == recipe and c["fault"]}
        hold(strange <= set(odd), f"{recipe}: {strange - set(odd)} not seen")
        hold(len(set(odd) - strange) <= 1, f"{recipe}: {set(odd) - strange} are no strangers")
        for name in strange:
            wanted = "wire" if truth[name]["fault"] == "other wire" else "broken"
            hold(odd.get(name, {}).get("cause") == wanted, f"{name}: {odd.get(name)}")

    pairs = answer("pairs", "--most", "5")["pairs"]
    hold(all(truth[p["first"]]["recipe"] == truth[p["second"]]["recipe"] for p in pairs), f"pairs of two recipes: {pairs}")
    sets = answer("pairs", "--set", "4", "--most", "3")["sets"]
    hold(all(len({truth[n]["recipe"] for n in s["coils"]}) == 1 for s in sets), f"sets of several recipes: {sets}")
    benches = {v["value"]: v for v in answer("benches", "bench a", "bench b")["values"]}
    hold(abs(benches["resistance"]["offset"]["value"] - 1) < 0.004, f"the benches: {benches['resistance']}")
    shelf("check")
    print("failed" if failures else "the shelf answers as the truth does")
    sys.exit(1 if failures else 0)


if __name__ == "__main__":
    main()
