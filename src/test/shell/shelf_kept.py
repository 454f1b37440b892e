"""Attacks on a shelf with the program as it is installed: kills inside writes, several processes at once, a full disk, and the
same answers from a PostgreSQL server that this starts and stops.

Usage: shelf_kept.py TREBLEPROOF FOLDER [SEED [KILLS]]
"""

import hashlib
import os
import pwd
import random
import re
import shutil
import signal
import socket
import sqlite3
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

TREBLEPROOF = os.path.abspath(sys.argv[1])
FOLDER = Path(sys.argv[2]).resolve()
SEED = int(sys.argv[3]) if len(sys.argv) > 3 else 20261130
KILLS = int(sys.argv[4]) if len(sys.argv) > 4 else 40
TESTS = Path(__file__).resolve().parents[1]
COILS = 6
chance = random.Random(SEED)
failures = []


def hold(true, words):
    if not true:
        failures.append(words)
        print("  FAILED:", words)


def shelf(where, *words, **more):
    more.setdefault("timeout", 600)
    return subprocess.run(
        [TREBLEPROOF, "shelf", *map(str, words), "--shelf", str(where)],
        capture_output=True, text=True, errors="replace", **more,
    )


def said(outcome):
    return f"exit {outcome.returncode}: {outcome.stdout[-300:]!r} {outcome.stderr[-300:]!r}"


def whole(path):
    """What a killed process may leave is rolled back; then nothing is half there. Returns the names of the coils."""
    if not path.exists():
        return set()
    db = sqlite3.connect(path)
    hold(db.execute("PRAGMA integrity_check").fetchone()[0] == "ok", "the file is damaged")
    if not db.execute("SELECT COUNT(*) FROM sqlite_master WHERE name = 'curve'").fetchone()[0]:
        return set()
    for coil, in db.execute("SELECT id FROM coil"):
        found = db.execute(
            "SELECT m.id FROM measurement m JOIN result r ON r.measurement = m.id WHERE m.coil = ?", (coil,)
        ).fetchall()
        hold(found, "a coil without a measurement")
        for m, in found:
            hold(db.execute("SELECT COUNT(*) FROM file WHERE measurement = ?", (m,)).fetchone()[0], "a measurement without its recording")
    for sha, in db.execute("SELECT sha256 FROM content"):
        pieces = db.execute("SELECT bytes FROM content_piece WHERE sha256 = ? ORDER BY number", (sha,))
        hold(hashlib.sha256(b"".join(p for p, in pieces)).hexdigest() == sha, "half a recording")
    names = {name for name, in db.execute("SELECT name FROM coil")}
    db.close()
    return names


def confirmed(text):
    return set(re.findall(r'^"([^"]+)"$', text, re.M))


