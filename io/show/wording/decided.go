package wording

import (
	"slices"
	"strings"

	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// NotRecorded stands for what nobody noted: it may have been done.
const NotRecorded = "not recorded here"

// blank is where a choice can be written by hand.
const blank = "____"

// Choice writes a choice that people typed, a line to write on where they did not.
func Choice(typed *farm.Program) string {
	if typed == nil {
		return blank
	}
	return string(*typed)
}

// Signed says whether a signer signed the year's election of a farm.
func Signed(s answer.Signer) string {
	switch {
	case s.On != "":
		return "signed " + Date(s.On)
	case s.Signed == farm.Yes:
		return "signed"
	case s.Signed == farm.No:
		return "not signed"
	}
	return NotRecorded
}

// WithoutChoice names the farms and crops that are not in the sums under the typed choices
// of a year: those without a choice, then those without a figure. list joins names.
func WithoutChoice(y answer.YearPart, list func([]string) string) string {
	under := y.Operation.UnderElections(answer.TypedChoice)
	if under == nil {
		return ""
	}
	var untyped, missing []string
	for _, l := range y.Standing.Lines {
		name := Farm(l.Farm, y.Farms) + " " + l.Commodity.Name()
		switch {
		case !slices.Contains(under.LeftOut, l.Farm+" "+string(l.Commodity)):
		case l.Typed == nil:
			untyped = append(untyped, name)
		default:
			missing = append(missing, name)
		}
	}
	var said []string
	if len(untyped) > 0 {
		said = append(said, "Not in it, because no choice is typed: "+list(untyped)+".")
	}
	if len(missing) > 0 {
		said = append(said, "Not in it, because a figure is missing: "+list(missing)+".")
	}
	if under.ARCICInside {
		said = append(said, "An ARC-IC figure that is not confirmed is in it.")
	}
	return strings.Join(said, " ")
}
