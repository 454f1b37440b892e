#!/usr/bin/env python3
"""Holds a result file against a truth file; exit code 1 when a row tells a confident lie.

usage: python3 hold_against_truth.py RESULT.json TRUTH.json

Prints how many of the true values lie in their 95 % interval. A single row may lie outside, one in twenty does;
a row that lies outside by more than one further half-width while it is not withdrawn, nor merely assumed, fails.
"""
import json
import sys

result, truth = (json.load(open(name)) for name in sys.argv[1:3])
errors = [f for f in result.get("findings", []) if f["severity"] == "error"]
withdrawn = {key for f in errors for key in f.get("keys", [])}
refused = any(not f.get("keys") for f in errors)
rows = {row["key"]: row for row in result["estimates"]}
given = inside = 0
lies = []
for key, true in truth["estimates"].items():
    row = rows.get(key)
    if row is None or row.get("value") is None or key in withdrawn:
        continue
    low = row["low"] if row["low"] is not None else float("-inf")
    high = row["high"] if row["high"] is not None else float("inf")
    given += 1
    inside += low <= true <= high
    half = (high - low) / 2
    if row["known"] != "assumed" and max(low - true, true - high) > half:
        lies.append(f"{key}: true {true:.6g}, given {row['value']:.6g} in {low:.6g} to {high:.6g}")
print(f"{sys.argv[2]}: {given} of {len(truth['estimates'])} given, {inside} inside their interval")
for lie in lies:
    print("  lie:", lie)
for finding in errors:
    print("  error finding:", finding["code"], finding["text"])
sys.exit(1 if lies or refused or given == 0 else 0)