def kills(export):
    library = FOLDER / "slow_disk.so"
    built = subprocess.run(["gcc", "-shared", "-fPIC", "-O", "-o", library, TESTS / "c" / "slow_disk.c", "-ldl"])
    slow = {**os.environ} if built.returncode else {**os.environ, "LD_PRELOAD": str(library)}
    inside = 0
    for number in range(KILLS):
        file = FOLDER / f"killed-{number}.db"
        told = FOLDER / "told.txt"
        with open(told, "w") as out:
            child = subprocess.Popen(
                [TREBLEPROOF, "shelf", "import", export, "--shelf", file], env=slow, stdout=out, stderr=subprocess.DEVNULL
            )
            journal = Path(f"{file}-journal")
            deadline = time.monotonic() + 60
            want = chance.randint(1, 8)     # let so many transactions begin before
            seen, there = 0, False
            while child.poll() is None and time.monotonic() < deadline and seen < want:
                now = journal.exists()
                seen += now and not there
                there = now
                time.sleep(0.001)
            time.sleep(chance.uniform(0, 0.05))
            within = journal.exists() and child.poll() is None
            child.send_signal(signal.SIGKILL)
            child.wait()
        inside += within
        names = whole(file)
        lost = confirmed(told.read_text()) - names
        hold(not lost, f"confirmed and lost: {lost}")
        if number % 10 == 0:
            after = shelf(file, "import", export)
            hold(after.returncode == 0 and len(whole(file)) == COILS, f"after a kill: {said(after)}")
        for leftover in FOLDER.glob(f"killed-{number}.db*"):
            leftover.unlink()
    print(f"  {KILLS} kills, {inside} of them inside a write: nothing confirmed was lost, nothing was half there")
    hold(inside >= KILLS // 3, "the kills did not land inside writes")


def full_disk(export):
    import resource

    # More than the data base's own library, which is unpacked first, and less than the recordings.
    def small():
        resource.setrlimit(resource.RLIMIT_FSIZE, (5_000_000, 5_000_000))
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)

    file = FOLDER / "full.db"
    outcome = shelf(file, "import", export, preexec_fn=small)
    hold(outcome.returncode == 1 and "Exception" not in outcome.stderr, f"a full disk: {said(outcome)}")
    hold(confirmed(outcome.stdout) <= whole(file), "confirmed on a full disk and lost")
    hold(shelf(file, "import", export).returncode == 0 and len(whole(file)) == COILS, "a full disk blocks the next try")
    print("  a full disk:", outcome.stderr.strip().splitlines()[-1][:120])


def at_once(where, export, names):
    with ThreadPoolExecutor(4) as pool:
        outcomes = list(pool.map(lambda _: shelf(where, "import", export), range(4)))
    hold(all(o.returncode == 0 for o in outcomes), [said(o) for o in outcomes if o.returncode][:1])
    got = [n for o in outcomes for n in confirmed(o.stdout)]
    hold(sorted(got) == sorted(names), f"each coil once, whoever was first: {sorted(got)}")
    listed = shelf(where, "list", "--csv", FOLDER / "once.csv")
    hold(listed.returncode == 0, said(listed))
    hold(len((FOLDER / "once.csv").read_text().splitlines()) == 1 + len(names), "a coil twice on the shelf")


def as_postgres(words, **more):
    if os.geteuid() == 0:
        words = ["runuser", "-u", "postgres", "--", *words]
    return subprocess.run([str(w) for w in words], capture_output=True, text=True, cwd="/", **more)


class Server:
    """A server of its own in a folder of its own, as a user who is not root."""

    def __enter__(self):
        versions = sorted(Path("/usr/lib/postgresql").glob("*/bin"), key=lambda p: int(p.parent.name))
        self.bin = versions[-1] if versions else None
        if not self.bin:
            return None
        self.data = FOLDER / "server"
        self.data.mkdir()
        if os.geteuid() == 0:
            user = pwd.getpwnam("postgres")
            os.chown(self.data, user.pw_uid, user.pw_gid)
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        made = as_postgres([self.bin / "initdb", "-D", self.data / "db", "-A", "trust", "-U", "bench", "-E", "UTF8", "--no-sync"])
        hold(made.returncode == 0, made.stderr[-300:])
        options = f"-p {port} -c listen_addresses=127.0.0.1 -c unix_socket_directories={self.data}"
        begun = as_postgres([self.bin / "pg_ctl", "-D", self.data / "db", "-w", "-l", self.data / "log", "-o", options, "start"])
        hold(begun.returncode == 0, begun.stdout[-300:] + begun.stderr[-300:])
        created = as_postgres([self.bin / "createdb", "-h", "127.0.0.1", "-p", str(port), "-U", "bench", "shelf"])
        hold(created.returncode == 0, created.stderr)
        return f"jdbc:postgresql://127.0.0.1:{port}/shelf?user=bench"

    def __exit__(self, *_):
        if self.bin and self.data.exists():
            as_postgres([self.bin / "pg_ctl", "-D", self.data / "db", "-m", "fast", "-w", "stop"])


