package batch

import (
	"fmt"
	"slices"
	"strings"
)

// differs names the inputs and settings in which a run differs from the one before, ""
// for none. Inputs are compared by content; where they lie does not matter.
func (a audit) differs(before audit) string {
	var all []string
	for _, s := range []struct {
		what        string
		before, now any
	}{
		{"version of fencerow", before.Version, a.Version}, {"--today", before.Today, a.Today}, {"--seed", before.Seed, a.Seed}, {"--draws", before.Draws, a.Draws},
		{"--crop-year", yearsText(before.CropYears), yearsText(a.CropYears)}, {"--close", before.Close, a.Close}, {"--least", before.Least, a.Least},
		{"--part", orAll(before.Part), orAll(a.Part)}, {"--mask", before.Masked, a.Masked}, {"--insurance", before.Insured, a.Insured}, {"without the built-in county tables", before.NoTables, a.NoTables},
		{"the date of the prices", before.Market, a.Market}, {"the source of the prices", before.Source, a.Source},
	} {
		if s.before != s.now {
			all = append(all, fmt.Sprintf("%s was %v and is now %v", s.what, s.before, s.now))
		}
	}
	return strings.Join(append(all, otherInputs(slices.Concat([]Input{before.Table}, before.Inputs), slices.Concat([]Input{a.Table}, a.Inputs))...), "; ")
}

func yearsText(years []int) string {
	if len(years) == 0 {
		return "that of the rows"
	}
	return strings.Trim(fmt.Sprint(years), "[]")
}

func orAll(part string) string {
	if part == "" {
		return "all"
	}
	return part
}

// otherInputs compares the files of two runs, in their order.
func otherInputs(before, now []Input) (all []string) {
	for i := range max(len(before), len(now)) {
		switch {
		case i >= len(before):
			all = append(all, fmt.Sprintf("the %s %s was not given before", now[i].What, now[i].Path))
		case i >= len(now):
			all = append(all, fmt.Sprintf("the %s %s was given before and is not now", before[i].What, before[i].Path))
		case before[i].What != now[i].What:
			return append(all, fmt.Sprintf("the %s %s was given before, here the %s %s", before[i].What, before[i].Path, now[i].What, now[i].Path))
		case before[i].SHA256 != now[i].SHA256:
			all = append(all, fmt.Sprintf("the %s %s differs from the one used before (%s)", now[i].What, now[i].Path, before[i].Path))
		}
	}
	return all
}
