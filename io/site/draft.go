package site

import (
	"errors"
	"fmt"
	"net/url"
	"slices"
	"strconv"
	"strings"
)

// draft is what a visitor has typed so far. Every figure is kept as it was typed, so that
// nothing is lost where it is wrong.
type draft struct {
	farms  []typedFarm
	others []typedPerson     // with a share, beside the visitor
	known  map[string]string // prices and county yields typed in place of ours, by field
	files  []File            // of an opened operation, in place of all above; the operation is the first
	demo   string            // "yes": the files are the demo's
	market string            // the text of a market file that was opened, laid over the site's
}

// typedFarm is a farm as its record is typed.
type typedFarm struct {
	number, county string
	share          string   // of the visitor
	shares         []string // of the others, in their order
	bases          []typedBase
}

// typedBase is a line of a farm record.
type typedBase struct{ crop, acres, yield, irrigated, elected string }

// typedPerson is somebody with a share.
type typedPerson struct{ name, kind string }

// The most of each that a form may hold: far more than is typed by hand.
const mostFarms, mostBases, mostOthers, mostFiles = 100, 40, 20, 20

// field is a field of a form and where its text is kept.
type field struct {
	name string
	at   *string
}

// fields are all fields of the forms in their order.
func (d *draft) fields() (all []field) {
	for i := range d.farms {
		f := &d.farms[i]
		name := fmt.Sprintf("f%d.", i+1)
		all = append(all, field{name + "county", &f.county}, field{name + "number", &f.number})
		for j := range f.bases {
			b := &f.bases[j]
			line := fmt.Sprintf("%sb%d.", name, j+1)
			all = append(all, field{line + "crop", &b.crop}, field{line + "acres", &b.acres}, field{line + "yield", &b.yield}, field{line + "irrigated", &b.irrigated}, field{line + "elected", &b.elected})
		}
		all = append(all, field{name + "share", &f.share})
		for j := range f.shares {
			all = append(all, field{fmt.Sprintf("%sw%d", name, j+1), &f.shares[j]})
		}
	}
	for i := range d.others {
		name := fmt.Sprintf("w%d.", i+1)
		all = append(all, field{name + "name", &d.others[i].name}, field{name + "kind", &d.others[i].kind})
	}
	return all
}

var errTooMuch = errors.New("this is more than the pages can hold: put the farms into a table and open it on the first page")

// draftOf reads the fields of a form.
func draftOf(form url.Values) (draft, error) {
	d := draft{known: map[string]string{}, demo: form.Get("demo"), market: form.Get("market.text")}
	for name := range form {
		if err := d.grow(name); err != nil {
			return d, err
		}
		if isKnown(name) && strings.TrimSpace(form.Get(name)) != "" {
			d.known[name] = strings.TrimSpace(form.Get(name))
		}
	}
	for i := range d.farms {
		f := &d.farms[i]
		f.shares = slices.Grow(f.shares, len(d.others))[:len(d.others)]
	}
	for _, f := range d.fields() {
		*f.at = strings.TrimSpace(form.Get(f.name))
	}
	for i := range d.files {
		d.files[i] = File{Name: form.Get(fmt.Sprintf("file%d.name", i+1)), Text: []byte(form.Get(fmt.Sprintf("file%d.text", i+1)))}
	}
	return d, nil
}

// grow makes room for a field by its name: f2.b3.crop is of the third base of the second
// farm.
func (d *draft) grow(name string) error {
	first, rest, _ := strings.Cut(name, ".")
	switch {
	case number(first, "f") > mostFarms, number(first, "w") > mostOthers, number(first, "file") > mostFiles:
		return errTooMuch
	case number(first, "file") > 0:
		d.files = enlarged(d.files, number(first, "file"))
	case number(first, "w") > 0:
		d.others = enlarged(d.others, number(first, "w"))
	case number(first, "f") > 0:
		d.farms = enlarged(d.farms, number(first, "f"))
		line, _, _ := strings.Cut(rest, ".")
		if number(line, "b") > mostBases {
			return errTooMuch
		}
		f := &d.farms[number(first, "f")-1]
		f.bases = enlarged(f.bases, number(line, "b"))
	}
	return nil
}

// enlarged returns at least n of them.
func enlarged[T any](all []T, n int) []T {
	for len(all) < n {
		var one T
		all = append(all, one)
	}
	return all
}

// number is that behind a letter, 0 where there is none.
func number(text, letter string) int {
	digits, is := strings.CutPrefix(text, letter)
	n, err := strconv.Atoi(digits)
	if !is || err != nil || n < 0 {
		return 0
	}
	return n
}

// isKnown reports whether a field is of a price or a county yield: p.corn.2026,
// y.99001.corn.all.2026, and s. for what the yield is from.
func isKnown(name string) bool {
	return strings.HasPrefix(name, "p.") || strings.HasPrefix(name, "y.") || strings.HasPrefix(name, "s.")
}

// opened reports whether the answer is of files and not of what was typed.
func (d *draft) opened() bool { return len(d.files) > 0 }

// empty reports whether a base has nothing typed.
func (b typedBase) empty() bool { return b.crop == "" && b.acres == "" && b.yield == "" }

// tidy takes out farms and lines without anything typed, and keeps one of each.
func (d *draft) tidy() {
	for i := range d.farms {
		f := &d.farms[i]
		f.bases = slices.DeleteFunc(f.bases, typedBase.empty)
	}
	first := true
	d.farms = slices.DeleteFunc(d.farms, func(f typedFarm) bool {
		drop := !first && len(f.bases) == 0 && f.county == "" && f.number == ""
		first = false
		return drop
	})
}
