#!/usr/bin/env bash
# Searches for inputs that break a reader, the law or a whole comparison:
#
#   testdata/fuzz.sh SECONDS [PATTERN]            e.g. nice -n 19 testdata/fuzz.sh 1800 io/read/operation
#
# Every fuzz target of a package or a name that fits the pattern runs for so many seconds, two at a time; each
# package is built once. A table of targets says how many inputs were tried, how many of them
# reached something new, and how many such inputs there are now. What is found is kept in
# FENCEROW_FUZZ (a folder; else it is thrown away), where the next run begins. With
# FENCEROW_COVER=1 the table also has the statements of its package that the committed inputs
# reach. An input that fails stands in testdata/fuzz of its package: commit it with what mends it.
#
# The rooms of fencerow alone are built with the guidance of the search: libraries are not, of which SQLite
# would take many minutes.
set -euo pipefail
cd "$(dirname "$0")/.."
seconds=${1:?seconds for each target} pattern=${2:-.}
work=${FENCEROW_FUZZ:-$(mktemp -d)}
[ -n "${FENCEROW_FUZZ:-}" ] || trap 'rm -rf "$work"' EXIT
mkdir -p "$work"

targets=$(grep -rHoE --include=*_test.go '^func Fuzz[A-Za-z]+' . | sed -E 's|^\./(.*)/[^/]*:func (.*)|\1 \2|' | grep -E -- "$pattern" | sort)
[ -n "$targets" ] || { echo "no fuzz target fits $pattern" >&2; exit 2; }

for package in $(cut -d' ' -f1 <<< "$targets" | sort -u); do
  go test -c -gcflags='fencerow/...=-d=libfuzzer' -o "$work/${package//\//_}" "./$package"
done

# one PACKAGE TARGET: a line of the table; the whole output stands in WORK.
one() {
  package=$1 target=$2 name=${1//\//_}
  log="$work/$name.$target.log"
  status=0
  (cd "$package" && "$work/$name" -test.run='^$' -test.fuzz="^$target\$" -test.fuzztime="${seconds}s" -test.fuzzminimizetime=10x \
    -test.fuzzcachedir="$work/inputs/$package" -test.parallel=1) > "$log" 2>&1 || status=$?
  last=$(grep 'execs:' "$log" | tail -n 1 || true)
  number() { sed -nE "s/.*$1.*/\\1/p" <<< "$last"; }
  covered=-
  if [ -n "${FENCEROW_COVER:-}" ]; then
    covered=$(go test -cover -run "^$target\$" "./$package" | sed -nE 's/.*coverage: ([0-9.]+%).*/\1/p')
  fi
  echo "| $package | $target | $(number 'execs: ([0-9]+)') | $(number 'interesting: ([0-9]+)') | $(number 'total: ([0-9]+)') | $covered |"
  # Where the time is up in the middle of an input, go test says "context deadline exceeded" and fails
  # (golang.org/issue/75804); what an input broke has a word of its own.
  if [ $status -ne 0 ] && { [ "$(grep -A1 -E '^--- FAIL' "$log" | tail -n 1)" != '    context deadline exceeded' ] || grep -q 'Failing input' "$log"; }; then
    tail -n 40 "$log" >&2
    return 1
  fi
}
export -f one
export work seconds
echo "| package | target | inputs tried in $seconds s | new | inputs kept | statements the committed inputs reach |"
echo "|---|---|---|---|---|---|"
xargs -P 2 -L 1 bash -c 'one "$@"' one <<< "$targets"
