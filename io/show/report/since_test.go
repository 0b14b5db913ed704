package report

import (
	"fmt"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/sim/answer"
)

// Lines with another lead and those that moved most are listed, in their order; the others
// and those that did not move are counted.
func TestOfSinceListsTheLargest(t *testing.T) {
	s := answer.Since{Before: answer.SinceAnswer{Today: "2026-10-25", Market: "2026-10-12"}, InBoth: 12, Moved: 9, Flipped: 1}
	var among []answer.FarmPart
	for i, moved := range []answer.Dollars{10, -900, 20, 300, 30, -40, 500, 50} {
		key := fmt.Sprintf("99001-%d", i)
		l := answer.SinceLine{Farm: key, Commodity: crop.Corn, CropYear: 2026, Before: answer.MovedSide{Lead: "PLC", Margin: answer.DollarsOf(-9)}, After: answer.MovedSide{Lead: "PLC", Margin: answer.DollarsOf(-9.4)}, Moved: &moved,
			Cause: answer.CausePrice, Changed: []answer.Changed{{By: answer.CausePrice, What: "price", Before: "4.10", After: "4.35"}}}
		if i == 0 {
			l.Flipped, l.After.Lead, l.After.Margin = true, "close", answer.DollarsOf(1.5)
		}
		s.Lines, among = append(s.Lines, l), append(among, answer.FarmPart{Farm: key, Commodities: make([]answer.CommodityPart, 1)})
	}
	s.Lines = append(s.Lines, answer.SinceLine{Farm: "99001-1", Commodity: crop.Corn, CropYear: 2027})
	found := OfSince(s, 2026, "", among, 4)
	var rows []string
	for _, row := range found.Lines.Rows {
		rows = append(rows, strings.Join(row, " "))
	}
	if got, want := strings.Join(rows, "\n"), "0 corn PLC $9 toss-up ARC-CO $1.50 $10 to ARC-CO\n1 corn PLC $9 PLC $9 $900 to PLC\n3 corn PLC $9 PLC $9 $300 to ARC-CO\n6 corn PLC $9 PLC $9 $500 to ARC-CO"; got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	want := []string{"4 more moved less; --full lists them.", "The corn price did it on 4 lines: $4.10 then, $4.35 now.", "Of 12 farm and crop lines of all years in both answers 9 moved, 1 to another lead.", "3 did not move.", "Dollars are averages before shares and limits."}
	if got := strings.Join(found.Said, " "); got != strings.Join(want, " ") {
		t.Errorf("%s\nwant\n%s", got, strings.Join(want, " "))
	}
	if one := OfSince(s, 2026, "99001-6", among, 4); len(one.Lines.Rows) != 1 || strings.Contains(strings.Join(one.Said, " "), "12") {
		t.Errorf("of one farm: %+v", one)
	}
}
