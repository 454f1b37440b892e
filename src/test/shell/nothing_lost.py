"""Attacks on files with the program as it is installed: many processes at once, a full disk, kills
in the middle of writing, pipes, links, names that a terminal or a simulator would obey.

Usage: nothing_lost.py TREBLEPROOF FOLDER [SEED [ATTACK...]]
"""

import json
import os
import random
import re
import shlex
import shutil
import signal
import stat
import subprocess
import sys
import tempfile
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import numpy as np
import soundfile

TREBLEPROOF = os.path.abspath(sys.argv[1])
FOLDER = Path(sys.argv[2]).resolve()
SEED = int(sys.argv[3]) if len(sys.argv) > 3 else 20261130
SAMPLES = Path(__file__).resolve().parents[3] / "sample-captures"
AT_ONCE = 6
COIL = (
    "--inductance 2.4 --resistance 5.7k --capacitance 120p --loss 800k"
    " --now volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M"
).split()
chance = random.Random(SEED)
failures = []


def run(*words, **more):
    more.setdefault("timeout", 600)
    return subprocess.run(
        [TREBLEPROOF, *map(str, words)], capture_output=True, text=True, errors="replace", **more
    )


def hold(true, words):
    if not true:
        failures.append(words)
        print("  FAILED:", words)


def said(outcome):
    return f"exit {outcome.returncode}: {outcome.stdout[-300:]!r} {outcome.stderr[-300:]!r}"


def refused(outcome, *words):
    """One sentence, exit 1 or 2, no trace of the program's inside."""
    lines = outcome.stderr.strip().splitlines()
    hold(
        outcome.returncode in (1, 2)
        and len(lines) == 1
        and lines[0].startswith("trebleproof: ")
        and "Exception" not in outcome.stderr
        and "should not happen" not in outcome.stderr
        and all(word in outcome.stderr for word in words),
        f"refusal with {words}: {said(outcome)}",
    )


def leftovers(folder):
    return [p for p in Path(folder).rglob("*") if p.name.endswith((".tmp", ".lock", ".unfinished"))]


def bench_recordings(folder):
    """A loopback, an open jack and a capacitor of 1 nF behind 100k, by the law of the divider."""
    stimulus = folder / "stimulus.wav"
    made = run("sweep", stimulus, "--seconds", "1", "--repeats", "2", "--gap", "0.4")
    hold(made.returncode == 0, said(made))
    played, rate = soundfile.read(stimulus)
    spectrum = np.fft.rfft(played)
    omega = 2 * np.pi * np.fft.rfftfreq(len(played), 1 / rate)
    noise = np.random.default_rng(SEED)

    def record(name, transfer):
        heard = np.fft.irfft(spectrum * transfer, len(played))
        both = np.stack([played, heard], axis=1) + 1e-5 * noise.standard_normal((len(played), 2))
        soundfile.write(folder / name, both, rate, subtype="PCM_24")

    def divided(siemens, farad):
        return 1 / (1 + 1e5 * (siemens + 1 / 1.02e6 + 1j * omega * (farad + 85e-12)))

    record("loop.wav", np.ones(len(omega)))
    record("open.wav", divided(0, 0))
    record("standard.wav", divided(0, 1e-9))
    record("drifted.wav", divided(0, 1.01e-9))
    record("resistor.wav", divided(1e-5, 0))


