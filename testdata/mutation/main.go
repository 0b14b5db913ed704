// Command mutation draws one-token changes of the law and of what is made of it (program
// and below, sim/payoff, sim/limits), applies each by itself to a copy of the tree, and runs
// the tests until the first that fails. What no test notices survives and is listed:
//
//	nice -n 19 go run ./testdata/mutation -work FOLDER           # the tests of these rooms
//	nice -n 19 go run ./testdata/mutation -work FOLDER -far      # those of all rooms, for what survived
//	nice -n 19 go run ./testdata/mutation -work FOLDER -again    # survivors once more, by the tests as they are now
//
// Results stand in WORK/results.csv, a line a change, and are not worked out twice: a run
// that was stopped goes on where it was. The same seed and the same source draw the same changes. The source and
// the tests of the first run are kept in WORK/fencerow: copy new tests there before -again.
package main

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

func main() {
	work := flag.String("work", "", "folder of the copy, the build cache and the results")
	count := flag.Int("count", 200, "how many changes that compile")
	seed := flag.Uint64("seed", 1, "of the draw")
	far := flag.Bool("far", false, "run the tests of all rooms that depend on a changed one, for changes that survived those near it")
	again := flag.Bool("again", false, "run survivors once more, with the tests as they are now")
	flag.Parse()
	if *work == "" || flag.NArg() > 0 {
		flag.Usage()
		os.Exit(2)
	}
	if err := run(*work, *count, *seed, *far, *again); err != nil {
		fmt.Fprintln(os.Stderr, "mutation:", err)
		os.Exit(1)
	}
}

func run(work string, count int, seed uint64, far, again bool) error {
	tree := filepath.Join(work, "fencerow")
	if err := copyTree(".", tree); err != nil {
		return err
	}
	changes, err := allChanges(tree)
	if err != nil {
		return err
	}
	fmt.Printf("%d changes at %d sites of %s; seed %d\n", len(changes), sites(changes), strings.Join(rooms, ", "), seed)
	rand.New(rand.NewPCG(seed, 0)).Shuffle(len(changes), func(i, j int) { changes[i], changes[j] = changes[j], changes[i] })
	known, err := readResults(filepath.Join(work, "results.csv"))
	if err != nil {
		return err
	}
	tests, err := newTests(work, tree)
	if err != nil {
		return err
	}
	valid := 0
	for _, c := range changes {
		if valid == count {
			break
		}
		r, done := known.of(c)
		if !done || again && r.survived() || far && r.outcome == survivedNear {
			if r, err = tests.run(c, far || again && r.outcome == survivedFar); err != nil {
				return err
			}
			if err := known.add(r); err != nil {
				return err
			}
			fmt.Println(r)
		}
		if r.outcome != doesNotCompile {
			valid++
		}
	}
	return summarize(known, changes, count)
}

// summarize counts the outcomes and lists the survivors.
func summarize(known *results, changes []change, count int) error {
	outcomes := map[outcome]int{}
	var left []string
	valid := 0
	for _, c := range changes {
		r, done := known.of(c)
		if !done || valid == count {
			break
		}
		outcomes[r.outcome]++
		if r.outcome != doesNotCompile {
			valid++
		}
		if r.survived() {
			left = append(left, r.String())
		}
	}
	fmt.Printf("\n%d changes that compile; left out: %d that do not\n", valid, outcomes[doesNotCompile])
	fmt.Printf("killed: %d, of these by the time limit: %d; survived: %d\n", outcomes[killed]+outcomes[killedByTime], outcomes[killedByTime], len(left))
	slices.Sort(left)
	for _, line := range left {
		fmt.Println(line)
	}
	return nil
}
