package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"fencerow/io/show/personal"
	"fencerow/io/show/report"
	"fencerow/io/show/worklist"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// forLender, byOffice, bySigner and allPeople are values of --sheet and --people.
const forLender, byOffice, bySigner, allPeople = "lender", "elections", "calls", "all"

// sheets are those for one reader that are asked for.
type sheets struct {
	sheet, people string
	withARCIC     *bool // the flag of compare
}

func (s *sheets) add(c *cobra.Command) {
	c.Flags().StringVar(&s.sheet, "sheet", "", "show one sheet alone: lender; elections, by county office; calls, by signer; or that of one person of the file, as landowner. With --page as a page too")
	c.Flags().StringVar(&s.people, "people", "", "all: with --page, write one page for each person of the file, with nobody else's money on it")
}

// check refuses flags that do not go together.
func (s sheets) check(page string, asJSON bool, shown screen) error {
	switch {
	case s.sheet != "" && (shown.farm != "" || shown.full):
		return usageError{"--sheet does not go with --farm or --full", "leave out one of the two"}
	case s.people != "" && s.people != allPeople:
		return usageError{fmt.Sprintf("--people is %q", s.people), "write --people all, or --sheet and one name"}
	case s.people != "" && s.sheet != "":
		return usageError{"--people does not go with --sheet", "leave out one of the two"}
	case s.people != "" && page == "":
		return usageError{"--people goes with --page", "name a file, as --page sheet.html, or a folder"}
	case s.sheet != "" && asJSON:
		return usageError{"--sheet does not go with --json", "leave out one of the two: the JSON has every figure of every sheet"}
	}
	return nil
}

// cropYears are those a lender reads where none are asked for.
func (s sheets) cropYears(q *question) error {
	if s.sheet != forLender || q.cropYears != "" {
		return nil
	}
	day, err := q.day()
	if err != nil {
		return err
	}
	var years []string
	for _, y := range personal.LenderYears(day) {
		years = append(years, fmt.Sprint(y))
	}
	q.cropYears = strings.Join(years, ",")
	return nil
}

// known refuses a sheet for somebody who is not in the file.
func (s sheets) known(o farm.Operation) error {
	if slices.Contains([]string{"", forLender, byOffice, bySigner}, s.sheet) || slices.Contains(peopleOf(o), s.sheet) {
		return nil
	}
	return usageError{fmt.Sprintf("--sheet is %q", s.sheet), "write lender, elections, calls, or a person of the file: " + strings.Join(peopleOf(o), ", ")}
}

// lay returns the one sheet that is asked for; false for none.
func (s sheets) lay(found answer.Comparison) (report.Report, bool) {
	switch s.sheet {
	case "":
		return report.Report{}, false
	case forLender:
		return personal.OfLender(found, *s.withARCIC), true
	case byOffice:
		return worklist.OfElections(found), true
	case bySigner:
		return worklist.OfCalls(found), true
	}
	return personal.OfPerson(found, s.sheet), true
}

// peopleOf are the producers of an operation in the order of its file, then members of
// entities without an entry.
func peopleOf(o farm.Operation) (ids []string) {
	for _, p := range o.Producers {
		ids = append(ids, p.ID)
	}
	for _, p := range o.Producers {
		for _, m := range p.Members {
			if !slices.Contains(ids, m.ID) {
				ids = append(ids, m.ID)
			}
		}
	}
	return ids
}

// pagesOf returns the file of each person's page: in the folder that --page names, else
// beside it with the person's name before the ending. It refuses two that would be one.
func pagesOf(o farm.Operation, page string) (ids, names []string, err error) {
	folder, ending := strings.TrimSuffix(page, filepath.Ext(page))+"-", filepath.Ext(page)
	if info, err := os.Stat(page); err == nil && info.IsDir() || os.IsPathSeparator(page[len(page)-1]) {
		folder, ending = filepath.Clean(page)+string(filepath.Separator), ".html"
	}
	taken := map[string]string{}
	for _, id := range peopleOf(o) {
		name := folder + fileName(id) + ending
		if other, clash := taken[strings.ToLower(name)]; clash {
			return nil, nil, usageError{fmt.Sprintf("the pages of %q and %q would both be %s", other, id, name), "give them names in the file that differ in letters or digits"}
		}
		taken[strings.ToLower(name)] = id
		ids, names = append(ids, id), append(names, name)
	}
	return ids, names, nil
}

// fileName writes a person's name with what any system takes in the name of a file; all
// else becomes a dash.
func fileName(id string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r == '-' || r == '_' {
			return r
		}
		return '-'
	}, id)
}