def concurrent(folder):
    bench_recordings(folder)
    (folder / "calibration").mkdir()
    bench = ["box", "--series-resistance", "100k 0.1%", "--standard", "film 1n"]
    bench += ["--folder", folder / "calibration"]
    made = run(
        *["calibrate", *bench, "--loopback-file", folder / "loop.wav"],
        *["--input-file", folder / "open.wav", "--standard-file", folder / "standard.wav"],
    )
    hold(made.returncode == 0, said(made))
    history = folder / "calibration" / "box.history.csv"
    before = len(history.read_text().splitlines())
    with ThreadPoolExecutor(AT_ONCE) as pool:
        checks = list(
            pool.map(
                lambda _: run("check", *bench, "--standard-file", folder / "standard.wav"),
                range(30),
            )
        )
    hold(all(c.returncode == 0 for c in checks), [said(c) for c in checks if c.returncode][:1])
    lines = len(history.read_text().splitlines()) - before
    print(f"  30 checks, {AT_ONCE} at once: {lines} lines in the history")
    hold(lines == 30, "a line of the history was lost")

    drifted = [
        run("check", *bench, "--standard-file", folder / "drifted.wav") for _ in range(2)
    ]
    hold(all(d.returncode == 1 for d in drifted), "a drifted standard agrees the second day")
    text = history.read_text()
    refused(run("check", *bench, "--standard-file", folder / "resistor.wav"), "resistor")
    hold(history.read_text() == text, "a wrong plug was written into the history")

    job = folder / "job.json"
    job.write_text(json.dumps(JOB, indent=2))
    with ThreadPoolExecutor(AT_ONCE) as pool:
        taken = list(
            pool.map(
                lambda i: run("record", job, f"take {i}", "--use", folder / "standard.wav"),
                range(30),
            )
        )
    hold(all(t.returncode == 0 for t in taken), [said(t) for t in taken if t.returncode][:1])
    captures = json.loads(job.read_text())["captures"]
    print(f"  30 recordings taken in, {AT_ONCE} at once: {len(captures)} captures in the job")
    hold(len({c["id"] for c in captures}) == 30, "a capture was lost")
    hold(all((folder / c["file"]).is_file() for c in captures), "a capture's sound is missing")

    with ThreadPoolExecutor(AT_ONCE) as pool:
        same = list(
            pool.map(
                lambda _: run("record", job, "same", "--use", folder / "standard.wav"),
                range(AT_ONCE),
            )
        )
    hold(sum(s.returncode == 0 for s in same) == 1, "one name was given to several captures")
    hold(not leftovers(folder), f"left behind: {leftovers(folder)}")


JOB = {
    "trebleproof": 1,
    "title": "made up",
    "fixture": {
        "kind": "series",
        "seriesResistance": "100k 0.1%",
        "channels": {"ratio": "1 0.05%", "delay": "0 0.02us"},
        "input": {"resistance": "1M 1%", "capacitance": "80p 3%"},
    },
    "parts": {"coil": {"kind": "pickup"}},
    "setups": {"bare": {"pickup": "coil"}},
    "captures": [],
}


def full_disk(folder):
    job = SAMPLES / "pot-swap" / "job.json"
    guitar = ["predict", *COIL, "--then", "volume=1M", "--draws", "100"]
    with open("/dev/full", "w") as full:
        for words in (
            ["fit", job],
            ["compare", job],
            ["fit", job, "--json", "-"],
            guitar,
            [*guitar, "--json", "-"],
            ["explain", *COIL],
            ["--help"],
            ["fit", "--help"],
            ["hum", "--hands-off", SAMPLES / "hum-foil" / "hands-off.flac"],
        ):
            outcome = subprocess.run(
                [TREBLEPROOF, *map(str, words)],
                stdout=full,
                stderr=subprocess.PIPE,
                text=True,
                timeout=600,
            )
            hold(
                outcome.returncode == 1 and "standard output did not take" in outcome.stderr,
                f"full standard output is success: {words} {outcome.stderr!r}",
            )
    refused(run(*guitar, "--json", "/dev/full"), "the disk is full")

    # A limit of file sizes is a full disk that needs no rights.
    import resource

    def small():
        resource.setrlimit(resource.RLIMIT_FSIZE, (2000, 2000))
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)

    page = folder / "page.html"
    page.write_text("old")
    refused(run(*guitar, "--page", page, preexec_fn=small))
    hold(page.read_text() == "old", "a page that did not fit replaced the old one")
    hear = folder / "hear"
    listen = ["listen", *COIL, "--then", "volume=1M", "--folder", hear]
    refused(run(*listen, preexec_fn=small))
    hold(not hear.exists(), "half a folder of sounds was left")
    hold(run(*listen).returncode == 0, "the next try was blocked")
    hold(not leftovers(folder), f"left behind: {leftovers(folder)}")


