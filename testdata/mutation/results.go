package main

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strconv"
)

type outcome string

const (
	doesNotCompile outcome = "does not compile"
	killed         outcome = "killed"
	killedByTime   outcome = "killed by the time limit"
	survivedNear   outcome = "survived the tests near it"
	survivedFar    outcome = "survived all tests"
)

// result is what became of one change.
type result struct {
	key     string
	outcome outcome
	by      string // the package, or its first test that failed
	seconds float64
}

func (r result) survived() bool { return r.outcome == survivedNear || r.outcome == survivedFar }

func (r result) String() string {
	return fmt.Sprintf("%s: %s %s (%.0f s)", r.key, r.outcome, r.by, r.seconds)
}

// results are those of earlier runs and of this one, the last of each change.
type results struct {
	file  string
	byKey map[string]result
}

func readResults(file string) (*results, error) {
	all := &results{file, map[string]result{}}
	f, err := os.Open(file)
	if errors.Is(err, fs.ErrNotExist) {
		return all, nil
	} else if err != nil {
		return nil, err
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	for _, row := range rows {
		seconds, _ := strconv.ParseFloat(row[3], 64)
		all.byKey[row[0]] = result{row[0], outcome(row[1]), row[2], seconds}
	}
	return all, err
}

func (all *results) of(c change) (result, bool) {
	r, done := all.byKey[c.key()]
	return r, done
}

func (all *results) add(r result) error {
	all.byKey[r.key] = r
	f, err := os.OpenFile(all.file, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	if err != nil {
		return err
	}
	w := csv.NewWriter(f)
	err = w.Write(slices.Clip([]string{r.key, string(r.outcome), r.by, strconv.FormatFloat(r.seconds, 'f', 1, 64)}))
	w.Flush()
	return errors.Join(err, w.Error(), f.Close())
}
