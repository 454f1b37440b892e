#!/usr/bin/env python3
"""Counts which slips a command names.

usage: python3 score_slips.py FOLDER [FOLDER...] [--workers N] [--least SHARE] [--most-false N] [--most-seconds S] [--json FILE] --command COMMAND...

Runs COMMAND fit job.json --json - in every job folder (slip_jobs.py, real_bench.py). Right is the kind of the slip first or second in "slips"; in a good job any slip that is named is false.
"""
import argparse
import concurrent.futures
import glob
import json
import os
import subprocess
import sys
import time


def run(folder, command):
    started = time.time()
    done = subprocess.run(command + ["fit", os.path.join(folder, "job.json"), "--json", "-"], capture_output=True, text=True, timeout=600)
    seconds = time.time() - started
    truth = json.load(open(os.path.join(folder, "truth.json")))
    try:
        result = json.JSONDecoder().raw_decode(done.stdout[done.stdout.index("{"):])[0]
    except ValueError:
        result = None
    kind = truth.get("slip", "")
    named = [s["kind"] for s in (result or {}).get("slips", [])]
    place = named.index(kind) + 1 if kind in named else 0
    errors = [f"{f['code']}: {f['text']} [{f['evidence']}]" for f in (result or {}).get("findings", []) if f["severity"] == "error"]
    return dict(job=os.path.basename(folder.rstrip("/")), kind=kind, fixture=truth["fixture"], effect=truth.get("effect"), named=named, place=place, seconds=seconds, code=done.returncode,
                texts=[s["text"] for s in (result or {}).get("slips", [])], errors=errors, verdict=(result or {}).get("verdict"), trouble=None if result else done.stderr.strip()[-300:])


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folders", nargs="+")
    parser.add_argument("--workers", type=int, default=1)
    parser.add_argument("--least", type=float, help="fail below this share of slips named first or second")
    parser.add_argument("--most-false", type=int, help="fail above this many good jobs with a slip named")
    parser.add_argument("--most-seconds", type=float, help="fail where one command takes longer")
    parser.add_argument("--json", help="write every job's answer here")
    parser.add_argument("--command", nargs=argparse.REMAINDER, required=True)
    options = parser.parse_args()
    folders = sorted(os.path.dirname(p) for f in options.folders for p in glob.glob(os.path.join(f, "*", "truth.json")))
    jobs = []
    with concurrent.futures.ThreadPoolExecutor(options.workers) as pool:
        for j in pool.map(lambda f: run(f, options.command), folders):
            jobs.append(j)
            print(f"\r{len(jobs)} of {len(folders)}", end="", file=sys.stderr, flush=True)
    print(file=sys.stderr)
    fixtures = sorted({j["fixture"] for j in jobs})
    kinds = sorted({j["kind"] for j in jobs if j["kind"]})
    print(f"{'kind':18s}" + "".join(f"{f:>16s}" for f in fixtures) + f"{'all':>16s}    first / second / missed (third or later counts as missed)")

    def cell(group):
        if not group:
            return f"{'':>16s}"
        first, second = sum(j["place"] == 1 for j in group), sum(j["place"] == 2 for j in group)
        return f"{f'{first} / {second} / {len(group) - first - second}':>16s}"
    for kind in kinds:
        print(f"{kind:18s}" + "".join(cell([j for j in jobs if j["kind"] == kind and j["fixture"] == f]) for f in fixtures) + cell([j for j in jobs if j["kind"] == kind]))
    slips = [j for j in jobs if j["kind"]]
    print(f"{'all':18s}" + "".join(cell([j for j in slips if j["fixture"] == f]) for f in fixtures) + cell(slips))
    good = [j for j in jobs if not j["kind"]]
    false = [j for j in good if j["named"]]
    seconds = sorted(j["seconds"] for j in jobs)
    right = sum(j["place"] in (1, 2) for j in slips)
    if slips:
        print(f"named first or second: {right} of {len(slips)} ({100 * right / len(slips):.1f} %)")
    print(f"good jobs: {len(good)}, of these with a slip named: {len(false)}; seconds: median {seconds[len(seconds) // 2]:.1f}, longest {seconds[-1]:.1f}")
    for j in jobs:
        if (j["kind"] and j["place"] not in (1, 2)) or (not j["kind"] and j["named"]) or j["trouble"]:
            print(f"\n{j['job']}: {json.dumps(j['effect'])}; {j['verdict']}, {j['seconds']:.1f} s; named {j['named']} {j['trouble'] or ''}")
            for e in j["errors"]:
                print("   " + e[:260])
            for t in j["texts"]:
                print("   slip: " + t)
    if options.json:
        with open(options.json, "w") as file:
            json.dump(jobs, file, indent=1)
    if slips and options.least is not None and right < options.least * len(slips):
        sys.exit(f"only {right} of {len(slips)} slips named")
    if options.most_false is not None and len(false) > options.most_false:
        sys.exit(f"{len(false)} good jobs with a slip named")
    if options.most_seconds is not None and seconds[-1] > options.most_seconds:
        sys.exit(f"{seconds[-1]:.1f} s for one job")


if __name__ == "__main__":
    main()
