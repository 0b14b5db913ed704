package names

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// Labels returns the names of clients, operations, farms and persons, or, with a mask,
// numbers in their place that are the same on every run of the same table. One Labels
// serves one part; its numbers hold the part, so that no two parts share one. The zero
// Labels hides nothing.
type Labels struct {
	part     string         // with its share, "03of16-1"; "": no mask
	seen     map[string]int // by kind and name
	next     map[string]int // by kind
	counties farm.CountyBook
}

// New returns the labels of a part of a share ("": of all); masked hides the names.
// counties name counties, which are never hidden.
func New(share string, part int, masked bool, counties farm.CountyBook) Labels {
	l := Labels{counties: counties}
	if masked {
		l.part, l.seen, l.next = fmt.Sprintf("%s%d", share, part), map[string]int{}, map[string]int{}
	}
	return l
}

// Masked reports whether names are hidden.
func (l Labels) Masked() bool { return l.part != "" }

func (l Labels) of(kind, name string) string {
	if l.part == "" || name == "" {
		return name
	}
	key := kind + "|" + name
	if l.seen[key] == 0 {
		l.next[kind]++
		l.seen[key] = l.next[kind]
	}
	return fmt.Sprintf("%s %s-%d", kind, l.part, l.seen[key])
}

// Client returns what is shown of a client's name.
func (l Labels) Client(name string) string { return l.of("client", name) }

// Operation returns what is shown of the name of a client's operation.
func (l Labels) Operation(client, name string) string {
	if l.part == "" || name == "" {
		return name
	}
	return l.of("operation", client+"|"+name)
}

// Farm returns what is shown of a farm's key.
func (l Labels) Farm(key string) string { return l.of("farm", key) }

// Person returns what is shown of a person's name.
func (l Labels) Person(id string) string { return l.of("person", id) }

// Signers names who has a share in a line, with "; " between: the largest share first, of
// equals by name.
func (l Labels) Signers(line answer.StandingLine) string {
	var names []string
	for _, s := range slices.SortedFunc(slices.Values(line.Signers), func(a, b answer.Signer) int { return cmp.Or(cmp.Compare(b.Share, a.Share), cmp.Compare(a.ID, b.ID)) }) {
		names = append(names, l.Person(s.ID))
	}
	return strings.Join(names, "; ")
}

// Place takes the key of a farm apart: the code and name of the county that keeps its
// records, the name of its State (two digits where it has none) and the farm's number.
func (l Labels) Place(f answer.FarmPart) (code, county, state, number string) {
	code, number, _ = strings.Cut(f.Farm, "-")
	if l.part != "" {
		number = l.Farm(f.Farm)
	}
	if name := l.counties.Name(code); name != "" {
		county = farm.CountyName(code, name)
	}
	const digits = 2
	state = code[:min(digits, len(code))]
	return code, county, cmp.Or(crop.StateNames[state], state), number
}
