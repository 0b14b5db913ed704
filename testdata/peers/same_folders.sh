#!/bin/bash
# Two binaries of fencerow answer the same tables; every file of every result folder must be the same.
#
#   testdata/peers/same_folders.sh BEFORE AFTER [WORK]
#
# WORK (default a new folder under /tmp) keeps tables and results. DRAWS and FARMS may be set (256 and 1500).
# BOOK names a county book: then farms of real counties are answered on it too. Ends with 1 where a file differs;
# what differs is named. Of a Parquet file that differs the figures are compared: they are the same to 1e-9 of the
# value or of 1, and the largest difference is told by column. KEEP=1 does not run the first binary again in WORK.
set -u
before=$(realpath "$1") after=$(realpath "$2")
work=${3:-$(mktemp -d)}; mkdir -p "$work"; work=$(realpath "$work")
here=$(realpath "$(dirname "$0")"); farms=${FARMS:-1500}; draws=${DRAWS:-256}; failed=0 checked=0
cd "$here/../.."
[ -x "$work/difference" ] || go build -o "$work/difference" ./testdata/peers/difference || exit 2
[ -x "$work/tables" ] || go build -o "$work/tables" ./testdata/peers/tables || exit 2
python3 "$here/invent.py" --farms "$farms" --broken $((farms / 10)) --out "$work/invented" > /dev/null
python3 "$here/invent.py" --farms "$farms" --broken 50 --shuffle --seed 2 --out "$work/shuffled" > /dev/null
python3 "$here/invent.py" --farms "$farms" --acres 14 --seed 3 --out "$work/small" > /dev/null
head -200 "$work/small/farms.csv" > "$work/few.csv"
cut -d, -f1-16,20-24 "$work/small/farms.csv" | cut -d, -f2 --complement | cut -d, -f2- | awk '!seen[$0]++' > "$work/nobody.csv"
"$work/tables" "$work/invented/farms.csv" "$work/farms.xlsx"
"$work/tables" "$work/invented/farms.csv" "$work/farms.parquet"

# answer NAME BINARY TABLE FLAGS...: a run into $work/NAME/before or after
answer() {
  local name=$1 binary=$2 table=$3; shift 3
  local of=after; [ "$binary" = "$before" ] && of=before
  [ "$of" = before ] && [ -n "${KEEP:-}" ] && [ -f "$work/$name/before.out" ] && return
  mkdir -p "$work/$name"; rm -rf "$work/$name/$of"
  (cd "$work" && "$binary" batch "$table" --book none --today 2026-11-25 --draws "$draws" --out "$work/$name/$of" "$@" > "$work/$name/$of.out" 2> "$work/$name/$of.err")
  echo "exit $?" >> "$work/$name/$of.out"
  sed -i "s#$work/$name/$of#FOLDER#g" "$work/$name/$of.out" "$work/$name/$of.err"
}
# same FOLDER FOLDER: every file byte for byte, Parquet files at least figure for figure
same() {
  local differ; differ=$(diff -rq "$1" "$2" | grep -v '\.parquet differ$')
  [ -n "$differ" ] && { echo "$differ"; return 1; }
  diff -rq "$1" "$2" | while read -r _ a _ b _; do "$work/difference" -within 1e-9 "$a" "$b" || exit 1; done | sort | uniq > "$work/differences" 2>&1
  [ "${PIPESTATUS[0]}" = 0 ] || true
  if grep -q "MORE" "$work/differences"; then cat "$work/differences"; return 1; fi
  [ -s "$work/differences" ] && awk '{ if ($0 ~ /numbers differ/) { n[$1] += $2; if ($8 + 0 > m[$1] + 0) m[$1] = $8 } } END { for (c in n) printf "  Parquet: %s, %d numbers, by %s at most\n", c, n[c], m[c] }' "$work/differences"
  return 0
}
# compare NAME: its two folders, and what was said
compare() {
  checked=$((checked + $(find "$work/$1/before" -type f | wc -l)))
  if same "$work/$1/before" "$work/$1/after" && diff "$work/$1/before.out" "$work/$1/after.out" && diff "$work/$1/before.err" "$work/$1/after.err"; then
    echo "same: $1 ($(tail -1 "$work/$1/after.out"), $(find "$work/$1/after" -type f | wc -l) files)"
  else
    echo "DIFFERS: $1"; failed=1
  fi
}
both() { local name=$1; shift; answer "$name" "$before" "$@"; answer "$name" "$after" "$@"; compare "$name"; }

of_invented="--county-folder invented/counties --market invented/market.yaml"
both csv invented/farms.csv $of_invented
both xlsx farms.xlsx $of_invented
both parquet farms.parquet $of_invented
both shuffled shuffled/farms.csv --county-folder shuffled/counties --market shuffled/market.yaml
both small small/farms.csv --county-folder small/counties --market small/market.yaml
both nobody nobody.csv --county-folder small/counties --market small/market.yaml
both mask invented/farms.csv $of_invented --mask
both pages few.csv --county-folder small/counties --market small/market.yaml --pages
for part in 1 2 3; do both "part$part" invented/farms.csv $of_invented --part $part/3; done
for binary in "$before" "$after"; do
  of=after; [ "$binary" = "$before" ] && of=before
  rm -rf "$work/joined/$of"; mkdir -p "$work/joined"
  "$binary" batch join "$work/part1/$of" "$work/part2/$of" "$work/part3/$of" --out "$work/joined/$of" > "$work/joined/$of.out" 2> "$work/joined/$of.err"
  sed -i "s#$work/joined/$of#FOLDER#g" "$work/joined/$of".*
done
compare joined
diff -q "$work/joined/after/results.csv" "$work/csv/after/results.csv" || failed=1
# a run that is not whole is taken up by the other binary
mkdir -p "$work/resumed"; rm -rf "$work/resumed/after" "$work/resumed/before"
cp -r "$work/csv/before" "$work/resumed/before"; cp -r "$work/csv/before" "$work/resumed/after"
(cd "$work/resumed/after" && rm -f run.json results.csv results/part-*2.csv results/part-*1.csv)
(cd "$work" && "$after" batch invented/farms.csv --book none --today 2026-11-25 --draws "$draws" --out "$work/resumed/after" $of_invented --resume > /dev/null 2>&1)
same "$work/resumed/before" "$work/resumed/after" && echo "same: resumed" || { echo "DIFFERS: resumed"; failed=1; }
if python3 "$here/invent.py" --farms "$farms" --agency --out "$work/agency" > /dev/null 2>&1; then
  both builtin agency/farms.csv
  both builtin_far agency/farms.csv --crop-year 2027,2028
  both dear agency/farms.csv --market agency/market.yaml
  if [ -n "${BOOK:-}" ]; then
    both book agency/farms.csv --book "$(realpath "$BOOK")"
    both book_none agency/farms.csv --book "$(realpath "$BOOK")" --builtin none
  fi
fi
echo "checked $checked files of the first binary"
exit $failed
