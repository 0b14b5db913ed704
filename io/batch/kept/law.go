package kept

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/law"
)

// lawColumns are the heads of law.csv.
var lawColumns = []string{"id", "commodity", "first_crop_year", "last_crop_year", "value"}

// ofInsurance begins the ids of rows about area insurance, on which no margin of the programs
// rests: they are not kept.
const ofInsurance = "area_"

// Law returns the rows of this program's law as lines of law.csv.
func Law() (lines [][]string) {
	for _, id := range law.IDs() {
		if strings.HasPrefix(id, ofInsurance) {
			continue
		}
		for _, row := range law.Rows(id) {
			lines = append(lines, []string{id, row.Commodity, strconv.Itoa(row.First), strconv.Itoa(row.Last), row.Text})
		}
	}
	return lines
}

// Change is a value that differs, by what it is; "": there is none.
type Change struct{ What, Before, After string }

// LawChanges returns the values of the law that differ and that an answer can rest on: of
// its crop, a class of it or all crops, in its crop year.
func LawChanges(before, after [][]string, c crop.Commodity, y crop.CropYear) (all []Change) {
	old, now := valuesOf(before, c, y), valuesOf(after, c, y)
	both := maps.Clone(old)
	maps.Copy(both, now)
	for _, what := range slices.Sorted(maps.Keys(both)) {
		if old[what] != now[what] {
			all = append(all, Change{what, old[what], now[what]})
		}
	}
	return all
}

// valuesOf are the values of the law by id and crop.
func valuesOf(rows [][]string, c crop.Commodity, y crop.CropYear) map[string]string {
	values := map[string]string{}
	for _, row := range rows {
		if len(row) < len(lawColumns) || !inSpan(row[2], row[3], y) {
			continue
		}
		if row[1] == "" || slices.Contains(c.Classes(), row[1]) {
			values[strings.TrimSpace(row[0]+" "+row[1])] = row[4]
		}
	}
	return values
}

func inSpan(first, last string, y crop.CropYear) bool {
	from, bad := strconv.Atoi(first)
	to, worse := strconv.Atoi(last)
	return bad == nil && worse == nil && from <= y && y <= to
}

// SameLaw reports whether two lists have the same rows in the same order.
func SameLaw(a, b [][]string) bool { return slices.EqualFunc(a, b, slices.Equal[[]string]) }
