#!/usr/bin/env python3
"""The hum check on the samples, as a user starts it: causes against the truth, the result against its schema.

    hum_samples.py LAUNCHER FOLDER      (needs jsonschema)

Every sample-captures/hum-* is checked; results, tables and pages are left in FOLDER.
"""
import json
import pathlib
import subprocess
import sys
import time

import jsonschema

launcher, folder = sys.argv[1], pathlib.Path(sys.argv[2])
folder.mkdir(parents=True, exist_ok=True)
root = pathlib.Path(__file__).resolve().parents[3]
schema = json.loads((root / "src/main/resources/org/trebleproof/hum.schema.json").read_text())
wrong = 0
samples = sorted((root / "sample-captures").glob("hum-*/truth.json"))
if len(samples) < 3:
    sys.exit("fewer than three hum samples")
for truth_file in samples:
    sample = truth_file.parent
    truth = json.loads(truth_file.read_text())
    command = [launcher, "hum"]
    for sound in sorted(sample.glob("*.flac")):
        command += ["--" + sound.stem, str(sound)]
    out = {kind: folder / f"{sample.name}.{kind}" for kind in ("json", "csv", "html")}
    command += ["--json", out["json"], "--csv", out["csv"], "--page", out["html"]]
    started = time.monotonic()
    done = subprocess.run(command, capture_output=True, text=True)
    seconds = time.monotonic() - started
    if done.returncode != 0:
        sys.exit(f"{sample.name}: exit code {done.returncode}: {done.stderr}")
    result = json.loads(out["json"].read_text())
    jsonschema.validate(result, schema)
    likely = sorted(c["code"] for c in result["causes"] if c["strength"] == "likely")
    others = sorted(c["code"] for c in result["causes"] if c["strength"] != "likely")
    mains = result["mainsHz"]["value"] if isinstance(result["mainsHz"], dict) else result["mainsHz"]
    right = likely == sorted(truth["causes"]) and not others and abs(mains - truth["mainsHz"]) < 0.01
    wrong += not right
    print(f"{sample.name}: {seconds:.2f} s, mains {mains:.3f} Hz, likely {', '.join(likely) or 'nothing'}"
          + (f", besides {', '.join(others)}" if others else "") + ("" if right else "  WRONG"))
sys.exit(1 if wrong else 0)