def kills(folder):
    library = folder / "slow_disk.so"
    built = subprocess.run(
        ["gcc", "-shared", "-fPIC", "-O", "-o", library,
         Path(__file__).resolve().parents[1] / "c" / "slow_disk.c", "-ldl"],
    )
    if built.returncode:
        print("  skipped: no gcc")
        return
    page = folder / "page.html"
    guitar = [TREBLEPROOF, "predict", *COIL, "--then", "volume=1M", "--draws", "100"]
    slow = {**os.environ, "LD_PRELOAD": str(library)}
    done = subprocess.run([*guitar, "--page", page], capture_output=True)
    whole = page.read_bytes()
    hold(done.returncode == 0 and whole.rstrip().endswith(b"</html>"), "no page")
    inside, rounds = 0, 40
    for _ in range(rounds):
        old = b"old " * 1000
        page.write_bytes(old)
        child = subprocess.Popen(
            [*guitar, "--page", page], env=slow, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        deadline = time.monotonic() + 60
        while not list(folder.glob(".writing-*")) and time.monotonic() < deadline:
            if child.poll() is not None:
                break
            time.sleep(0.005)
        time.sleep(chance.uniform(0, 0.55))
        inside += child.poll() is None
        child.send_signal(chance.choice([signal.SIGKILL, signal.SIGTERM, signal.SIGINT]))
        child.wait()
        now = page.read_bytes()
        hold(now == old or now.rstrip().endswith(b"</html>"), "half a page after a kill")
    print(f"  {rounds} kills, {inside} of them inside a write")
    hold(inside >= rounds // 2, "the kills did not land inside writes")
    subprocess.run([*guitar, "--page", page], capture_output=True)
    hold(not leftovers(folder), f"left behind after the next start: {leftovers(folder)}")

    hear = folder / "hear"
    listen = [TREBLEPROOF, "listen", *COIL, "--then", "volume=1M", "--folder", hear]
    child = subprocess.Popen(listen, env=slow, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    while not hear.exists() and child.poll() is None:
        time.sleep(0.005)
    time.sleep(0.1)
    child.kill()
    child.wait()
    hold(subprocess.run(listen, capture_output=True).returncode == 0, "half a folder blocks")
    hold(
        sorted(p.name for p in hear.iterdir()) == ["after.wav", "before.wav"],
        f"what is in the folder: {sorted(hear.iterdir())}",
    )


def pipes(folder):
    ps = SAMPLES / "pot-swap"
    quick = ["--fixture", "series", "--series-resistance", "100k"]
    sound = (ps / "before.flac").read_bytes()
    plain = run("fit", ps / "before.flac", *quick)
    through = folder / "sound.flac"
    os.mkfifo(through)
    threading.Thread(target=lambda: through.write_bytes(sound), daemon=True).start()
    pipes = [run("fit", through, *quick)]
    with open(ps / "before.flac", "rb") as file:
        pipes.append(run("fit", "/dev/stdin", *quick, stdin=file))
    shell = f"exec {shlex.join([TREBLEPROOF, 'fit'])} <(cat {ps / 'before.flac'}) {shlex.join(quick)}"
    pipes.append(
        subprocess.run(["bash", "-c", shell], capture_output=True, text=True, timeout=600)
    )
    numbers = re.compile(r"[0-9.]+ [kMH]")
    for other in pipes:
        hold(
            other.returncode == plain.returncode
            and numbers.findall(other.stdout) == numbers.findall(plain.stdout),
            f"through a pipe it is another answer: {said(other)} {said(plain)}",
        )
    job = subprocess.run(
        [TREBLEPROOF, "compare", "/dev/stdin"], input=(ps / "job.json").read_text(),
        capture_output=True, text=True, cwd=ps,
    )
    hold(job.returncode == 0, f"a job through a pipe: {said(job)}")
    silent = folder / "silent.flac"
    os.mkfifo(silent)
    refused(run("fit", silent, *quick), "nothing is written into that pipe")
    refused(run("fit", "/dev/zero", *quick), "is a device")

    loop = folder / "loop.wav"
    loop.symlink_to(loop)
    refused(run("fit", loop, *quick), "leads back to itself")
    gone = folder / "gone.wav"
    gone.symlink_to("nowhere.wav")
    refused(run("fit", gone, *quick), "is a link to nowhere.wav")
    refused(run("fit", folder, *quick), "is a folder")
    for name, head in (("a.ogg", b"OggS"), ("b.mp3", b"ID3\x04"), ("c.m4a", b"\0\0\0\x20ftypM4A "),
                       ("d.caf", b"caff"), ("e.json", b"OggS"), ("f.wav", b"ID3\x04")):
        (folder / name).write_bytes(head + bytes(300))
        refused(run("fit", folder / name, *quick), "not WAV, AIFF or FLAC: export it as WAV")


def links_and_modes(folder):
    guitar = ["predict", *COIL, "--then", "volume=1M", "--draws", "100"]

    def mode(path):
        return stat.S_IMODE(path.stat().st_mode)

    for mask, expected in ((0o077, 0o600), (0o022, 0o644), (0o002, 0o664)):
        page = folder / f"new{mask:o}.html"
        run(*guitar, "--page", page, preexec_fn=lambda m=mask: os.umask(m))
        hold(mode(page) == expected, f"umask {mask:o} gives {mode(page):o}")
    page = folder / "old.html"
    page.write_text("old")
    page.chmod(0o640)
    link = folder / "link.html"
    link.symlink_to("old.html")
    run(*guitar, "--page", link)
    hold(link.is_symlink() and mode(page) == 0o640, "a link or a mode was not kept")
    hold(page.read_text().rstrip().endswith("</html>"), "what the link names was not written")


def foreign_text(folder):
    """Names and titles as a stranger would choose them."""
    kept = folder / "guitar.json"
    hold(
        run("predict", *COIL, "--then", "volume=1M", "--draws", "100", "--save", kept).returncode
        == 0,
        "no guitar kept",
    )
    text = kept.read_text()
    names = [v["name"] for v in json.loads(text)["values"]]
    mark = folder / "run-by-a-stranger"
    command = f"\n.control\nshell touch {mark}\n.endc\n* "
    for name in names:
        for evil in (name + command, "\r" + name, name + "\u2028.control", name + "\x1b]0;x\x07"):
            (folder / "evil.json").write_text(
                text.replace(json.dumps(name), json.dumps(evil))
            )
            deck = folder / "evil.cir"
            outcome = run(
                *["predict", folder / "evil.json", "--then", "cable=1n", "--draws", "100"],
                *["--spice", deck],
            )
            refused(outcome)
            hold(not deck.exists(), "a netlist was written")
    title = json.loads(text)
    title["title"] = "x\x1b]0;owned\x07\x1b[2J\rfine"
    (folder / "titled.json").write_text(json.dumps(title))
    outcome = run("predict", folder / "titled.json", "--then", "cable=1n", "--draws", "100")
    hold("\x1b" not in outcome.stdout + outcome.stderr, f"ESC reaches the terminal {said(outcome)}")
    sound = folder / "a\x1b[31m\rb\nc.flac"
    shutil.copy(SAMPLES / "pot-swap" / "before.flac", sound)
    outcome = run("fit", sound, "--fixture", "series", "--series-resistance", "100k")
    both = outcome.stdout + outcome.stderr
    hold("\x1b" not in both and "\r" not in both, f"a file's name reaches the terminal: {both!r}")
    hold("\nc.flac" not in both, "a file's name begins a line")
    if shutil.which("ngspice"):
        deck = folder / "good.cir"
        run("predict", kept, "--then", "cable=1n", "--draws", "100", "--spice", deck)
        done = subprocess.run(
            ["ngspice", "-b", deck], cwd=folder, capture_output=True, text=True, timeout=600
        )
        hold((folder / "answer.data").exists(), f"ngspice does not take it: {done.stdout[-300:]}")
    hold(not mark.exists(), "a stranger's command was run")


def other_user(folder):
    """Root may open every folder, so this is tried as nobody."""
    if os.getuid() != 0:
        print("  skipped: only root can become another user")
        return
    nobody = Path(tempfile.mkdtemp(prefix="trebleproof-nobody-"))
    try:
        nobody.chmod(0o755)

        def become():
            os.setgid(65534)
            os.setuid(65534)

        if run("--version", preexec_fn=become, cwd=nobody).returncode:
            print("  skipped: nobody may not start the program here")
            return
        locked = nobody / "locked"
        locked.mkdir(mode=0o700)
        (locked / "a.wav").write_bytes(b"RIFF" + bytes(100))
        quick = ["--fixture", "series", "--series-resistance", "100k"]
        refused(run("fit", locked / "a.wav", *quick, preexec_fn=become), str(locked), "may not open")
        guitar = ["predict", *COIL, "--then", "volume=1M", "--draws", "100"]
        refused(run(*guitar, "--page", nobody / "p.html", preexec_fn=become), "may not write in")
        mine = nobody / "theirs"
        mine.mkdir()
        os.chown(mine, 65534, 65534)
        page = mine / "p.html"
        page.write_text("old")
        page.chmod(0o444)
        refused(run(*guitar, "--page", page, preexec_fn=become), "write-protected")
        hold(page.read_text() == "old", "a write-protected page was replaced")
    finally:
        shutil.rmtree(nobody)


def main():
    print(f"seed {SEED}")
    for attack in (
        concurrent, full_disk, kills, pipes, links_and_modes, foreign_text, other_user
    ):
        if len(sys.argv) > 4 and attack.__name__ not in sys.argv[4:]:
            continue
        started = time.monotonic()
        folder = FOLDER / attack.__name__
        folder.mkdir(parents=True)
        print(f"{attack.__name__}:")
        attack(folder)
        print(f"  {time.monotonic() - started:.0f} s")
    if failures:
        print(f"{len(failures)} failures")
        sys.exit(1)
    print("nothing lost, nothing let in")


main()
