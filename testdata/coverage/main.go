// Command coverage holds how many statements of each package the tests of the repository reach:
//
//	go test -coverpkg=./... -coverprofile=FILE ./...     # or of fewer packages, by fewer tests
//	go run ./testdata/coverage FILE
//
// It lists every package with its bound, and ends with 1 where one lies below. The law and what is made of it (program and
// below, sim/payoff, sim/limits) has a higher bound than the rest. Packages that the profile does not name are not held, nor
// some that other runs reach (elsewhere).
package main

import (
	"bufio"
	"fmt"
	"maps"
	"os"
	"path"
	"slices"
	"strconv"
	"strings"
)

// Least percentages of statements reached.
const (
	leastOfLaw  = 95
	leastOfRest = 85
)

// law are the packages, with those below them, that the higher bound holds for.
var law = []string{"fencerow/program", "fencerow/sim/payoff", "fencerow/sim/limits"}

// elsewhere says what else reaches a package that has no bound.
var elsewhere = map[string]string{
	"fencerow/cmd/page":           "run whole by .ci/run",
	"fencerow/cmd/release":        "run whole by .ci/run",
	"fencerow/sim/invented/sound": "tests alone use it; the rest of it runs where one fails",
}

func least(name string) float64 {
	if elsewhere[name] != "" {
		return 0
	}
	for _, room := range law {
		if name == room || strings.HasPrefix(name, room+"/") {
			return leastOfLaw
		}
	}
	return leastOfRest
}

// count are the statements of a package.
type count struct{ all, reached int }

func (c count) percent() float64 { return 100 * float64(c.reached) / float64(c.all) }

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: go run ./testdata/coverage FILE")
		os.Exit(2)
	}
	packages, err := read(os.Args[1])
	if err != nil {
		fmt.Fprintln(os.Stderr, "coverage:", err)
		os.Exit(2)
	}
	below := 0
	for _, name := range slices.Sorted(maps.Keys(packages)) {
		c, word := packages[name], ""
		if c.percent() < least(name) {
			below, word = below+1, "  BELOW"
		}
		if why := elsewhere[name]; why != "" {
			word = ": " + why
		}
		fmt.Printf("%-40s %6d statements %6.1f percent reached, at least %.0f%s\n", name, c.all, c.percent(), least(name), word)
	}
	if below > 0 {
		fmt.Fprintf(os.Stderr, "coverage: %d packages lie below their bound\n", below)
		os.Exit(1)
	}
}

// read counts the statements of a profile. A block stands in it once for every test program: it is reached where
// one of them reaches it.
func read(file string) (map[string]count, error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	statements, reached := map[string]int{}, map[string]bool{}
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		block, numbers, found := strings.Cut(lines.Text(), " ")
		if !strings.HasPrefix(block, "fencerow/") { // the first line, and modules of others
			continue
		}
		size, times, also := strings.Cut(numbers, " ")
		n, err := strconv.Atoi(size)
		if !found || !also || err != nil {
			return nil, fmt.Errorf("%s: %q is no line of a profile", file, lines.Text())
		}
		statements[block], reached[block] = n, reached[block] || times != "0"
	}
	if len(statements) == 0 {
		return nil, fmt.Errorf("%s: no statements", file)
	}
	packages := map[string]count{}
	for block, n := range statements {
		name := path.Dir(block[:strings.LastIndex(block, ":")])
		c := packages[name]
		c.all += n
		if reached[block] {
			c.reached += n
		}
		packages[name] = c
	}
	return packages, lines.Err()
}
