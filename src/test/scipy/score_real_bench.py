#!/usr/bin/env python3
"""Holds a command to the truth of simulated jobs.

usage: python3 score_real_bench.py FOLDER [--workers N] [--kinds a,b] [--json FILE] [--timeout S] [--by-fixture] [--most-lies N] [--most-refused SHARE] -- COMMAND...

Runs COMMAND fit job.json --json - in every job folder. A confident lie is a row that is given and not merely assumed, in a job
that is not refused, whose truth lies outside its interval by more than one further half-width.
"""
import argparse
import concurrent.futures
import glob
import json
import os
import subprocess
import sys
import time

import numpy as np

MAIN = ("inductance", "resistance", "resonance", "resonancePeak", "loadResistance", "totalCapacitance", "loadConductance", "value")
FLOOR = 5e-5        # of a value: the least half-width asked for, whatever the noise allows


def run(folder, command, timeout):
    started = time.time()
    try:
        done = subprocess.run(command + ["fit", os.path.join(folder, "job.json"), "--json", "-"], capture_output=True, text=True, timeout=timeout)
        code, out, err = done.returncode, done.stdout, done.stderr
    except subprocess.TimeoutExpired:
        code, out, err = -1, "", f"no answer in {timeout} s"
    seconds = time.time() - started
    try:
        start = out.index("{")
        result = json.JSONDecoder().raw_decode(out[start:])[0]
    except ValueError:
        result = None
    return folder, code, result, err.strip()[-300:], seconds


def judge(folder, code, result, err, seconds):
    truth = json.load(open(os.path.join(folder, "truth.json")))
    found = dict(job=os.path.basename(folder.rstrip("/")), kind=truth["kind"], fixture=truth.get("fixture"), seconds=seconds, code=code,
                 effect=truth.get("effect"), rows=[], lies=[], refused=True, errors=[], crash=None, difference=None, model=None)
    if result is None:
        found["crash"] = err or f"exit {code}"
        return found
    errors = [f for f in result.get("findings", []) if f.get("severity") == "error"]
    found["errors"] = [f["code"] + ": " + f.get("text", "") for f in errors]
    found["refused"] = any(not f.get("keys") for f in errors)
    found["model"] = (result.get("model") or {}).get("name")
    found["warnings"] = [f["code"] for f in result.get("findings", []) if f.get("severity") == "warning"]
    withdrawn = {k for f in errors for k in f.get("keys") or []}
    given = {e["key"]: e for e in result.get("estimates", [])}
    found["noparts"] = not any(given.get(k, {}).get("value") is not None for k in truth["estimates"] if k.endswith((".value", ".inductance")))
    for key, true in truth["estimates"].items():
        e = given.get(key)
        if true is None or e is None or e.get("value") is None or key in withdrawn or key in truth.get("unknowable", []):
            continue
        least, most = truth.get("bounds", {}).get(key, (true, true))
        low = -np.inf if e["low"] is None else e["low"]
        high = np.inf if e["high"] is None else e["high"]
        half = max((high - low) / 2, 1e-30)
        off = max(low - most, least - high, 0.0)
        known = e.get("known")
        nearest = min(max(e["value"], least), most)
        row = dict(key=key, value=e["value"], low=e["low"], high=e["high"], truth=true, known=known, covered=off == 0,
                   wide=half / np.hypot(truth["halfWidths"][key], FLOOR * abs(true)) if truth.get("halfWidths", {}).get(key) else None, error=abs(e["value"] - nearest) / abs(true), half=half / abs(true), off=off / half)
        found["rows"].append(row)
        if off > half and known != "assumed" and not found["refused"]:
            found["lies"].append(row)
    d, t = result.get("difference"), truth.get("difference")
    if d and t and d.get("dB"):
        hz, want = np.log(t["hz"]), np.array(t["dB"])
        least, most = np.sort([want, t.get("with the weather", want)], axis=0)
        curve = {k: np.interp(hz, np.log(d["hz"]), np.array(d[k], float)) for k in ("dB", "low", "high")}
        off = np.maximum(np.maximum(curve["low"] - most, least - curve["high"]), 0)
        half = np.maximum((curve["high"] - curve["low"]) / 2, 1e-9)
        found["difference"] = dict(coverage=float(np.mean(off == 0)), lie=bool(np.mean(off > half) > 0.1) and not found["refused"],
                                   worst=float(np.max(np.abs(curve["dB"] - want))), half=float(np.median(half)))
    return found


def quantile(rows, percent):
    wide = [r["wide"] for r in rows if r["wide"] and np.isfinite(r["wide"])]
    return f"{np.percentile(wide, percent):6.2f}" if wide else "   nan"


