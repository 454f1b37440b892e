#!/usr/bin/env bash
# The launcher's window on the display of $DISPLAY: how soon it is there, what it costs while nothing happens, and whether
# an edit outlives kill -9.
# Usage: window_on_display.sh LAUNCHER NEW-FOLDER [MOST-MILLISECONDS]
set -euo pipefail
launcher=$1
folder=$2
most=${3:-2500}
mkdir -p "$folder"
export TREBLEPROOF_STATE=$folder/state

milliseconds() { echo $(($(date +%s%N) / 1000000)); }
ticks() { awk '{ print $14 + $15 }' "/proc/$1/stat"; }
fail() { echo "FAILED: $1" >&2; exit 1; }

window=
appear() {
  started=$(milliseconds)
  "$launcher" 2> "$folder/errors.txt" &
  process=$!
  for _ in $(seq 1500); do
    window=$(xdotool search --onlyvisible --pid "$process" 2> /dev/null | head -n 1) && [ -n "$window" ] && break
    kill -0 "$process" 2> /dev/null || fail "the window ended: $(cat "$folder/errors.txt")"
    sleep 0.02
  done
  [ -n "$window" ] || fail "no window within 30 s"
  echo "window after $(($(milliseconds) - started)) ms, $((10 * $(ticks "$process"))) ms of processor time"
}

appear
cold=$(($(milliseconds) - started))
[ "$cold" -lt "$most" ] || fail "the window took longer than $most ms"
sleep 10
before=$(ticks "$process")
sleep 10
idle=$(($(ticks "$process") - before))
echo "idle: $idle hundredths of a second of processor time in 10 s"
[ "$idle" -lt 20 ] || fail "the window is busy while nothing happens"

# A new job; the keyboard stands on what is connected, one step back is a line of text. It is typed,
# confirmed with Enter, and the process killed once it is on disk.
xdotool windowfocus --sync "$window"
kept=
for attempt in $(seq 10); do
  xdotool key ctrl+n
  sleep 1
  xdotool key shift+Tab
  sleep 0.3
  xdotool key ctrl+a type "Killed $attempt"
  xdotool key Return
  sleep 2
  kept=$(grep -l "Killed" "$TREBLEPROOF_STATE"/sessions/*.session.json 2> /dev/null | head -n 1) || true
  [ -n "$kept" ] && break
done
[ -n "$kept" ] || fail "no edit was kept"
kill -9 "$process"
wait "$process" 2> /dev/null || true
/usr/bin/python3 -c 'import json, sys
kept = json.load(open(sys.argv[1]))
typed = [value for value in kept["job"].values() if isinstance(value, str) and value.startswith("Killed")]
if not typed or not kept["last"]:
    sys.exit("FAILED: what was kept does not say what the last edit was: " + json.dumps(kept))
print("after kill -9:", kept["last"], typed)' "$kept" || exit 1
appear
sleep 3
kill "$process"
wait "$process" 2> /dev/null || true
[ -f "$kept" ] || fail "an offer that nobody has answered is gone"
echo "kept until it is answered"
