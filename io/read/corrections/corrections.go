package corrections

import (
	"cmp"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"fencerow/io/read/document"
)

// Format is the first line of the list.
const Format = "fencerow/corrections/1"

// List is the list of corrections as of a day.
type List struct {
	AsOf time.Time
	All  []Correction // in the order of the file
}

// Correction is one wrong figure and the releases that gave it.
type Correction struct {
	ID         string `json:"id"`
	FirstWrong string `json:"first_wrong"` // the first release that gave it, as 1.0.0
	FixedIn    string `json:"fixed_in"`    // the first release after it that does not; "" while there is none
	Wrong      string `json:"wrong"`       // which figure, what it was and what it is
	Affects    string `json:"affects"`     // which answers rest on it
	Do         string `json:"do"`          // what to do about answers that were given
	Source     string `json:"source"`      // who says so; may be empty
}

// Parse reads a list. All mistakes come back together, as farm.Mistakes.
func Parse(file string, text []byte) (list List, err error) {
	root, err := document.Parse(file, text)
	if err != nil {
		return list, err
	}
	r := document.NewReader(file)
	if r.Format(root, Format) {
		ids := map[string]bool{}
		r.Fields(root, "the list of corrections",
			document.Must("format", func(document.Node) {}),
			document.Must("as_of", func(v document.Node) { list.AsOf, _ = r.Date(v, "as_of") }),
			document.Must("corrections", func(v document.Node) {
				r.Items(v, "corrections", func(item document.Node) {
					one := correctionOf(r, item)
					if one.ID != "" && ids[one.ID] {
						r.Refuse(item, fmt.Sprintf("the correction %q stands twice", one.ID), "give each an id of its own")
					}
					ids[one.ID] = true
					list.All = append(list.All, one)
				})
			}))
	}
	return list, r.Err()
}

// correctionOf reads one entry.
func correctionOf(r *document.Reader, item document.Node) (c Correction) {
	text := func(into *string, what string) func(document.Node) {
		return func(v document.Node) { *into, _ = r.Text(v, what) }
	}
	release := func(into *string, what string) func(document.Node) {
		return func(v document.Node) {
			if *into, _ = r.Text(v, what); *into != "" && !IsRelease(*into) {
				r.Refuse(v, fmt.Sprintf("%s is %q", what, *into), "write a release as 1.0.0")
			}
		}
	}
	r.Fields(item, "the correction",
		document.Must("id", text(&c.ID, "id")),
		document.Must("first_wrong", release(&c.FirstWrong, "first_wrong")),
		document.May("fixed_in", release(&c.FixedIn, "fixed_in")),
		document.Must("wrong", text(&c.Wrong, "wrong")),
		document.Must("affects", text(&c.Affects, "affects")),
		document.Must("do", text(&c.Do, "do")),
		document.May("source", text(&c.Source, "source")))
	if IsRelease(c.FirstWrong) && IsRelease(c.FixedIn) && !before(c.FirstWrong, c.FixedIn) {
		r.Refuse(item, fmt.Sprintf("fixed_in is %s, first_wrong is %s", c.FixedIn, c.FirstWrong), "a release that fixes a figure comes after the first that had it wrong")
	}
	return c
}

var release = regexp.MustCompile(`^[0-9]{1,6}\.[0-9]{1,6}\.[0-9]{1,6}$`)

// IsRelease reports whether text names a release: three numbers, as 1.0.0.
func IsRelease(text string) bool { return release.MatchString(text) }

// Of are the corrections of figures that a release gave wrong. It must be one (IsRelease).
func (l List) Of(release string) (wrong []Correction) {
	for _, c := range l.All {
		if !before(release, c.FirstWrong) && (c.FixedIn == "" || before(release, c.FixedIn)) {
			wrong = append(wrong, c)
		}
	}
	return wrong
}

// before reports whether a release came before another: 1.9.0 before 1.10.0.
func before(a, b string) bool {
	of, than := strings.Split(a, "."), strings.Split(b, ".")
	for i := range of {
		x, _ := strconv.Atoi(of[i]) // both are releases
		y, _ := strconv.Atoi(than[i])
		if c := cmp.Compare(x, y); c != 0 {
			return c < 0
		}
	}
	return false
}
