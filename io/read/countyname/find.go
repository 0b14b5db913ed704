package countyname

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"fencerow/program/farm"
)

var (
	plainCode   = regexp.MustCompile(`^[0-9]{5}[A-Za-z]?$`)
	lostZero    = regexp.MustCompile(`^[0-9]{4}[A-Za-z]?$`)
	dividedCode = regexp.MustCompile(`^([0-9]{1,2})[- ]([0-9]{3}[A-Za-z]?)$`)
)

// Find returns the code of the county that a text means: a code, with or without
// hyphen, its first zero or a capital letter; or a name with its State, which a
// name that one county alone has may lack. Five digits are taken as they stand,
// known or not: State 99 marks invented counties. what names the value in the
// fault, which says what to do: it names up to three counties.
func Find(what, text string) (code string, fault *farm.Fault) {
	return FindIn(what, "", text)
}

// FindIn is Find for a text beside which the State is given, by its two digits; "" is
// none. What the text means in that State goes first.
func FindIn(what, state, text string) (code string, fault *farm.Fault) {
	text = strings.TrimSpace(text)
	if strings.ContainsAny(text, "0123456789") {
		return findCode(what, text)
	}
	meant := loaded().meant(state, text)
	switch len(meant) {
	case 0:
		return "", unknown(what, state, text)
	case 1:
		return loaded().counties[meant[0]].code, nil
	}
	return "", &farm.Fault{Reason: fmt.Sprintf("%s is %q, a name of %d counties", what, text, len(meant)), Hint: severalHint(meant)}
}

// findCode reads a text with digits. A zero is put back only where that makes the
// code of a county that the agencies know.
func findCode(what, text string) (string, *farm.Fault) {
	code := strings.ToUpper(text)
	if divided := dividedCode.FindStringSubmatch(code); divided != nil {
		code = fmt.Sprintf("%02s", divided[1]) + divided[2]
	}
	if lostZero.MatchString(code) { // else the list of counties is not needed
		if _, known := loaded().byCode["0"+code]; known {
			code = "0" + code
		}
	}
	if plainCode.MatchString(code) {
		return code, nil
	}
	return "", farm.CheckCountyCode(what, text)
}

// reading is one way to part a text into a State and a county's folded name.
type reading struct{ state, name string }

// readings are the ways to understand a text, the likeliest first: the State is
// given, or named last, first or not at all.
func readings(state, text string) (all []reading) {
	folded := words(text)
	if state != "" {
		all = append(all, reading{state, joined(folded)})
	}
	part := func(name, state []string) {
		if found := stateWords()[strings.Join(state, "")]; found != "" && len(name) > 0 {
			all = append(all, reading{found, joined(name)})
		}
	}
	for n := min(2, len(folded)); n > 0; n-- { // words of the State
		part(folded[:len(folded)-n], folded[len(folded)-n:])
	}
	for n := min(2, len(folded)); n > 0; n-- {
		part(folded[n:], folded[:n])
	}
	if state == "" {
		all = append(all, reading{"", joined(folded)})
	}
	return all
}

// meant are the counties that a text means: those of the first reading that has any.
// "Co" at the end is Colorado or a county: without a comma both count.
func (g *gazetteer) meant(state, text string) []int {
	ways := readings(state, text)
	if folded := words(text); state == "" && len(folded) > 1 && folded[len(folded)-1] == "co" && !strings.Contains(text, ",") {
		last := ways[len(ways)-1]
		return unique(slices.Concat(g.read(ways[0]), g.read(last)))
	}
	for _, way := range ways {
		if found := g.read(way); len(found) > 0 {
			return found
		}
	}
	return nil
}

// read are the counties of one reading, in the order of their codes.
func (g *gazetteer) read(way reading) (found []int) {
	for state, names := range g.named {
		if way.state == "" || way.state == state {
			found = append(found, names[way.name]...)
		}
	}
	return unique(found)
}

// unique sorts and takes out what stands twice.
func unique(all []int) []int {
	slices.Sort(all)
	return slices.Compact(all)
}

// mostSuggested is how many counties a hint names.
const mostSuggested = 3

// severalHint names the first counties of a name that several have.
func severalHint(meant []int) string {
	var names []string
	for _, i := range meant[:min(len(meant), mostSuggested)] {
		names = append(names, loaded().counties[i].String())
	}
	hint := "write its State too, or the five digits of one: " + strings.Join(names, "; ")
	if sameState(meant) {
		hint = "write the five digits of one, with its letter if it has one: " + strings.Join(names, "; ")
	}
	if more := len(meant) - len(names); more > 0 {
		hint += fmt.Sprintf("; and %d more", more)
	}
	return hint
}

// sameState reports whether all counties lie in one State.
func sameState(meant []int) bool {
	first := loaded().counties[meant[0]].state()
	return !slices.ContainsFunc(meant, func(i int) bool { return loaded().counties[i].state() != first })
}

// unknown is the fault of a text that means no county. It names those that come near.
func unknown(what, state, text string) *farm.Fault {
	ways := readings(state, text)
	fault := &farm.Fault{
		Reason: fmt.Sprintf("%s is %q, without its state, and no county has that name", what, text),
		Hint:   "write name and State, or State and county in five digits as FSA does",
	}
	if in := ways[0].state; in != "" {
		fault.Reason = fmt.Sprintf("%s %q is not known in %s", what, text, stateNamed(in))
	}
	if state == inventedState {
		return fault
	}
	if near := near(ways, text); len(near) > 0 {
		fault.Hint = "did you mean " + strings.Join(near, "; ") + "? Write name and State, or the five digits"
	}
	return fault
}

// near names up to three counties that a text comes near, the nearest first:
// "Story, Iowa (19169)".
func near(ways []reading, text string) (names []string) {
	if head, _, ok := strings.Cut(text, ","); ok && len(ways) == 1 {
		ways = append(ways, reading{ways[0].state, fold(head)}) // the State may be the slip
	}
	for _, i := range loaded().near(ways) {
		names = append(names, loaded().counties[i].String())
	}
	return names
}
