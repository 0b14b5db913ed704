#!/bin/bash
# Tests of each class of attacks (docs/validation.md, "What users, disks and strangers do") on the commit before the one that closed it:
#
#   testdata/before.sh [PATTERN]
#
# For each line of testdata/before/cases.csv (class, commit, package, tests, their files, and a constant that came with the commit, where they
# need one) it takes the tree of the commit's parent, puts on it these files of the commit and nothing else, and runs the tests: they must
# fail there. Then the same tests on the commit itself, where they must pass. It prints a table, and exits 1 if a test passes before or
# fails after. With PATTERN only the lines whose commit or tests fit it. KEEP may name a folder for what the tests print.
#
# Where the tests of the commit cannot be there before, a script of what the program does, in testdata/before, is run on both.
# Where a test file names what came with the commit, the table says what. Folders are temporary; memory is bounded, since what is tried are bombs.
set -euo pipefail
cd "$(dirname "$0")/.."
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
bad=0

# tree NAME COMMIT: the files of a commit in a folder of that name.
tree() { [ -d "$work/$1" ] || { mkdir "$work/$1"; git archive "$2" | tar -x -C "$work/$1"; }; }

# run FOLDER PACKAGE TESTS: the tests there, their output in $work/out.
run() {
  local pattern="^(${3%%/*})\$"
  [[ "$3" != */* ]] || pattern+="/^(${3#*/})\$" # a part of a test
  (cd "$work/$1" && ulimit -v 16000000 && timeout 1200 nice -n 19 go test -vet=off -count=1 -v -timeout 200s -run "$pattern" "./$2") > "$work/out" 2>&1
}

# seen: what the last run came to, in one line.
seen() {
  if grep -qE '\[(build|setup) failed\]' "$work/out"; then
    names=$(grep -oE 'undefined: [A-Za-z.]+|has no field or method [A-Za-z]+|unknown field [A-Za-z]+|no required module provides package [a-z/]+|package [a-z/]+ is not in std|not enough arguments in call to [A-Za-z.]+|too many arguments in call to [A-Za-z.]+' "$work/out" | sed -E 's/.* //' | sort -u | paste -sd ' ')
    echo "does not compile: names ${names:-what came with it}"
  elif grep -q '^--- FAIL' "$work/out"; then
    echo "failed: $(grep -oE '^--- FAIL: [^ ]+' "$work/out" | sed 's/.*: //' | paste -sd ' ')"
  elif grep -qE 'panic: test timed out' "$work/out"; then echo "failed: did not end in 200 seconds"
  elif grep -qE 'out of memory|cannot allocate' "$work/out"; then echo "failed: out of memory"
  elif grep -qE '^(panic|fatal error)' "$work/out"; then echo "failed: $(grep -m1 -E '^(panic|fatal error)' "$work/out" | cut -c 1-60)"
  elif grep -q '^ok' "$work/out" && grep -q '^--- PASS' "$work/out"; then echo "passed"
  else echo "ran no test"; fi
}

echo "| class | commit | tests | on the commit before | on the commit |"
echo "|---|---|---|---|---|"
while IFS=, read -r class commit package tests files with; do
  [[ "$commit $tests" =~ ${1:-.} ]] || continue
  before=before-$commit after=after-$commit
  tree "$before" "$commit^"; tree "$after" "$commit"
  if [[ "$files" == testdata/before/* ]]; then # a script of what the program does, for both
    cp "$files" "$work/$before/$package/testdata/"; cp "$files" "$work/$after/$package/testdata/"
  else
    # shellcheck disable=SC2086 # names of files
    git archive "$commit" $files | tar -x -C "$work/$before"
  fi
  [ -z "$with" ] || echo "$with" >> "$work/$before/${files%% *}"
  run "$before" "$package" "$tests" || true
  old=$(seen); cp "$work/out" "${KEEP:-$work}/before-$commit-${tests//[^A-Za-z]/}.txt"
  run "$after" "$package" "$tests" || true
  new=$(seen); cp "$work/out" "${KEEP:-$work}/after-$commit-${tests//[^A-Za-z]/}.txt"
  echo "| $class | $commit | $package: ${tests//|/, } | $old | $new |"
  [[ "$old" != passed && "$old" != "ran no test" && "$new" = passed ]] || bad=1
  rm -rf "${work:?}/$before"
done < <(tail -n +2 testdata/before/cases.csv)
exit $bad