ANSWERS = (
    ("list", "--every"),
    ("list", "--sort", "resistance", "--backwards", "--where", "inductance=1..9"),
    ("sheet",),
    ("pairs", "--most", "20"),
    ("pairs", "--set", "3"),
    ("recipe", "hot bridge", "--target", "resistance=8.1k 1%", "--target", "inductance=4.1 3%"),
    ("judge",),
    ("note", "coil 1", "--tag", "sold", "--notes", "Grüße"),
    ("list", "--tag", "sold"),
    ("check",),
)


def same_answers(export, names):
    with Server() as address:
        if not address:
            print("  skipped: no PostgreSQL on this machine")
            return
        at_once(address, export, names)
        file = FOLDER / "same.db"
        hold(shelf(file, "import", export).returncode == 0, "import")
        for words in ANSWERS:
            one, other = shelf(file, *words), shelf(address, *words)
            hold(one.returncode == other.returncode and one.stdout == other.stdout, f"{words}: {said(one)} but {said(other)}")
        out = shelf(address, "export", "--folder", FOLDER / "from-server")
        hold(out.returncode == 0, said(out))
        there = {p.relative_to(FOLDER / "from-server"): hashlib.sha256(p.read_bytes()).hexdigest() for p in (FOLDER / "from-server").rglob("*") if p.suffix == ".wav"}
        hold(len(there) == COILS, f"recordings from the server: {len(there)}")
        print(f"  PostgreSQL and SQLite gave the same {len(ANSWERS)} answers; 4 processes at once")
    refused = shelf(address, "list")
    hold(refused.returncode == 1 and "is not to be reached" in refused.stderr and "Exception" not in refused.stderr, said(refused))


def same_bits(files, options):
    """Two processes that work on other numbers of threads keep the same bits."""
    kept = []
    for threads in (1, 3):
        path = FOLDER / f"threads-{threads}.db"
        added = shelf(path, "add", *files, *options, "--threads", threads)
        hold(added.returncode == 0, said(added))
        db = sqlite3.connect(path)
        kept.append(db.execute("SELECT c.name, r.state, r.reason, r.json, r.guitar, v.decibel, v.low, v.high FROM coil c JOIN measurement m"
                               " ON m.coil = c.id JOIN result r ON r.measurement = m.id LEFT JOIN curve v ON v.result = r.id ORDER BY c.name").fetchall())
        db.close()
    hold(len(kept[0]) == len(files) and kept[0] == kept[1], "one thread and three do not keep the same bits")


def main():
    shutil.rmtree(FOLDER, ignore_errors=True)
    FOLDER.mkdir(parents=True)
    FOLDER.chmod(0o755)
    print("seed", SEED)
    made = subprocess.run(["/usr/bin/python3", TESTS / "scipy" / "shelf_evening.py", FOLDER / "eve", str(SEED), str(COILS)], capture_output=True, text=True)
    hold(made.returncode == 0, made.stderr[-500:])
    first = FOLDER / "first.db"
    files = sorted((FOLDER / "eve").glob("evening-*/coil*.wav"))
    options = ("--recipe", "hot bridge", "--date", "2026-11-30", "--temperature", "20", "--fixture", "series",
               "--series-resistance", "100k 0.1%", "--input-resistance", "1M 1%", "--input-capacitance", "92p 3%")
    added = shelf(first, "add", *files, *options)
    hold(added.returncode == 0, said(added))
    same_bits(files[:3], options)
    names = whole(first)
    hold(len(names) == COILS, f"coils: {names}")
    export = FOLDER / "export"
    hold(shelf(first, "export", "--folder", export).returncode == 0, "export")
    kills(export)
    full_disk(export)
    at_once(FOLDER / "once.db", export, names)
    whole(FOLDER / "once.db")
    same_answers(export, names)
    if failures:
        print(len(failures), "failed")
        sys.exit(1)
    print("the shelf held")


main()
