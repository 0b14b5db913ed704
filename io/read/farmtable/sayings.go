package farmtable

import "fencerow/program/crop"

// fact is something that rows of a farm can say only one way: of the farm alone,
// or of a commodity, a place or a crop year.
type fact struct {
	column    column
	commodity crop.Commodity
	place     place
	producer  string
	year      crop.CropYear
}

// saying is the row that said it.
type saying struct {
	text string
	line int
}

// sayings are the facts of a farm with what was said of each. A few, as most farms have, are
// looked through, which takes less than looking them up.
type sayings struct {
	few  []told
	many map[fact]saying // nil while there are few
}

type told struct {
	fact
	saying
}

// usualSayings is how many facts most farms have at most.
const usualSayings = 24

// mostLookedThrough is how many facts are few.
const mostLookedThrough = 64

// of returns what was said of a fact.
func (s *sayings) of(about fact) (said saying, known bool) {
	if s.many != nil {
		said, known = s.many[about]
		return said, known
	}
	if i := s.place(about); i >= 0 {
		return s.few[i].saying, true
	}
	return saying{}, false
}

// lineOf returns the line of the row that said a fact, 0 for none.
func (s *sayings) lineOf(about fact) int {
	said, _ := s.of(about)
	return said.line
}

func (s *sayings) place(about fact) int {
	for i := range s.few {
		if one := &s.few[i]; one.column == about.column && one.fact == about {
			return i
		}
	}
	return -1
}

// put notes what is said of a fact, in place of what was said before.
func (s *sayings) put(about fact, said saying) {
	i := -1
	if s.many == nil {
		i = s.place(about)
	}
	switch {
	case s.many != nil:
		s.many[about] = said
	case i >= 0:
		s.few[i].saying = said
	case len(s.few) < mostLookedThrough:
		if s.few == nil {
			s.few = make([]told, 0, usualSayings)
		}
		s.few = append(s.few, told{about, said})
	default:
		s.many = map[fact]saying{about: said}
		for _, one := range s.few {
			s.many[one.fact] = one.saying
		}
	}
}
