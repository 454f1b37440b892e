#!/usr/bin/env python3
"""The table of pots in demonstration.md, worked out again: every cell must say what the program says.

    pot_table.py LAUNCHER
"""
import pathlib
import re
import subprocess
import sys

launcher = sys.argv[1]
root = pathlib.Path(__file__).resolve().parents[3]
page = (root / "src/site/markdown/demonstration.md").read_text()
steps = re.findall(r"(\d+[kM]) to (\d+[kM])", re.search(r"\| sample \|(.*)", page).group(1))
rows = re.findall(r"^\| `([a-z-]+)` \| (.*) \|$", page, re.M)
samples = sorted(p.parent.name for p in (root / "sample-captures").glob("*/job.json"))
if sorted(name for name, _ in rows) != samples or len(steps) != 3:
    sys.exit(f"the table has {[name for name, _ in rows]}, the samples are {samples}")
wrong = 0
for name, cells in rows:
    for (old, new), cell in zip(steps, cells.split(" | "), strict=True):
        bare = ",toneCapacitor=22n,cable=500p,input=1M" if name == "unlabelled-coil" else ""
        done = subprocess.run(
            [launcher, "predict", str(root / f"sample-captures/{name}/job.json"),
             "--now", f"volume={old},tone={old}{bare}", "--then", f"volume={new},tone={new}"],
            capture_output=True, text=True)
        if done.returncode != 0:
            sys.exit(f"{name}: exit code {done.returncode}: {done.stderr}")
        said = re.sub(r"\s+", " ", done.stdout)
        found = re.search(r"(\+[\d.]+ dB \([^)]*\)) around [^,]*, ([a-z ]+);", said)
        here = f"{found.group(1)}, {found.group(2)}"
        if here != cell:
            wrong += 1
            print(f"{name}, {old} to {new}: the guide says {cell}, the program {here}")
print(f"pots: {len(rows)} guitars, {3 * len(rows)} cells, {wrong} wrong")
sys.exit(1 if wrong else 0)