def line(name, jobs):
    rows = [r for j in jobs if not j["refused"] for r in j["rows"]]
    main = [r for r in rows if r["key"].split(".")[-1] in MAIN and r["known"] != "assumed"]
    differences = [j["difference"] for j in jobs if j["difference"]]
    seconds = [j["seconds"] for j in jobs]
    return (f"{name:26s} {len(jobs):4d} {sum(j['refused'] and not j['crash'] for j in jobs):5d} {sum(bool(j['crash']) for j in jobs):5d} "
            f"{sum(bool(j['errors']) and not j['refused'] for j in jobs):5d} {sum(j['refused'] or j.get('noparts', True) for j in jobs):7d} {len(rows):5d} "
            f"{100 * np.mean([r['covered'] for r in rows]) if rows else float('nan'):6.1f} {sum(len(j['lies']) for j in jobs):5d} "
            f"{sum(bool(j['lies']) for j in jobs):5d} "
            f"{100 * np.median([r['error'] for r in main]) if main else float('nan'):8.4f} {100 * np.median([r['half'] for r in main]) if main else float('nan'):8.4f} {quantile(main, 50)} {quantile(main, 90)} "
            f"{100 * np.mean([d['coverage'] for d in differences]) if differences else float('nan'):7.1f} {sum(d['lie'] for d in differences):4d} "
            f"{np.median(seconds):6.2f} {max(seconds):6.2f}")


HEAD = (f"{'kind':26s} {'jobs':>4s} {'refus':>5s} {'crash':>5s} {'part.':>5s} {'noparts':>7s} {'rows':>5s} {'cover%':>6s} {'lies':>5s} {'l.job':>5s} "
        f"{'err %':>8s} {'half %':>8s} {'wide':>6s} {'w.90%':>6s} {'dcover%':>7s} {'dlie':>4s} {'s med':>6s} {'s max':>6s}")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder")
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--kinds")
    parser.add_argument("--json", help="write every job's rows here")
    parser.add_argument("--timeout", type=float, default=180)
    parser.add_argument("--by-fixture", action="store_true")
    parser.add_argument("--most-lies", type=int, help="fail above this many")
    parser.add_argument("--most-refused", type=float, help="fail above this share of jobs refused, without a result, or without coil and parts")
    parser.add_argument("command", nargs="+")
    options = parser.parse_args()
    folders = sorted(os.path.dirname(p) for p in glob.glob(os.path.join(options.folder, "*", "truth.json")))
    if options.kinds:
        wanted = options.kinds.split(",")
        folders = [f for f in folders if json.load(open(os.path.join(f, "truth.json")))["kind"] in wanted]
    jobs = []
    with concurrent.futures.ThreadPoolExecutor(options.workers) as pool:
        for j in pool.map(lambda f: judge(*run(f, options.command, options.timeout)), folders):
            jobs.append(j)
            print(f"\r{len(jobs)} of {len(folders)}", end="", file=sys.stderr, flush=True)
    print(file=sys.stderr)
    groups = {}
    for j in jobs:
        groups.setdefault((j["kind"], j["fixture"] if options.by_fixture else ""), []).append(j)
    print(HEAD)
    for (kind, fixture), group in groups.items():
        print(line(f"{kind} {fixture}".strip(), group))
    print(line("all jobs", jobs))
    print("refus: refused whole; part.: an error withdraws some rows; noparts: refused, or neither coil nor part is given; l.job: jobs with a lie;\n"
          "err, half: medians of main rows that are not assumed; wide: half-width over the least possible, median and 90 %;\ndcover, dlie: difference curve")
    for j in jobs:
        if j["crash"]:
            print(f"\n{j['job']}: no result: {j['crash']}")
        elif j["errors"] or j["lies"] or (j["difference"] and j["difference"]["lie"]):
            print(f"\n{j['job']}: {j['model']}; {json.dumps(j['effect'])}")
            for text in j["errors"]:
                print("   error  " + text[:220])
            for r in j["lies"]:
                low, high = ("none" if r[k] is None else f"{r[k]:.6g}" for k in ("low", "high"))
                print(f"   LIE    {r['key']}: {r['value']:.6g} ({low} to {high}, {r['known']}), true {r['truth']:.6g}, outside by {r['off']:.1f} half-widths")
            if j["difference"] and j["difference"]["lie"]:
                print(f"   LIE    difference curve: off by up to {j['difference']['worst']:.3f} dB, half-width {j['difference']['half']:.3f} dB")
    if options.json:
        with open(options.json, "w") as file:
            json.dump(jobs, file, indent=1)
    lies = sum(len(j["lies"]) + bool(j["difference"] and j["difference"]["lie"]) for j in jobs)
    refused = sum(j["refused"] or j.get("noparts", True) for j in jobs) / max(len(jobs), 1)
    if (options.most_lies is not None and lies > options.most_lies) or (options.most_refused is not None and refused > options.most_refused):
        sys.exit(f"{lies} lies, {100 * refused:.0f} % refused")


if __name__ == "__main__":
    main()
