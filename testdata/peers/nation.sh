#!/bin/bash
# A nation of invented farms, on a quiet machine: answered once and timed, then killed half-way and resumed, and compared.
#
#   testdata/peers/nation.sh BINARY FOLDER [FARMS]
#
# FOLDER takes about 6 GB for 1,700,000 farms: the table, and two result folders of 2.2 GB.
set -eu
binary=$(realpath "$1"); mkdir -p "$2"; work=$(realpath "$2"); farms=${3:-1700000}
here=$(realpath "$(dirname "$0")")
[ -f "$work/nation/farms.csv" ] || python3 "$here/invent.py" --farms "$farms" --out "$work/nation"
answer() { # folder, flags
  local out=$1; shift
  "$binary" batch "$work/nation/farms.csv" --county-folder "$work/nation/counties" --market "$work/nation/market.yaml" \
    --book none --today 2026-11-25 --draws 1024 --out "$work/$out" "$@"
}
export -f answer; export binary work
rm -rf "$work/whole" "$work/killed"
begun=$(date +%s)
/usr/bin/time -f "whole: %e s by the clock, %U + %S s of processors, %M kB at the peak" bash -c 'answer whole'
took=$(($(date +%s) - begun))
echo "killed after $((took / 2)) s, then resumed"
timeout -s KILL $((took / 2)) bash -c 'exec "$binary" batch "$work/nation/farms.csv" --county-folder "$work/nation/counties" --market "$work/nation/market.yaml" --book none --today 2026-11-25 --draws 1024 --out "$work/killed"' || true
echo "parts at the kill: $(ls "$work/killed/results" | grep -c 'csv$')"
/usr/bin/time -f "the rest: %e s by the clock, %U + %S s of processors, %M kB at the peak" bash -c 'answer killed --resume'
diff -rq "$work/whole" "$work/killed" && echo "both folders are the same, $(find "$work/whole" -type f | wc -l) files"
