package flag

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fencerow/program/crop"
	"fencerow/sim/answer"
)

// countyTablesOut is the day of a program year by which FSA's county table of that year is
// taken to be out: the editions at hand are of 2 January 2024 and 10 February 2025
// (docs/data.md). A judgement.
var countyTablesOut = struct {
	Month time.Month
	Day   int
}{time.February, 15}

// countyTablesPage is where FSA's county tables stand.
const countyTablesPage = "https://www.fsa.usda.gov/resources/programs/arc-plc/program-data"

// countyStale flags farms whose benchmark yield is not from an agency's table of that
// program year, and says where the table is, or when it is expected.
func countyStale(c Case) []answer.Flag {
	var typed []string
	for _, base := range c.Bases {
		for _, b := range base.Bases {
			for _, u := range b.Practices {
				name := base.Commodity.Name() + " in county " + b.County
				if u.Benchmark.Status != "" && !u.Benchmark.Agency && !slices.Contains(typed, name) {
					typed = append(typed, name)
				}
			}
		}
	}
	if len(typed) == 0 {
		return nil
	}
	message := fmt.Sprintf("The crop year %d benchmark yield of %s is typed or projected, not from the agency's table of that year. %s", c.CropYear, strings.Join(typed, ", "), newerTable(c.CropYear, c.Question.Today))
	return []answer.Flag{{Code: "county_stale", Severity: answer.Warning, Message: message, Source: "FSA ARC-CO county table"}}
}

// newerTable says what to do where the table of a program year is not at hand.
func newerTable(y crop.CropYear, today time.Time) string {
	out := time.Date(y, countyTablesOut.Month, countyTablesOut.Day, 0, 0, 0, 0, time.UTC)
	if today.Before(out) {
		return fmt.Sprintf("FSA's table of program year %d is expected about %s. Compare it with the table when it is published.", y, out.Format("January 2006"))
	}
	return fmt.Sprintf("FSA's table of program year %d should be out by now. Save \"ARC-CO trend adjusted yields, benchmark yields and guarantee revenues\" of %d from %s. Then: fencerow county import ARCCO_%d.xlsx, with the name under which it was saved.", y, y, countyTablesPage, y)
}
