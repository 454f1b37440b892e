#!/usr/bin/env bash
# The Debian package is installed, started, used and removed; the zips for other systems are looked into for the libraries
# of those systems. Wants root, apt-get and the display of $DISPLAY.
# Usage: packages.sh FOLDER-WITH-PACKAGES NEW-FOLDER
set -euo pipefail
packages=$1
folder=$2
mkdir -p "$folder"
fail() { echo "FAILED: $1" >&2; exit 1; }

deb=$(ls "$packages"/trebleproof_*.deb)
DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$(realpath "$deb")" > "$folder/install.txt" 2>&1 || { tail -n 20 "$folder/install.txt"; fail "the package does not install"; }
/opt/trebleproof/bin/trebleproof-cli fit sample-captures/swap-at-jack/job.json --json "$folder/result.json" > "$folder/fit.txt" || { cat "$folder/fit.txt"; fail "the installed program"; }
/usr/bin/python3 src/test/scipy/hold_against_truth.py "$folder/result.json" sample-captures/swap-at-jack/truth.json
# The image starts without the archive of parsed classes, which takes a second or two longer.
bash src/test/shell/window_on_display.sh /opt/trebleproof/bin/Trebleproof "$folder/window" 8000 || fail "the installed window"
dpkg -r trebleproof > "$folder/remove.txt" 2>&1 || fail "the package is not removed"
[ ! -e /opt/trebleproof ] || fail "the package leaves files in /opt/trebleproof"
echo "Debian package: installed, used, removed; $(stat -c %s "$deb") bytes"
/usr/bin/python3 src/test/shell/zips_complete.py "$packages"
