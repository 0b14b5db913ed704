package names

import (
	"cmp"
	"slices"
	"strings"

	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// Year returns a year of an answer with what may be shown of names: all of it without a
// mask.
func (l Labels) Year(y answer.YearPart) answer.YearPart {
	if l.part == "" {
		return y
	}
	key := func(key string) string {
		code, _, _ := strings.Cut(key, "-")
		return code + "-" + l.Farm(key)
	}
	people := func(all []answer.PersonPart) []answer.PersonPart {
		all = slices.Clone(all)
		for i := range all {
			all[i].ID = l.Person(all[i].ID)
		}
		return all
	}
	left := func(all []string) (hidden []string) {
		for _, both := range all { // farm and commodity
			farm, commodity, _ := strings.Cut(both, " ")
			hidden = append(hidden, key(farm)+" "+commodity)
		}
		return hidden
	}
	y.Farms, y.Standing.Lines, y.Operation.Under = slices.Clone(y.Farms), slices.Clone(y.Standing.Lines), slices.Clone(y.Operation.Under)
	for i := range y.Farms {
		y.Farms[i].Farm = key(y.Farms[i].Farm)
	}
	for i := range y.Standing.Lines {
		line := &y.Standing.Lines[i]
		line.Farm, line.Signers = key(line.Farm), slices.Clone(line.Signers)
		for k := range line.Signers {
			line.Signers[k].ID = l.Person(line.Signers[k].ID)
		}
	}
	for i := range y.Operation.Under {
		u := &y.Operation.Under[i]
		u.ByPerson, u.LeftOut = people(u.ByPerson), left(u.LeftOut)
	}
	y.Operation.ByPerson, y.Operation.LeftOut = people(y.Operation.ByPerson), left(y.Operation.LeftOut)
	return y
}

// Words returns what hides the names of an operation in a text: people, farms and tracts.
// Without a mask it hides nothing.
func (l Labels) Words(o farm.Operation) func(text string) string {
	if l.part == "" {
		return func(text string) string { return text }
	}
	type hidden struct{ name, by string }
	var all []hidden
	add := func(name, by string) {
		if name != "" {
			all = append(all, hidden{name, by})
		}
	}
	for _, p := range o.Producers {
		add(p.ID, l.Person(p.ID))
		for _, m := range p.Members {
			add(m.ID, l.Person(m.ID))
		}
	}
	for _, f := range o.Farms {
		add(f.Key(), l.Farm(f.Key()))
		add("farm "+f.Number, l.Farm(f.Key()))
		add("farm "+f.MergeWith, "another farm")
		for _, b := range f.Bases {
			add("tract "+b.Tract, "one tract")
		}
	}
	slices.SortStableFunc(all, func(a, b hidden) int { return cmp.Compare(len(b.name), len(a.name)) })
	return func(text string) string {
		for _, one := range all {
			text = replaceWords(text, one.name, one.by)
		}
		return text
	}
}

// replaceWords replaces a name where neither a letter nor a digit stands beside it.
func replaceWords(text, name, by string) string {
	inWord := func(at int) bool {
		return at >= 0 && at < len(text) && (text[at] >= '0' && text[at] <= '9' || text[at]|0x20 >= 'a' && text[at]|0x20 <= 'z')
	}
	var out strings.Builder
	from := 0
	for {
		at := strings.Index(text[from:], name)
		if at < 0 {
			out.WriteString(text[from:])
			return out.String()
		}
		at += from
		out.WriteString(text[from:at])
		if inWord(at-1) || inWord(at+len(name)) {
			out.WriteString(name[:1])
			from = at + 1
			continue
		}
		out.WriteString(by)
		from = at + len(name)
	}
}
