package flag

import (
	"fmt"
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
func countyStale(c *Case) []answer.Flag {
	var counties []string
	typed := map[string][]string{} // crops, by county
	for _, base := range c.Bases {
		for _, b := range base.Bases {
			for _, u := range b.Practices {
				if u.Benchmark.Status != "" && !u.Benchmark.Agency {
					counties = AppendOnce(counties, b.County)
					typed[b.County] = AppendOnce(typed[b.County], base.Commodity.Name())
				}
			}
		}
	}
	if len(counties) == 0 {
		return nil
	}
	for i, code := range counties {
		counties[i] = andList(typed[code]) + " in " + c.county(code)
	}
	message := fmt.Sprintf("These %d benchmark yields are typed in or projected, not FSA's: %s. %s", c.CropYear, strings.Join(counties, ", "), newerTable(c.CropYear, c.Question.Today))
	return []answer.Flag{{Code: "county_stale", Severity: answer.Warning, Message: message, Source: "FSA ARC-CO county table"}}
}

// TableDue returns the newest program year whose county table is taken to be out on a day.
func TableDue(today time.Time) crop.CropYear {
	y := today.Year()
	if today.Before(tableOut(y)) {
		return y - 1
	}
	return y
}

// tableOut is the day by which the county table of a program year is taken to be out.
func tableOut(y crop.CropYear) time.Time {
	return time.Date(y, countyTablesOut.Month, countyTablesOut.Day, 0, 0, 0, 0, time.UTC)
}

// newerTable says what to do where the table of a program year is not at hand.
func newerTable(y crop.CropYear, today time.Time) string {
	out := tableOut(y)
	if today.Before(out) {
		return fmt.Sprintf("FSA publishes its %d table around %s. Compare them with it then.", y, out.Format("January 2006"))
	}
	return fmt.Sprintf("FSA's %d table is usually out by now. Save \"ARC-CO trend adjusted yields, benchmark yields and guarantee revenues\" of %d from %s. Then run: fencerow county import ARCCO_%d.xlsx, with the name under which you saved it.", y, y, countyTablesPage, y)
}
