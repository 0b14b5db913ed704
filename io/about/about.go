package about

import (
	"cmp"
	"fmt"
	"io"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"time"

	"fencerow/io/read/builtin"
	"fencerow/io/read/corrections"
	"fencerow/io/read/document"
	"fencerow/io/read/market"
	"fencerow/io/show/wording"
	"fencerow/io/source"
	"fencerow/program/law"
)

// Format names the JSON of fencerow version.
const Format = "fencerow/version/1"

// View is what the program says of itself.
type View struct {
	Format   string `json:"format"`
	Version  string `json:"version"`
	Released string `json:"released"` // "" of what is no release
	Commit   string `json:"commit"`   // "" where it is not known
	BuiltBy  string `json:"go"`       // version of Go
	System   string `json:"system"`
	Law      struct {
		First int    `json:"first_crop_year"`
		Last  int    `json:"last_crop_year"`
		Read  string `json:"newest_text_read"`
	} `json:"law"`
	Prices struct {
		AsOf   string `json:"as_of"`
		Source string `json:"source"`
	} `json:"prices"`
	Tables []tableDate  `json:"tables"`
	Check  *checkedList `json:"check"` // null without --check
}

// tableDate is the day of a built-in table.
type tableDate struct {
	Agency  string `json:"agency"`
	File    string `json:"file"`
	Edition string `json:"edition"`
}

// checkedList is what a list of corrections says of this program.
type checkedList struct {
	File  string                   `json:"file"`
	AsOf  string                   `json:"as_of"`
	Known bool                     `json:"known"` // this is a release, which the list can name
	Wrong []corrections.Correction `json:"wrong"` // of this release; where it is none, all of the list
}

// Of gathers what is known of a program of this version, released on a day and made from a
// commit; the last two may be "".
func Of(version, released, commit string) View {
	v := View{Format: Format, Version: version, Released: released, Commit: commit, BuiltBy: runtime.Version(), System: runtime.GOOS + "/" + runtime.GOARCH}
	if info, ok := debug.ReadBuildInfo(); ok && v.Commit == "" {
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" {
				v.Commit = s.Value
			}
		}
	}
	v.Law.First, v.Law.Last = source.LawYears()
	for _, s := range law.Sources() {
		if isDay(s.Accessed) {
			v.Law.Read = max(v.Law.Read, s.Accessed)
		}
	}
	prices := market.Builtin()
	v.Prices.AsOf = prices.AsOf.Format(time.DateOnly)
	v.Prices.Source = strings.TrimSuffix(prices.Source, prices.AsOf.Format(", 2 January 2006"))
	for _, f := range builtin.Files() {
		v.Tables = append(v.Tables, tableDate{f.Agency, f.File, f.Edition})
	}
	return v
}

// Write prints it for people.
func (v View) Write(w io.Writer) error {
	of := ""
	if v.Released != "" {
		of = " of " + wording.Date(v.Released)
	}
	var b strings.Builder
	fmt.Fprintf(&b, "fencerow %s%s\n", v.Version, of)
	for _, row := range [][2]string{
		{"commit", cmp.Or(v.Commit, "not known")},
		{"built with", v.BuiltBy + " for " + v.System},
		{"law", fmt.Sprintf("crop years %d to %d, newest text read on %s", v.Law.First, v.Law.Last, wording.Date(v.Law.Read))},
		{"prices", fmt.Sprintf("%s (%s)", wording.Date(v.Prices.AsOf), v.Prices.Source)},
		{"tables", "newest of each agency: " + strings.Join(v.newestTables(), "; ") + " (all: --json)"},
	} {
		fmt.Fprintf(&b, "  %-12s%s\n", row[0], row[1])
	}
	if v.Check != nil {
		v.Check.write(&b, v)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// newestTables are the agencies of the built-in tables in order, each with its newest day.
func (v View) newestTables() (all []string) {
	var agencies []string
	newest := map[string]string{}
	for _, t := range v.Tables {
		if !slices.Contains(agencies, t.Agency) {
			agencies = append(agencies, t.Agency)
		}
		if isDay(t.Edition) {
			newest[t.Agency] = max(newest[t.Agency], t.Edition)
		}
	}
	for _, agency := range agencies {
		day := "not dated"
		if newest[agency] != "" {
			day = wording.Date(newest[agency])
		}
		all = append(all, agency+" "+day)
	}
	return all
}

// isDay reports whether a text is a date, which not every source has.
func isDay(text string) bool {
	_, err := time.Parse(time.DateOnly, text)
	return err == nil
}

// CheckBy looks the version up in a list of corrections. What is wrong with the list comes
// back as farm.Mistakes.
func (v *View) CheckBy(name string) error {
	text, err := document.Load(name)
	if err != nil {
		return err
	}
	list, err := corrections.Parse(name, text)
	if err != nil {
		return err
	}
	checked := checkedList{File: name, AsOf: list.AsOf.Format(time.DateOnly), Known: corrections.IsRelease(v.Version), Wrong: list.All}
	if checked.Known {
		checked.Wrong = list.Of(v.Version)
	}
	v.Check = &checked
	return nil
}

// write says what the list says of the program.
func (l checkedList) write(b *strings.Builder, v View) {
	fmt.Fprintf(b, "\n%s is a list of corrections of %s.\n", l.File, wording.Date(l.AsOf))
	switch n := len(l.Wrong); {
	case !l.Known && n > 0:
		fmt.Fprintf(b, "This program is no release, so the list cannot name it. Look at all of it (%d):\n", n)
	case n == 0:
		b.WriteString("No figure of this version is on it.\n")
	default:
		fmt.Fprintf(b, "This version gave a wrong figure (%d on the list):\n", n)
	}
	if v.Released > l.AsOf {
		fmt.Fprintf(b, "The list is older than this version (%s). Look for a newer one.\n", wording.Date(v.Released))
	}
	for _, c := range l.Wrong {
		fixed := "not yet fixed in any version"
		if c.FixedIn != "" {
			fixed = "fixed in version " + c.FixedIn
		}
		fmt.Fprintf(b, "\n%s: wrong from version %s, %s\n  wrong: %s\n  affects: %s\n  do: %s\n", c.ID, c.FirstWrong, fixed, c.Wrong, c.Affects, c.Do)
		if c.Source != "" {
			fmt.Fprintf(b, "  source: %s\n", c.Source)
		}
	}
}
