package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// sizedCrops are crops with a county yield and a PLC yield, invented.
var sizedCrops = []struct {
	name        string
	county, plc int
}{{"corn", 180, 150}, {"soybeans", 50, 44}, {"wheat", 55, 46}, {"grain_sorghum", 80, 66}, {"oats", 70, 58}, {"barley", 75, 60}, {"canola", 1800, 1500}, {"peanuts", 4000, 3300}}

// sized is an operation of an odd size: farms of some crops each in as many counties, all
// farms shared alike by some people.
type sized struct {
	name                           string
	farms, crops, counties, people int
}

// write writes the operation with a file of each county, and returns its name.
func (s sized) write(t *testing.T, folder string) string {
	t.Helper()
	put := func(name, text string) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	var counties, people, shares []string
	for i := range s.counties {
		text := fmt.Sprintf("format: fencerow/county/1\ncode: \"99%03d\"\nname: County %d\nyields:\n", i+1, i+1)
		for _, c := range sizedCrops {
			text += fmt.Sprintf("  - {commodity: %s, practice: all, adjusted: {2026: [%d, %[2]d, %[2]d, %[2]d, %[2]d]}, outlook: {2026: {yield: %[2]d, known_from: before_harvest}}}\n", c.name, c.county)
		}
		counties = append(counties, filepath.Base(put(fmt.Sprintf("c%d.yaml", i+1), text)))
	}
	for i := range s.people {
		people = append(people, fmt.Sprintf("  - {id: p%d, kind: person}\n", i))
		shares = append(shares, fmt.Sprintf("p%d: %s", i, strconv.FormatFloat(float64(9000/s.people)/10_000, 'f', 4, 64)))
	}
	text := "format: fencerow/operation/1\ncrop_years: [2026]\ncounty_files: [" + strings.Join(counties, ", ") + "]\nproducers:\n" + strings.Join(people, "") + "farms:\n"
	for i := range s.farms {
		var bases []string
		for _, c := range sizedCrops[:s.crops] {
			bases = append(bases, fmt.Sprintf("{commodity: %s, base_acres: %d, payment_yield: %d}", c.name, 100+i%200, c.plc))
		}
		text += fmt.Sprintf("  - {farm: \"%d\", county: \"99%03d\", shares: {%s}, bases: [%s]}\n", i+1, 1+i%s.counties, strings.Join(shares, ", "), strings.Join(bases, ", "))
	}
	return put(s.name+".yaml", text)
}

// Operations of odd sizes are answered, or refused with a sentence, within two minutes of the processor and
// bounds of memory that an office's computer has.
func TestOddSizes(t *testing.T) {
	if os.Getenv(longRun) == "" {
		t.Skip("minutes of work: FENCEROW_LONG")
	}
	const mostProcessor = 120 * time.Second
	for _, s := range []sized{
		{"10000-bases", 2500, 4, 1, 1},
		{"3000-producers", 1, 1, 1, 3000},
		{"200-farms-of-8-crops", 200, 8, 1, 3}, // some 100,000 USD a person and crop: limits bind
		{"500-counties", 500, 1, 500, 1},
	} {
		operation := s.write(t, t.TempDir())
		market, err := filepath.Abs(filepath.Join("demo", "market.yaml"))
		if err != nil {
			t.Fatal(err)
		}
		command := exec.Command("fencerow", "compare", operation, "--book", "none", "--builtin", "none", "--market", market, "--today", demoToday, "--draws", "1024")
		var stdout, stderr bytes.Buffer
		command.Stdout, command.Stderr = &stdout, &stderr
		command.Env = append(os.Environ(), "GOMEMLIMIT=3GiB")
		err = command.Run()
		code, took := command.ProcessState.ExitCode(), command.ProcessState.UserTime()
		switch {
		case code == exitDone && (stdout.Len() == 0 || strings.Contains(stdout.String(), "NaN")):
			t.Errorf("%s: an answer of %d bytes", s.name, stdout.Len())
		case code == exitInput && !strings.Contains(stderr.String(), "hint:"):
			t.Errorf("%s: refused without what to do: %s", s.name, stderr.String())
		case code != exitDone && code != exitInput:
			t.Errorf("%s: exit %d, %v: %s", s.name, code, err, stderr.String())
		}
		if took > mostProcessor {
			t.Errorf("%s took %v of the processor, at most %v", s.name, took, mostProcessor)
		}
		fmt.Printf("%s: exit %d, %.1f seconds of the processor, %d bytes of answer\n", s.name, code, took.Seconds(), stdout.Len())
	}
}
