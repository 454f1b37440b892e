#!/usr/bin/env python3
"""Wall time of a whole `fit`, cold process, against the SciPy equivalent, run in turn; prints medians and their ratio.

usage: python3 compare_speed.py [JOB.json] [ROUNDS]     (default: the pot-swap sample, 7 rounds)

Also, where target/bench.json holds FitBenchmark's result (mvn -Pbench test-compile exec:exec): the ratio of one
warm fit of five parameters on 400 points to SciPy's 'lm' with an analytic Jacobian, timed here and now.
"""
import json
import os
import re
import statistics
import subprocess
import sys
import tempfile
import time

HERE = os.path.dirname(os.path.abspath(__file__))
TOP = os.path.abspath(os.path.join(HERE, "..", "..", ".."))
job = sys.argv[1] if len(sys.argv) > 1 else os.path.join(TOP, "sample-captures", "pot-swap", "job.json")
rounds = int(sys.argv[2]) if len(sys.argv) > 2 else 7
contenders = {
    "trebleproof": [os.path.join(TOP, "target", "trebleproof", "bin", "trebleproof")],
    "scipy": [sys.executable, os.path.join(HERE, "whole_fit.py")],
}
seconds = {name: [] for name in contenders}
with tempfile.TemporaryDirectory() as folder:
    for turn in range(rounds + 1):          # the first round warms the disk cache and is not counted
        for name, command in contenders.items():
            begin = time.perf_counter()
            done = subprocess.run(command + ["fit", job, "--json", os.path.join(folder, name + ".json")], capture_output=True, text=True)
            if done.returncode:
                sys.exit(f"{name} ended with {done.returncode}: {done.stderr[-500:]}")
            if turn:
                seconds[name].append(time.perf_counter() - begin)
medians = {name: statistics.median(s) for name, s in seconds.items()}
for name, s in seconds.items():
    print(f"whole fit, {name:12s} median {medians[name]:.2f} s, {min(s):.2f} to {max(s):.2f} s in {rounds} rounds")
print(f"whole fit, trebleproof over scipy: {medians['trebleproof'] / medians['scipy']:.3f}")

bench = os.path.join(TOP, "target", "bench.json")
if os.path.exists(bench):
    warm = [b for b in json.load(open(bench)) if b["benchmark"].endswith("FitBenchmark.warmFit")]
    if warm:
        own = warm[0]["primaryMetric"]["score"]
        line = subprocess.run([sys.executable, os.path.join(HERE, "warm_fit.py")], capture_output=True, text=True, check=True).stdout
        other = float(re.search(r"scipy ([0-9.]+) ms", line).group(1))
        print(f"warm fit of five parameters on 400 points: trebleproof {own:.3f} ms, scipy {other:.3f} ms, ratio {own / other:.3f}")
